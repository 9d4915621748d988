import { createHash } from "node:crypto";
import type { Migration } from "../../../app/store/index.ts";
import { migrations } from "../../../app/store/schema/migrations.ts";

function migration(number: number, sql: string): Migration {
  return { number, sql, checksum: createHash("sha256").update(sql).digest("hex") };
}

const next = migrations.length + 1;
/** The layouts of a program of later days, which keeps the weather as well. */
export const laterLayouts = [
  ...migrations,
  migration(next, "CREATE TABLE weather (day TEXT PRIMARY KEY NOT NULL) STRICT"),
];
/** The same, with a step that fails half way. */
export const failingLayouts = [
  ...migrations,
  migration(next, "CREATE TABLE weather (day TEXT PRIMARY KEY NOT NULL) STRICT; INSERT INTO weather VALUES (NULL)"),
];
