import { randomUUID } from "node:crypto";
import { closeSync, fsyncSync, openSync, rmSync } from "node:fs";
import { dirname } from "node:path";
import type { Method } from "../../../core/index.ts";
import { Connection } from "../schema/connection.ts";
import { applyMigration } from "../schema/migrate.ts";
import type { Migration } from "../schema/migration.ts";
import { EditLog } from "./change-log.ts";
import { insertCounters } from "./counters.ts";
import { valueText } from "./place.ts";
import { textSeal } from "./seal.ts";
import { renewStudySeal } from "./study-seal.ts";

export interface NewStudy {
  readonly name: string;
  readonly method: Method;
  readonly confidence: number;
  readonly isExample: boolean;
  readonly who: string;
  /** "boilbench 0.1.0" */
  readonly program: string;
}

/**
 * Pages of 4096 bytes: those of most disks and of SQLite itself; an edit writes some ten of them whole, so larger ones would write
 * more for each. No auto_vacuum: it moves pages about at every commit that frees some, and pages that an undone import freed are
 * used again in any case.
 */
const layout = "PRAGMA page_size = 4096; PRAGMA auto_vacuum = NONE; PRAGMA encoding = 'UTF-8'";

/** Names of the folder are on disk only when the folder is; Windows has no such step, and refuses. */
function syncFolder(path: string): void {
  try {
    const folder = openSync(dirname(path), "r");
    try {
      fsyncSync(folder);
    } finally {
      closeSync(folder);
    }
  } catch {
    // Where a folder cannot be opened or synced, the system does it on its own.
  }
}

/** The creation stands first in the record; it is not undone. */
function recordCreation(connection: Connection, study: NewStudy, at: string): void {
  const { name, method, confidence, who } = study;
  const edit = { edit: 1, at, who, way: "edit", of: null, what: "create", about: { name }, why: null } as const;
  const log = new EditLog(connection, { id: 0, edit: 0, seal: "" }, edit);
  for (const [field, value] of Object.entries({ name, method, confidence })) {
    log.add({ subject: "study", item: null, phase: null, field, before: null, after: valueText(value), place: null });
  }
}

function fill(connection: Connection, study: NewStudy, migrations: readonly Migration[], at: string): void {
  for (const migration of migrations) applyMigration(connection, migration, study.program, at);
  connection.write(
    `INSERT INTO study (item, identity, name, method, confidence, is_example, created_at, created_by, runs, seal)
     VALUES (1, ?, ?, ?, ?, ?, ?, ?, 0, ?)`,
    ...[randomUUID(), study.name, study.method, study.confidence, study.isExample ? 1 : 0, at, study.who, textSeal("")],
  );
  insertCounters(connection);
  recordCreation(connection, study, at);
  renewStudySeal(connection);
}

/** Makes a new file, whole on disk, and leaves nothing where that fails. */
export function newFile(path: string, study: NewStudy, migrations: readonly Migration[], now: () => Date): Connection {
  closeSync(openSync(path, "wx"));
  let connection: Connection | null = null;
  try {
    connection = new Connection(path, false);
    const made = connection;
    made.database.exec(layout);
    made.transaction(() => fill(made, study, migrations, now().toISOString()));
    syncFolder(path);
    return made;
  } catch (error) {
    connection?.close(false);
    rmSync(path, { force: true });
    rmSync(`${path}-journal`, { force: true });
    throw error;
  }
}
