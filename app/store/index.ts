export type { Backup } from "./file/backup.ts";
export { listBackups, openBackup } from "./file/backups.ts";
export type { FileNote, Holder, NewStudy, OpenedFile, ReadOnlyReason } from "./file/opened-file.ts";
export { type Place, type PlaceFacts, placeOf } from "./file/place-of.ts";
export type { Places } from "./file/places.ts";
export { createStudyFile, openStudyFile } from "./file/study-file.ts";
