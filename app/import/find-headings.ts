import { matchHeading } from "./match-headings.ts";
import type { ProblemList } from "./problem-list.ts";
import type { ReadTable } from "./read-table.ts";

/** A heading row has at least so many of the layout's columns, and no row of readings has. */
export const fewestHeadings = 3;

/** How many cells of a row are looked at: enough to tell headings from readings. */
const cellsSearched = 120;

/** How far down headings are looked for, where a title or a remark stands above them. */
export const rowsSearched = 50;

/** How many cells of a row are headings of the layout. */
export function headingsIn(cells: readonly string[]): number {
  return cells.slice(0, cellsSearched).filter((cell) => matchHeading(cell).kind === "column").length;
}

/** False, and said, where the row that should hold the headings does not: one error in place of one for each column. */
export function headingsAreThere({ headings, headingRow, rows }: ReadTable, list: ProblemList): boolean {
  if (headingsIn(headings) >= fewestHeadings) return true;
  const below = rows.slice(0, rowsSearched).find(({ cells }) => headingsIn(cells) >= fewestHeadings);
  const { file } = list.words;
  const message =
    below === undefined
      ? file.headingsUnknown({ row: headingRow })
      : file.headingsBelow({ row: headingRow, found: below.row });
  list.error("headings-not-found", { row: headingRow }, message);
  return false;
}
