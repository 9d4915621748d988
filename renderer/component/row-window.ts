import { type RefObject, useCallback, useEffect, useState } from "react";

/** Grids up to this many rows are drawn whole. */
const wholeUpTo = 120;
const spare = 12;

export interface RowWindow {
  /** First row that is drawn, and the one after the last. */
  readonly first: number;
  readonly end: number;
  readonly rowHeight: number;
  readonly page: number;
  /** Scrolls so that a row is drawn. */
  readonly bringIn: (row: number) => void;
}

/** Which rows of a long grid to draw, from where its frame is scrolled to. All rows are equally high. */
export function useRowWindow(frame: RefObject<HTMLElement | null>, rows: number): RowWindow {
  const [view, setView] = useState({ top: 0, height: 600, rowHeight: 36 });

  useEffect(() => {
    const element = frame.current;
    if (element === null) return;
    const measure = () => {
      const row = element.querySelector("tbody tr[data-row]");
      setView({
        top: element.scrollTop,
        height: element.clientHeight || 600,
        rowHeight: row?.getBoundingClientRect().height || 36,
      });
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
  const isWhole = rows <= wholeUpTo;
  const first = isWhole ? 0 : Math.max(0, Math.min(rows - shown, Math.floor(view.top / rowHeight) - spare));
  const end = isWhole ? rows : Math.min(rows, first + shown + 2 * spare);

  const bringIn = useCallback(
    (row: number) => {
      const element = frame.current;
      if (element === null || rows <= wholeUpTo || row < 0) return;
      const top = row * rowHeight;
      if (top < element.scrollTop || top > element.scrollTop + element.clientHeight - 3 * rowHeight) {
        element.scrollTop = Math.max(0, top - element.clientHeight / 2);
      }
    },
    [frame, rows, rowHeight],
  );

  return { first, end, rowHeight, page: Math.max(1, shown - 2), bringIn };
}
