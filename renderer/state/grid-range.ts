import type { GridPlace } from "../component/grid-place.ts";

/** Cells of a grid from one corner to the other, both among them. */
export interface GridRange {
  readonly top: number;
  readonly bottom: number;
  readonly left: number;
  readonly right: number;
}

/** The cells between two corners; headings are never among them. Null where both are headings. */
export function rangeBetween(one: GridPlace, other: GridPlace): GridRange | null {
  const bottom = Math.max(one.row, other.row);
  if (bottom < 0) return null;
  return {
    top: Math.max(0, Math.min(one.row, other.row)),
    bottom,
    left: Math.min(one.column, other.column),
    right: Math.max(one.column, other.column),
  };
}

export const rowsOf = (range: GridRange): number => range.bottom - range.top + 1;
export const columnsOf = (range: GridRange): number => range.right - range.left + 1;
export const cellsOf = (range: GridRange): number => rowsOf(range) * columnsOf(range);

/** The columns of a row that a range holds, as "2-5"; null where it holds none: rows with the same text look the same. */
export function partOfRow(range: GridRange | null, row: number): string | null {
  return range === null || cellsOf(range) < 2 || row < range.top || row > range.bottom
    ? null
    : `${range.left}-${range.right}`;
}

/** As much of a range as a grid of this size has; null where that is nothing. */
export function rangeWithin(range: GridRange | null, rows: number, columns: number): GridRange | null {
  if (range === null || range.top >= rows || range.left >= columns) return null;
  return { ...range, bottom: Math.min(range.bottom, rows - 1), right: Math.min(range.right, columns - 1) };
}

/**
 * Where a block that was copied goes: over the whole range where that is a whole number of such blocks high and wide (a single
 * value over all of it), else once, from the range's first cell on.
 */
export function targetOf(range: GridRange, height: number, width: number): GridRange {
  const fits = rowsOf(range) % height === 0 && columnsOf(range) % width === 0;
  if (fits) return range;
  return { ...range, bottom: range.top + height - 1, right: range.left + width - 1 };
}
