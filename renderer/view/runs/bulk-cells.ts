import type { GridRowView } from "../../../app/contract/index.ts";
import type { Words } from "../../../core/index.ts";
import { isSameText } from "../../state/cell-desk.ts";
import { type BulkCell, type BulkWay, bulkKey } from "../../state/grid-bulk.ts";
import { plainText, type RunsColumn, readingOf } from "./grid-columns.ts";

/** The cell of an edit that a place of the grid is: run's own columns have no phase. */
export const phaseOfCell = (row: GridRowView, column: RunsColumn) => (column.group === "run" ? null : row.phase);

/** Why a cell cannot be written to; null where it can. */
function troubleOf(column: RunsColumn, words: Words["screens"]): string | null {
  if (column.at === null) return words.grid.runName;
  if (column.reading !== null) return null;
  return column.group === "run" ? words.grid.leftOutHere : words.changes.computed;
}

/**
 * What an edit over a range changes: cells in which something else stands than is to. Of what was pasted also those that cannot be
 * written to, with the reason, unless they hold the very same; filling and emptying pass over them.
 */
export function bulkCells(
  way: BulkWay,
  rows: readonly GridRowView[],
  columns: readonly RunsColumn[],
  textAt: (row: number, column: number) => string,
  words: Words["screens"],
): BulkCell[] {
  const cells = new Map<string, BulkCell>();
  rows.forEach((row, down) => {
    columns.forEach((column, across) => {
      const text = textAt(down, across);
      const trouble = troubleOf(column, words);
      const was = readingOf(row, column);
      const isSame = isSameText(text, was) || isSameText(text, plainText(row, column, words));
      if (trouble !== null && (way !== "paste" || isSame)) return;
      const cell = {
        run: row.runId,
        name: row.run,
        phase: phaseOfCell(row, column),
        column: column.reading ?? column.key,
        text,
        was,
        trouble,
      };
      const key = bulkKey(cell);
      const other = cells.get(key);
      if (other === undefined) cells.set(key, cell);
      else if (!isSameText(other.text, text)) cells.set(key, { ...other, trouble: words.grid.twoTexts(row.run) });
    });
  });
  // Only now: of a run's own column one row may say the same, another something else.
  return [...cells.values()].filter(({ text, was, trouble }) => trouble !== null || !isSameText(text, was));
}
