import type { Change } from "../content.ts";
import type { Connection, Row } from "../schema/connection.ts";
import { levelsText, parsed, phaseText, runText, seriesText, variantText } from "./content-text.ts";
import { attachmentText, namedText, readingText, remarkText, valueText } from "./place.ts";
import { levelsOf, phaseAt, phaseKey, sealedRunAt, seriesAt } from "./read-run.ts";
import { remarkOfRow, variantAt } from "./read-study.ts";

const textOf = <T>(found: T | null | undefined, text: (found: T) => string): string | null =>
  found === null || found === undefined ? null : text(found);

const columnText = (row: Row | undefined): string | null =>
  textOf(row, (found) => {
    const value = Object.values(found)[0];
    return value === null ? "null" : valueText(value);
  });

const nullAsNothing = (text: string | null): string | null => (text === "null" ? null : text);

/** Where each field of a run stands, but its levels. */
const runFieldQuery = {
  name: "SELECT name FROM run WHERE item = ?",
  variant: "SELECT variant FROM run WHERE item = ?",
  method: "SELECT method FROM run WHERE item = ?",
  date: "SELECT date FROM run WHERE item = ?",
  order: "SELECT run_order FROM run WHERE item = ?",
  block: "SELECT block FROM run WHERE item = ?",
  operator: "SELECT operator FROM run WHERE item = ?",
  leftOut: "SELECT left_out FROM run WHERE item = ?",
} as const;

/** What stands at the place of a change, as text; null: nothing. */
export function textAt(connection: Connection, change: Change): string | null {
  switch (change.subject) {
    case "study":
      return columnText(connection.one(`SELECT ${change.field} FROM study WHERE item = 1`));
    case "setting":
      return textOf(
        connection.one("SELECT value FROM setting WHERE name = ?", change.field),
        (row) => row.value as string,
      );
    case "variant":
      return textOf(variantAt(connection, change.item), variantText);
    case "fuel":
    case "pot":
    case "instrument":
      return textOf(
        connection.one(`SELECT name, value FROM ${change.subject} WHERE item = ?`, change.item),
        ({ name, value }) => namedText({ name: name as string, value: parsed(value as string) }),
      );
    case "attachment":
      return textOf(
        connection.one("SELECT file, sha256 FROM attachment WHERE item = ?", change.item),
        ({ file, sha256 }) => attachmentText({ file: file as string, sha256: sha256 as string }),
      );
    case "remark":
      return textOf(connection.one("SELECT kind, run, value FROM remark WHERE item = ?", change.item), (row) =>
        remarkText(remarkOfRow(row)),
      );
    case "series":
      return textOf(seriesAt(connection, change.item), seriesText);
    case "run":
      return textOf(sealedRunAt(connection, change.item), ({ run }) => runText(run));
    case "runField":
      return change.field === "levels"
        ? levelsText(levelsOf(connection, change.item))
        : nullAsNothing(columnText(connection.one(runFieldQuery[change.field], change.item)));
    case "phase":
      return textOf(phaseAt(connection, change.item, change.phase), phaseText);
    case "timing":
      return columnText(connection.one("SELECT timing FROM phase WHERE id = ?", phaseKey(change.item, change.phase)));
    case "reading":
      return textOf(
        connection.one(
          'SELECT act, value FROM reading WHERE phase = ? AND "column" = ?',
          ...[phaseKey(change.item, change.phase), change.field],
        ),
        ({ act, value }) => readingText({ act: act as number, value: value as number }),
      );
    case "text":
      return columnText(
        connection.one(
          'SELECT text FROM phase_text WHERE phase = ? AND "column" = ?',
          ...[phaseKey(change.item, change.phase), change.field],
        ),
      );
  }
}
