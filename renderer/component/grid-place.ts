/** A cell of a grid; row −1 holds the headings. */
export interface GridPlace {
  readonly row: number;
  readonly column: number;
}

export interface GridSize {
  readonly rows: number;
  readonly columns: number;
  /** Rows that fit into the window, for Page Up and Page Down. */
  readonly page: number;
}

const within = (value: number, least: number, most: number) => Math.max(least, Math.min(most, value));

/** Where a key leads from a cell; null where the key is not one that moves (WAI-ARIA Authoring Practices, grid pattern). */
export function placeAfterKey(
  place: GridPlace,
  key: { readonly key: string; readonly ctrlKey: boolean; readonly metaKey: boolean },
  size: GridSize,
): GridPlace | null {
  const whole = key.ctrlKey || key.metaKey;
  const to = (row: number, column: number): GridPlace => ({
    row: within(row, -1, size.rows - 1),
    column: within(column, 0, size.columns - 1),
  });
  const { row, column } = place;
  switch (key.key) {
    case "ArrowLeft":
      return to(row, whole ? 0 : column - 1);
    case "ArrowRight":
      return to(row, whole ? size.columns - 1 : column + 1);
    case "ArrowUp":
      return to(whole ? -1 : row - 1, column);
    case "ArrowDown":
      return to(whole ? size.rows - 1 : row + 1, column);
    case "Home":
      return to(whole ? -1 : row, 0);
    case "End":
      return to(whole ? size.rows - 1 : row, size.columns - 1);
    case "PageUp":
      return to(row - size.page, column);
    case "PageDown":
      return to(row + size.page, column);
    default:
      return null;
  }
}

/** What a key chooses as a whole (the same pattern): Ctrl A everything, Shift Space the row, Ctrl Space the column. */
export function choiceOfKey(key: {
  readonly key: string;
  readonly ctrlKey: boolean;
  readonly metaKey: boolean;
  readonly shiftKey: boolean;
  readonly altKey: boolean;
}): "all" | "row" | "column" | null {
  if (key.altKey) return null;
  const whole = key.ctrlKey || key.metaKey;
  if (key.key.toLowerCase() === "a" && whole && !key.shiftKey) return "all";
  if (key.key !== " ") return null;
  if (key.shiftKey && !whole) return "row";
  return whole && !key.shiftKey ? "column" : null;
}
