import type { Connection } from "../schema/connection.ts";
import { textSeal } from "./seal.ts";

/** The small tables, each in the order of its key. */
const smallTables = [
  "SELECT item, identity, name, method, confidence, is_example, created_at, created_by FROM study",
  "SELECT item, name, position FROM variant NOT INDEXED ORDER BY item",
  "SELECT variant, factor, level FROM variant_level ORDER BY variant, factor",
  "SELECT item, name, value FROM fuel ORDER BY item",
  "SELECT item, name, value FROM pot ORDER BY item",
  "SELECT item, name, value FROM instrument ORDER BY item",
  "SELECT name, value FROM setting ORDER BY name",
  "SELECT item, file, sha256 FROM attachment ORDER BY item",
  "SELECT item, kind, run, value FROM remark NOT INDEXED ORDER BY item",
] as const;

/** How the file came to be: not content, but sealed with it. */
const madeBy = [
  "SELECT runs FROM study",
  "SELECT number, checksum, at, program FROM migration ORDER BY number",
] as const;

const textOf = (connection: Connection, queries: readonly string[]): string =>
  JSON.stringify(queries.map((query) => connection.all(query).map((row) => Object.values(row))));

/** Content of the small tables as one text. */
export const smallContent = (connection: Connection): string => textOf(connection, smallTables);

export const studySeal = (connection: Connection): string =>
  textSeal(smallContent(connection) + textOf(connection, madeBy));

export function renewStudySeal(connection: Connection): void {
  connection.write("UPDATE study SET seal = ?", studySeal(connection));
}
