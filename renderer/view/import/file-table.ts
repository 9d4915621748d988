import type { ImportView } from "../../../app/contract/index.ts";
import type { Problem } from "../../../core/index.ts";
import type { GridPlace } from "../../component/grid-place.ts";

/** The heading row, as a spreadsheet counts. */
export const headingRow = 1;

/** The file's rows as the grid has them: row −1 is the heading, column 0 the row's number. */
export interface FileTable {
  readonly headings: readonly string[];
  readonly rowNumber: (gridRow: number) => number;
  /** Where a problem stands; null for one of the whole file, and of the settings. */
  readonly placeOf: (problem: Problem) => GridPlace | null;
  readonly problemsAt: (place: GridPlace) => readonly Problem[];
}

const keyOf = (place: GridPlace) => `${place.row}:${place.column}`;

export function fileTable(view: ImportView): FileTable {
  const width = view.rows.reduce((most, row) => Math.max(most, row.cells.length), view.columns.length);
  const headings = Array.from({ length: width }, (_, index) => view.columns[index] ?? "");
  const gridRows = new Map(view.rows.map((row, index) => [row.row, index]));

  const placeOf = (problem: Problem): GridPlace | null => {
    // Lines of the settings are no rows of the readings.
    if (problem.file === view.settingsFile && problem.file !== view.readingsFile) return null;
    const column = problem.column === null ? -1 : headings.indexOf(problem.column);
    if (problem.row === null) return column < 0 ? null : { row: -1, column: column + 1 };
    const row = problem.row === headingRow ? -1 : gridRows.get(problem.row);
    return row === undefined ? null : { row, column: column + 1 };
  };

  const byPlace = new Map<string, Problem[]>();
  for (const problem of view.problems) {
    const place = placeOf(problem);
    if (place === null) continue;
    const key = keyOf(place);
    byPlace.set(key, [...(byPlace.get(key) ?? []), problem]);
  }

  return {
    headings,
    rowNumber: (gridRow) => (gridRow < 0 ? headingRow : (view.rows[gridRow]?.row ?? headingRow)),
    placeOf,
    problemsAt: (place) => byPlace.get(keyOf(place)) ?? [],
  };
}
