import type { Method } from "../../../core/index.ts";
import type { StoredAttachment, StoredHead, StoredNamed, StoredRemark, StoredVariant } from "../content.ts";
import { StoreFault } from "../fault.ts";
import type { Connection, Row } from "../schema/connection.ts";
import { parsed } from "./content-text.ts";

const readVariant = (connection: Connection, row: Row): StoredVariant => ({
  name: row.name as string,
  position: row.position as number,
  levels: new Map(
    connection
      .all("SELECT factor, level FROM variant_level WHERE variant = ?", row.item as number)
      .map((level): [string, string] => [level.factor as string, level.level as string]),
  ),
});

export function variantAt(connection: Connection, item: number): StoredVariant | null {
  const row = connection.one("SELECT item, name, position FROM variant WHERE item = ?", item);
  return row === undefined ? null : readVariant(connection, row);
}

function readVariants(connection: Connection): Map<number, StoredVariant> {
  const rows = connection.all("SELECT item, name, position FROM variant NOT INDEXED ORDER BY position, item");
  return new Map(rows.map((row): [number, StoredVariant] => [row.item as number, readVariant(connection, row)]));
}

export type NamedTable = "fuel" | "pot" | "instrument";

const readNamed = (connection: Connection, table: NamedTable): Map<number, StoredNamed> =>
  new Map(
    connection
      .all(`SELECT item, name, value FROM ${table} ORDER BY item`)
      .map(({ item, name, value }): [number, StoredNamed] => [
        item as number,
        { name: name as string, value: parsed(value as string) },
      ]),
  );

const readAttachments = (connection: Connection): Map<number, StoredAttachment> =>
  new Map(
    connection
      .all("SELECT item, file, sha256 FROM attachment ORDER BY item")
      .map(({ item, file, sha256 }): [number, StoredAttachment] => [
        item as number,
        { file: file as string, sha256: sha256 as string },
      ]),
  );

export const remarkOfRow = (row: Row): StoredRemark => ({
  kind: row.kind as StoredRemark["kind"],
  run: row.run as number | null,
  value: parsed(row.value as string),
});

const readRemarks = (connection: Connection): Map<number, StoredRemark> =>
  new Map(
    connection
      .all("SELECT item, kind, run, value FROM remark NOT INDEXED ORDER BY item")
      .map((row): [number, StoredRemark] => [row.item as number, remarkOfRow(row)]),
  );

const readSettings = (connection: Connection): Map<string, unknown> =>
  new Map(
    connection
      .all("SELECT name, value FROM setting ORDER BY name")
      .map((row): [string, unknown] => [row.name as string, parsed(row.value as string)]),
  );

/** The one row of the table `study`. */
export function studyRow(connection: Connection): Row {
  const row = connection.one(
    "SELECT identity, name, method, confidence, is_example, created_at, created_by FROM study WHERE item = 1",
  );
  if (row === undefined) throw new StoreFault("damaged", "the file holds no study");
  return row;
}

export function readHead(connection: Connection): StoredHead {
  const row = studyRow(connection);
  return {
    identity: row.identity as string,
    name: row.name as string,
    method: row.method as Method,
    confidence: row.confidence as number,
    isExample: row.is_example === 1,
    createdAt: row.created_at as string,
    createdBy: row.created_by as string,
    variants: readVariants(connection),
    fuels: readNamed(connection, "fuel"),
    pots: readNamed(connection, "pot"),
    instruments: readNamed(connection, "instrument"),
    settings: readSettings(connection),
    attachments: readAttachments(connection),
    remarks: readRemarks(connection),
  };
}
