/** The study file. */
export type * from "./content.ts";
export { runFields } from "./content.ts";
export { asFault, type FaultCode, StoreFault } from "./fault.ts";
export type { Backup } from "./file/backup.ts";
export { type BackupOfFile, backupsOfFile, listBackups, openBackup, saveBackup } from "./file/backups.ts";
export { diskFault, removeLeftovers, writeWhole } from "./file/disk.ts";
export type { FileNote, Holder, NewStudy, OpenedFile, ReadOnlyReason } from "./file/opened-file.ts";
export { type Place, type PlaceFacts, placeOf } from "./file/place-of.ts";
export type { Places } from "./file/places.ts";
export { createStudyFile, openStudyFile, receiveStudyFile } from "./file/study-file.ts";
export type { Migration } from "./schema/migration.ts";
export {
  type CreateOptions,
  type Numbered,
  type OpenOptions,
  StudyDatabase,
  type Undone,
} from "./study-database.ts";
