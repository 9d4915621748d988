import { StoreFault } from "../fault.ts";
import { renewStudySeal } from "../record/study-seal.ts";
import type { Connection } from "./connection.ts";
import type { Migration } from "./migration.ts";

/** One step, within a transaction: its SQL, the version, its line in the file's own list. */
export function applyMigration(connection: Connection, migration: Migration, program: string, at: string): void {
  connection.database.exec(migration.sql);
  connection.database.exec(`PRAGMA user_version = ${Math.trunc(migration.number)}`);
  connection.write(
    "INSERT INTO migration (number, checksum, at, program) VALUES (?, ?, ?, ?)",
    migration.number,
    migration.checksum,
    at,
    program,
  );
}

/** Brings a file up to our version, one transaction a step. A step that is cut short leaves the version before it whole. */
export function migrate(
  connection: Connection,
  migrations: readonly Migration[],
  version: number,
  program: string,
  now: () => Date,
): void {
  for (const migration of migrations.slice(version)) {
    connection.transaction(() => {
      if (connection.number("PRAGMA user_version") !== migration.number - 1) {
        throw new StoreFault("changedOutside", "another program migrated the file");
      }
      applyMigration(connection, migration, program, now().toISOString());
      renewStudySeal(connection);
    });
  }
}
