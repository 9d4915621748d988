import { type CsvCell, csvText, type Locale } from "../../../core/index.ts";
import type { RecordedChange, RecordedEdit, Subject } from "../../store/index.ts";
import { columnOfField, textOf } from "./cell-history.ts";
import { recordedView } from "./record-words.ts";
import type { StudySession } from "./study-session.ts";

const columns = ["edit", "at", "who", "way", "what", "run", "phase", "column", "before", "after", "why"];

const ofCells: ReadonlySet<Subject> = new Set(["reading", "text", "runField"]);

/**
 * The record of amendments as a CSV file, the oldest first: a line for each cell that an edit changed, or one for an edit of another
 * kind. It is what a test laboratory keeps of changes to its records (ISO/IEC 17025:2017, 7.5.2, from memory).
 */
export function recordFile({ content, file: { database } }: StudySession, locale: Locale): string {
  const names = new Map(content.lines().map(({ run, name }) => [run, name]));
  const lines = database
    .record(Number.MAX_SAFE_INTEGER)
    .toReversed()
    .flatMap((edit) => {
      const cells = database.changesOf(edit.edit).filter(({ subject }) => ofCells.has(subject));
      return cells.length === 0 ? [lineOf(edit, locale)] : cells.toReversed().map((change) => cellLine(change));
    });
  return csvText([columns, ...lines]);

  function cellLine(change: RecordedChange): CsvCell[] {
    const column = change.subject === "runField" ? columnOfField(change.field ?? "") : (change.field ?? "");
    const run = change.item === null ? "" : (names.get(change.item) ?? String(change.item));
    const [before, after] = [change.before, change.after].map((value) => textOf(value, column, database));
    return lineOf(change, locale, [run, change.phase, column, before ?? "", after ?? ""]);
  }
}

function lineOf(
  edit: RecordedEdit,
  locale: Locale,
  cell: readonly CsvCell[] = [null, null, null, null, null],
): CsvCell[] {
  const { at, who, way, what, why } = recordedView(edit, locale);
  return [edit.edit, at, who, way, what, ...cell, why];
}
