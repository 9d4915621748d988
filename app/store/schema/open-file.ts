import { closeSync, openSync, readSync } from "node:fs";
import { asFault, StoreFault } from "../fault.ts";
import { applicationId, checkMigrations, checkNewerSchema, checkSchema } from "./check-schema.ts";
import { Connection } from "./connection.ts";
import type { Migration } from "./migration.ts";

/** How every SQLite 3 file begins (sqlite.org/fileformat.html, 1.3). */
const magic = Buffer.from("SQLite format 3\0", "latin1");

/**
 * Looks at the first 100 bytes before SQLite does: opening a file in WAL mode would write files beside it.
 *
 * @throws StoreFault "empty", "notAStudy", "damaged", "foreign"
 */
function checkHeader(path: string): void {
  const header = Buffer.alloc(100);
  const file = openSync(path, "r");
  let length: number;
  try {
    length = readSync(file, header, 0, 100, 0);
  } finally {
    closeSync(file);
  }
  if (length === 0) throw new StoreFault("empty", "the file has no bytes");
  const start = Math.min(length, magic.length);
  if (!header.subarray(0, start).equals(magic.subarray(0, start))) {
    throw new StoreFault("notAStudy", "the file does not begin as a SQLite database does");
  }
  if (length < 100) throw new StoreFault("damaged", `the file ends after ${length} bytes`);
  if (header.readUInt32BE(68) !== applicationId) {
    throw new StoreFault("notAStudy", "a SQLite database of another program");
  }
  const [write, read] = [header[18], header[19]];
  if (write === 2 || read === 2) throw new StoreFault("foreign", "journal mode WAL");
  if (write !== 1 || read !== 1) throw new StoreFault("damaged", `format versions ${write} and ${read} in the header`);
}

/**
 * Tables whose CHECKs are evaluated at opening. Those of the three largest would take longer than all the rest: their content is
 * under seals, compared when it is read. (A connection for reading alone knows no CHECKs: SQLite does not load them.)
 */
const checkedTables = [
  ...["study", "variant", "variant_level", "fuel", "pot", "instrument", "setting", "attachment", "remark"],
  ...["run", "run_level", "phase", "series", "counter", "migration"],
];

function quickCheck(connection: Connection, pragma: string): void {
  const first = connection.all(pragma)[0];
  if (first?.quick_check !== "ok") throw new StoreFault("damaged", String(first?.quick_check));
}

/** Pages and rows as SQLite sees them, checks, and foreign keys. */
function checkWhole(connection: Connection, readOnly: boolean): void {
  connection.database.exec("PRAGMA ignore_check_constraints = ON");
  quickCheck(connection, "PRAGMA quick_check(1)");
  connection.database.exec("PRAGMA ignore_check_constraints = OFF");
  if (!readOnly) for (const table of checkedTables) quickCheck(connection, `PRAGMA quick_check(${table})`);
  const stray = connection.all("PRAGMA foreign_key_check")[0];
  if (stray !== undefined) {
    throw new StoreFault("damaged", `a row of ${stray.table} belongs to no row of ${stray.parent}`);
  }
}

export interface CheckedFile {
  readonly connection: Connection;
  /** Version of the schema that the file has. */
  readonly version: number;
}

function checkedVersion(
  connection: Connection,
  migrations: readonly Migration[],
  readOnly: boolean,
  salvage: boolean,
): number {
  if (connection.number("PRAGMA page_count") === 0) throw new StoreFault("empty", "the file has no pages");
  if (connection.number("PRAGMA application_id") !== applicationId) {
    throw new StoreFault("notAStudy", "a SQLite database of another program");
  }
  const version = connection.number("PRAGMA user_version");
  if (version < 1) throw new StoreFault("damaged", `schema version ${version}`);
  if (version > migrations.length) {
    if (!readOnly) throw new StoreFault("newer", `schema version ${version}`);
    checkNewerSchema(connection);
  } else {
    checkSchema(connection, migrations, version);
  }
  if (salvage) return version;
  checkMigrations(connection, migrations, version);
  checkWhole(connection, readOnly);
  return version;
}

/** A header that is ours followed by pages that SQLite cannot take for a database is a study that was damaged. */
function faultOfOpening(error: unknown): StoreFault {
  const fault = asFault(error);
  const isOfSqlite = fault.cause instanceof Error && "errcode" in fault.cause;
  return fault.code === "notAStudy" && isOfSqlite ? new StoreFault("damaged", fault.detail, { cause: error }) : fault;
}

/**
 * Opens a study and checks that it is one, whole and of our making. Nothing of this writes to it, except that SQLite plays back
 * the journal of a transaction that was cut short. With `salvage`, pages and rows are not checked here.
 *
 * @throws StoreFault
 */
export function openFile(
  path: string,
  migrations: readonly Migration[],
  readOnly: boolean,
  salvage: boolean,
): CheckedFile {
  let connection: Connection | null = null;
  try {
    checkHeader(path);
    connection = new Connection(path, readOnly);
    connection.salvages = salvage;
    return { connection, version: checkedVersion(connection, migrations, readOnly, salvage) };
  } catch (error) {
    connection?.close(true);
    throw faultOfOpening(error);
  }
}
