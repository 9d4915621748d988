import type { StoredAttachment, StoredNamed, StoredRemark, StoredVariant } from "../content.ts";
import type { Connection } from "../schema/connection.ts";
import type { NamedTable } from "./read-study.ts";

type SmallTable = "variant" | "attachment" | "remark" | NamedTable;

const remove = (connection: Connection, table: SmallTable, item: number): void =>
  connection.write(`DELETE FROM ${table} WHERE item = ?`, item);

export function writeVariant(connection: Connection, item: number, variant: StoredVariant | null): void {
  connection.write("DELETE FROM variant_level WHERE variant = ?", item);
  remove(connection, "variant", item);
  if (variant === null) return;
  connection.write(
    "INSERT INTO variant (item, name, position) VALUES (?, ?, ?)",
    ...[item, variant.name, variant.position],
  );
  for (const [factor, level] of variant.levels) {
    connection.write("INSERT INTO variant_level (variant, factor, level) VALUES (?, ?, ?)", item, factor, level);
  }
}

export function writeNamed(connection: Connection, table: NamedTable, item: number, named: StoredNamed | null): void {
  remove(connection, table, item);
  if (named === null) return;
  connection.write(
    `INSERT INTO ${table} (item, name, value) VALUES (?, ?, ?)`,
    ...[item, named.name, JSON.stringify(named.value)],
  );
}

export function writeAttachment(connection: Connection, item: number, attachment: StoredAttachment | null): void {
  remove(connection, "attachment", item);
  if (attachment === null) return;
  connection.write(
    "INSERT INTO attachment (item, file, sha256) VALUES (?, ?, ?)",
    ...[item, attachment.file, attachment.sha256],
  );
}

export function writeRemark(connection: Connection, item: number, remark: StoredRemark | null): void {
  remove(connection, "remark", item);
  if (remark === null) return;
  connection.write(
    "INSERT INTO remark (item, kind, run, value) VALUES (?, ?, ?, ?)",
    ...[item, remark.kind, remark.run, JSON.stringify(remark.value)],
  );
}

export function writeSetting(connection: Connection, name: string, value: unknown): void {
  connection.write("DELETE FROM setting WHERE name = ?", name);
  if (value !== null) {
    connection.write("INSERT INTO setting (name, value) VALUES (?, ?)", name, JSON.stringify(value));
  }
}

export function writeStudyField(
  connection: Connection,
  field: "name" | "method" | "confidence",
  value: string | number,
): void {
  connection.write(`UPDATE study SET ${field} = ?`, value);
}
