import { type RefObject, useCallback, useEffect, useState } from "react";

/** Grids up to this many rows are drawn whole. */
const wholeUpTo = 120;
const spare = 2;
/** Drawn rows change in steps of so many, and columns of so many pixels: most scrolling draws nothing anew. */
const rowStep = 2;
const pixelStep = 120;
const spareColumns = 1;

/** Widths of the columns in pixels; null where the frame decides them, and then all columns are drawn. */
export type ColumnWidths = readonly number[] | null;

export interface GridWindow {
  /** First row that is drawn, and the one after the last. */
  readonly first: number;
  readonly end: number;
  /** First column after the frozen one that is drawn, and the one after the last. */
  readonly left: number;
  readonly right: number;
  readonly rowHeight: number;
  readonly page: number;
  /** Scrolls so that a cell is drawn. */
  readonly bringIn: (row: number, column: number) => void;
}

interface View {
  readonly top: number;
  readonly height: number;
  readonly rowHeight: number;
  readonly left: number;
  readonly width: number;
}

const start: View = { top: 0, height: 600, rowHeight: 36, left: 0, width: 0 };

/** Columns to draw beside the frozen first one, from where the frame is scrolled to: from the first to before the second. */
export function columnsInSight(widths: readonly number[], left: number, width: number): readonly [number, number] {
  let from = 1;
  let edge = 0;
  while (from < widths.length - 1 && edge + (widths[from] ?? 0) <= left) {
    edge += widths[from] ?? 0;
    from += 1;
  }
  let to = from;
  while (to < widths.length && edge < left + width) {
    edge += widths[to] ?? 0;
    to += 1;
  }
  return [Math.max(1, from - spareColumns), Math.min(widths.length, to + spareColumns)];
}

/** Which part of a long and wide grid to draw, from where its frame is scrolled to. All rows are equally high. */
export function useGridWindow(
  frame: RefObject<HTMLElement | null>,
  rows: number,
  columns: number,
  widths: ColumnWidths,
): GridWindow {
  const [view, setView] = useState(start);

  useEffect(() => {
    const element = frame.current;
    if (element === null) return;
    const measure = () => {
      const row = element.querySelector("tbody tr[data-row]");
      const rowHeight = row?.getBoundingClientRect().height || start.rowHeight;
      const next: View = {
        top: Math.floor(element.scrollTop / rowHeight / rowStep) * rowStep,
        height: element.clientHeight || start.height,
        rowHeight,
        left: Math.floor(element.scrollLeft / pixelStep) * pixelStep,
        width: element.clientWidth,
      };
      setView((before) => (JSON.stringify(before) === JSON.stringify(next) ? before : next));
    };
    measure();
    element.addEventListener("scroll", measure, { passive: true });
    window.addEventListener("resize", measure);
    return () => {
      element.removeEventListener("scroll", measure);
      window.removeEventListener("resize", measure);
    };
  }, [frame]);

  const { rowHeight } = view;
  const shown = Math.ceil(view.height / rowHeight);
  const isWhole = rows <= wholeUpTo && widths === null;
  const first = isWhole ? 0 : Math.max(0, Math.min(rows - shown, view.top) - spare);
  const end = isWhole ? rows : Math.min(rows, first + shown + rowStep + 2 * spare);
  const [left, right] =
    widths === null || view.width === 0 ? [1, columns] : columnsInSight(widths, view.left, view.width + pixelStep);

  const bringIn = useCallback(
    (row: number, column: number) => {
      const element = frame.current;
      if (element === null) return;
      // The headings are always in sight: who goes there by key goes to the beginning.
      if (row < 0) element.scrollTop = 0;
      else if (!isWhole) {
        const top = row * rowHeight;
        // The headings and a little beside the edges are not where a cell can be read.
        if (top < element.scrollTop || top > element.scrollTop + element.clientHeight - 3 * rowHeight) {
          element.scrollTop = Math.max(0, top - element.clientHeight / 2);
        }
      }
      if (widths === null || element.clientWidth === 0) return;
      // The frozen column is always in sight: who goes there wants the row from its beginning.
      if (column === 0) {
        element.scrollLeft = 0;
        return;
      }
      const edge = widths.slice(1, column).reduce((sum, width) => sum + width, 0);
      const room = element.clientWidth - (widths[0] ?? 0);
      const width = widths[column] ?? 0;
      if (edge < element.scrollLeft) element.scrollLeft = edge;
      else if (edge + width > element.scrollLeft + room) element.scrollLeft = Math.min(edge, edge + width - room);
    },
    [frame, isWhole, rowHeight, widths],
  );

  return { first, end, left, right, rowHeight, page: Math.max(1, shown - 2), bringIn };
}
