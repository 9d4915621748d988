import type { StudyDatabase } from "../study-database.ts";
import type { Backup } from "./backup.ts";
import type { Places } from "./places.ts";

/** The backups of a study, newest first. */
export function listBackups(_identity: string, _places: Places): Backup[] {
  return [];
}

/** A backup, to look at. @throws {StoreFault} "gone" where it is not one that is listed. */
export function openBackup(_identity: string, id: string, _places: Places): StudyDatabase {
  throw new Error(`no backup ${id}`);
}
