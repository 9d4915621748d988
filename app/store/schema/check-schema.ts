import { StoreFault } from "../fault.ts";
import { Connection, type Row } from "./connection.ts";
import type { Migration } from "./migration.ts";

/** "Boil": what marks a SQLite file as a study. */
export const applicationId = 0x426f_696c;

const objectsQuery = "SELECT type, name, tbl_name, sql FROM sqlite_schema";

const nameOf = (row: Row): string => `${row.type} ${row.name}`;
const bodyOf = (row: Row): string => JSON.stringify([row.tbl_name, row.sql]);

const made = new WeakMap<readonly Migration[], Map<number, ReadonlyMap<string, string>>>();

/** Objects of the schema that our migrations give for a version, by type and name; made once in memory. */
function expectedObjects(migrations: readonly Migration[], version: number): ReadonlyMap<string, string> {
  const known = made.get(migrations) ?? new Map<number, ReadonlyMap<string, string>>();
  made.set(migrations, known);
  let objects = known.get(version);
  if (objects === undefined) {
    const memory = new Connection(":memory:", false);
    for (const { sql } of migrations.slice(0, version)) memory.database.exec(sql);
    objects = new Map(memory.all(objectsQuery).map((row) => [nameOf(row), bodyOf(row)]));
    memory.close(false);
    known.set(version, objects);
  }
  return objects;
}

/**
 * Compares the file's schema with ours, object by object. Reading `sqlite_schema` runs nothing that the file brings along.
 *
 * @throws StoreFault "foreign", naming the object that is too many, missing or other than ours
 */
export function checkSchema(connection: Connection, migrations: readonly Migration[], version: number): void {
  const expected = expectedObjects(migrations, version);
  const found = new Set<string>();
  for (const row of connection.all(objectsQuery)) {
    const name = nameOf(row);
    if (expected.get(name) !== bodyOf(row)) throw new StoreFault("foreign", name);
    found.add(name);
  }
  for (const name of expected.keys()) {
    if (!found.has(name)) throw new StoreFault("foreign", `${name} is missing`);
  }
}

/** A later version's objects are not known; what could run when tables are read is refused. */
export function checkNewerSchema(connection: Connection): void {
  for (const row of connection.all(objectsQuery)) {
    const isVirtual = row.type === "table" && /^\s*CREATE\s+VIRTUAL/i.test(String(row.sql));
    if (row.type === "view" || isVirtual) throw new StoreFault("foreign", nameOf(row));
  }
}

/**
 * The file's own list of the migrations that made it must be ours, as far as ours go.
 *
 * @throws StoreFault "migrationChanged"
 */
export function checkMigrations(connection: Connection, migrations: readonly Migration[], version: number): void {
  const rows = connection.all("SELECT number, checksum FROM migration ORDER BY number");
  if (rows.length !== version) {
    throw new StoreFault("migrationChanged", `${rows.length} migrations are listed in a file of version ${version}`);
  }
  for (const [index, row] of rows.entries()) {
    const ours = migrations[index];
    const isOurs = ours === undefined || (row.number === ours.number && row.checksum === ours.checksum);
    if (!isOurs) throw new StoreFault("migrationChanged", `migration ${row.number}`);
  }
}
