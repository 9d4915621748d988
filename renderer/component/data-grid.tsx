import { type KeyboardEvent, type MouseEvent, useEffect, useLayoutEffect, useMemo, useRef, useState } from "react";
import { type GridRange, partOfRow } from "../state/grid-range.ts";
import {
  classOf,
  drawnColumns,
  Gap,
  type GridCell,
  type GridColumn,
  type GridColumnSize,
  GridRow,
  type RowKey,
  roles,
  Spacer,
} from "./data-grid-row.tsx";
import { choiceOfKey, type GridPlace, placeAfterKey } from "./grid-place.ts";
import { type ColumnWidths, useGridWindow } from "./row-window.ts";

export type { GridCell, GridColumn } from "./data-grid-row.tsx";

interface DataGridProps {
  label: string;
  columns: readonly GridColumn[];
  rows: number;
  rowKey: RowKey;
  rowClass?: (row: number) => string;
  cell: (row: number, column: number) => GridCell;
  /** What a row's cells depend on: while it is the same the row is not drawn anew. Without it rows always are. */
  rowVersion?: (row: number) => unknown;
  place: GridPlace;
  /** `extends`: the cells from where a choice began up to there are chosen. */
  onMove: (place: GridPlace, extend: boolean) => void;
  /** The cells that are chosen; without `onChoose` there is only the one place. */
  range?: GridRange | null;
  onChoose?: (what: "all" | "row" | "column") => void;
  /** Enter, F2 or a double click on a cell or heading. */
  onEnter?: (place: GridPlace) => void;
  /** A character typed on a cell. */
  onType?: (place: GridPlace, text: string) => void;
  /** Any other key; true where it was one. */
  onKey?: (event: KeyboardEvent) => boolean;
  /** A click on a heading; without it headings are only cells. */
  onHeading?: (column: number) => void;
  onCopy?: (data: DataTransfer) => boolean;
  onPaste?: (data: DataTransfer) => boolean;
  /** The rows that are drawn changed. */
  onRows?: (first: number, end: number) => void;
  /** While a cell is being written in, keys belong to it. */
  isWriting?: boolean;
  /** Each new number moves the focus to `place`. */
  focusWish?: number;
  /** Each new number scrolls back to the first row. */
  topWish?: number;
}

const sortMarks = { ascending: "▲", descending: "▼", none: "" };

/**
 * A table that is walked cell by cell: one stop for Tab, arrows inside, the first column and the headings always in sight.
 * Long tables draw only the rows in sight, and of columns with a size only those in sight.
 */
export function DataGrid(props: DataGridProps) {
  const { columns, rows, place, range = null, onMove, onRows, isWriting = false, focusWish = 0, topWish = 0 } = props;
  const frame = useRef<HTMLDivElement>(null);
  const table = useRef<HTMLTableElement>(null);
  const widths = useColumnWidths(frame, columns);
  const { first, end, left, right, rowHeight, page, bringIn } = useGridWindow(frame, rows, columns.length, widths);
  const wantsFocus = useRef(false);
  const hasFocus = useRef(false);
  const isDrawn =
    (place.row < 0 || (place.row >= first && place.row < end)) &&
    (place.column === 0 || (place.column >= left && place.column < right));

  useEffect(() => onRows?.(first, end), [first, end, onRows]);
  useEffect(() => {
    if (topWish > 0 && frame.current !== null) frame.current.scrollTop = 0;
  }, [topWish]);
  // With the drawing itself, not after it: a key pressed in between would have its wish spent on the cell that it leaves.
  useLayoutEffect(() => {
    if (focusWish > 0) wantsFocus.current = true;
  }, [focusWish]);

  // biome-ignore lint/correctness/useExhaustiveDependencies: what is drawn and the wish are what may have drawn the wanted cell.
  useLayoutEffect(() => {
    if (!wantsFocus.current || isWriting) return;
    bringIn(place.row, place.column);
    const cell = frame.current?.querySelector<HTMLElement>(`[data-place="${place.row}:${place.column}"]`);
    if (cell === null || cell === undefined) return;
    wantsFocus.current = false;
    cell.focus();
  }, [place, first, end, left, right, focusWish, isWriting, bringIn]);

  // A cell that had the focus was scrolled out of what is drawn: keys still reach the grid, and it has the focus again when it comes back.
  useLayoutEffect(() => {
    const { activeElement } = document;
    if (!hasFocus.current || isWriting || (activeElement !== document.body && activeElement !== table.current)) return;
    const cell = table.current?.querySelector<HTMLElement>(`[data-place="${place.row}:${place.column}"]`);
    if (cell != null) cell.focus({ preventScroll: true });
    else if (activeElement === document.body) table.current?.focus({ preventScroll: true });
  });

  useClipboard(table, props);

  const press = (event: KeyboardEvent) => {
    if (isWriting) return;
    // The key is meant for the cell that has the focus.
    const from = placeOf(event.target) ?? place;
    const choice = props.onChoose === undefined ? null : choiceOfKey(event);
    const target = event.altKey ? null : placeAfterKey(from, event, { rows, columns: columns.length, page });
    if (choice !== null) {
      event.preventDefault();
      props.onChoose?.(choice);
    } else if (target !== null) {
      event.preventDefault();
      wantsFocus.current = true;
      onMove(target, event.shiftKey && props.onChoose !== undefined);
    } else if (event.key === "Enter" || event.key === "F2") {
      event.preventDefault();
      if (from.row < 0 && props.onHeading !== undefined) props.onHeading(from.column);
      else props.onEnter?.(from);
    } else if (props.onKey?.(event) === true) {
      event.preventDefault();
    } else if (
      props.onType !== undefined &&
      event.key.length === 1 &&
      !event.ctrlKey &&
      !event.metaKey &&
      !event.altKey
    ) {
      event.preventDefault();
      props.onType(from, event.key);
    }
  };

  const moveTo = (to: GridPlace | null, extend: boolean) => {
    if (to !== null && (extend || place.row !== to.row || place.column !== to.column)) onMove(to, extend);
  };
  const mayChoose = props.onChoose !== undefined;
  const mouse = {
    onMouseDown: (event: MouseEvent) => {
      if (event.button !== 0 || isInField(event.target)) return;
      const extend = event.shiftKey && mayChoose;
      // The cell where the choice began would lose its focus to the text of the page.
      if (extend) event.preventDefault();
      const to = placeOf(event.target);
      if (to !== null && extend) wantsFocus.current = true;
      if (to !== null && mayChoose && !extend) onMove(to, false);
      else moveTo(to, extend);
    },
    onMouseMove: (event: MouseEvent) => {
      if (!mayChoose || event.buttons !== 1 || isInField(event.target) || isWriting) return;
      const to = placeOf(event.target);
      if (to === null || to.row < 0 || (to.row === place.row && to.column === place.column)) return;
      wantsFocus.current = true;
      onMove(to, true);
    },
    onDoubleClick: (event: MouseEvent) => {
      const at = isInField(event.target) ? null : placeOf(event.target);
      if (at !== null) props.onEnter?.(at);
    },
    onClick: (event: MouseEvent) => {
      const at = placeOf(event.target);
      if (at !== null && at.row < 0) props.onHeading?.(at.column);
    },
  };

  const drawn = drawnColumns(columns.length, left, right);
  const total = widths?.reduce((sum, width) => sum + width, 0) ?? 0;
  const widthOf = (from: number, to: number) => widths?.slice(from, to).reduce((sum, width) => sum + width, 0) ?? 0;
  const before = widthOf(1, left);
  const after = widthOf(right, columns.length);
  const span = drawn.length;

  return (
    <div className="grid-frame" ref={frame}>
      <table
        ref={table}
        // biome-ignore lint/a11y/noNoninteractiveElementToInteractiveRole: a table of cells that are walked is what a grid is.
        role="grid"
        className={`grid ${widths === null ? "" : "sized"} ${mayChoose ? "chooses" : ""}`}
        style={widths === null ? undefined : { width: `max(100%, ${total}px)` }}
        aria-label={props.label}
        aria-rowcount={rows + 1}
        aria-colcount={columns.length}
        aria-multiselectable={mayChoose ? true : undefined}
        tabIndex={isDrawn || isWriting ? undefined : 0}
        onKeyDown={press}
        onFocus={(event) => {
          hasFocus.current = true;
          if (!isInField(event.target)) moveTo(placeOf(event.target), false);
        }}
        onBlur={(event) => {
          if (event.relatedTarget !== null) hasFocus.current = table.current?.contains(event.relatedTarget) === true;
        }}
        {...mouse}
      >
        <thead {...roles.rowgroup}>
          <tr {...roles.row} aria-rowindex={1}>
            {drawn.flatMap((index) => {
              const column = columns[index];
              if (column === undefined) return [];
              const heading = (
                <th
                  key={column.key}
                  data-place={`-1:${index}`}
                  aria-colindex={index + 1}
                  tabIndex={!isWriting && place.row < 0 && place.column === index ? 0 : -1}
                  scope="col"
                  {...roles.columnheader}
                  title={column.title}
                  className={`${classOf(column)} ${column.className ?? ""} ${props.onHeading === undefined ? "" : "sorts"}`}
                  aria-sort={column.sort}
                >
                  {column.heading}
                  {column.sort !== undefined && column.sort !== "none" && (
                    <span aria-hidden="true"> {sortMarks[column.sort]}</span>
                  )}
                </th>
              );
              return index === 0 && before > 0 ? [heading, <Gap key="left" width={before} isHeading />] : [heading];
            })}
            {after > 0 && <Gap key="right" width={after} isHeading />}
          </tr>
        </thead>
        <tbody {...roles.rowgroup}>
          <Spacer height={first * rowHeight} span={span} />
          {Array.from({ length: Math.max(0, end - first) }, (_, offset) => {
            const row = first + offset;
            return (
              <GridRow
                key={props.rowKey(row)}
                row={row}
                columns={columns}
                left={left}
                right={right}
                before={before}
                after={after}
                active={!isWriting && place.row === row ? place.column : null}
                chosen={partOfRow(range, row)}
                className={props.rowClass?.(row) ?? ""}
                cell={props.cell}
                version={props.rowVersion?.(row)}
              />
            );
          })}
          <Spacer height={(rows - end) * rowHeight} span={span} />
        </tbody>
      </table>
    </div>
  );
}

/** The cell that something stands in. */
function placeOf(target: EventTarget): GridPlace | null {
  const cell = target instanceof Element ? target.closest<HTMLElement>("[data-place]") : null;
  const [row, column] = (cell?.dataset.place ?? "").split(":").map(Number);
  return row === undefined || column === undefined ? null : { row, column };
}

/** Copying and pasting while the grid has the focus: where no text is chosen a browser sends them to the page, not to the cell. */
function useClipboard(
  table: { readonly current: HTMLElement | null },
  { onCopy, onPaste }: Pick<DataGridProps, "onCopy" | "onPaste">,
): void {
  const latest = useRef({ onCopy, onPaste });
  latest.current = { onCopy, onPaste };
  useEffect(() => {
    const heard = (event: ClipboardEvent) => {
      const at = document.activeElement;
      if (event.defaultPrevented || event.clipboardData === null || at === null) return;
      if (isInField(at) || table.current?.contains(at) !== true) return;
      const act = event.type === "copy" ? latest.current.onCopy : latest.current.onPaste;
      if (act?.(event.clipboardData) === true) event.preventDefault();
    };
    document.addEventListener("copy", heard);
    document.addEventListener("paste", heard);
    return () => {
      document.removeEventListener("copy", heard);
      document.removeEventListener("paste", heard);
    };
  }, [table]);
}

/** In a field a pointer and keys do what they do in any field. */
const isInField = (target: EventTarget) => target instanceof HTMLInputElement;

/** Widths of the columns in pixels, as the tokens have them; null where a column has no size, or nothing is laid out. */
function useColumnWidths(
  frame: { readonly current: HTMLElement | null },
  columns: readonly GridColumn[],
): ColumnWidths {
  const [sizes, setSizes] = useState<Readonly<Record<GridColumnSize, number>> | null>(null);
  // Before anything is painted: a grid is not first drawn with all of its columns.
  useLayoutEffect(() => {
    const measure = () => {
      const element = frame.current;
      if (element === null) return;
      const style = getComputedStyle(element);
      const root = Number.parseFloat(getComputedStyle(document.documentElement).fontSize) || 16;
      const size = (name: GridColumnSize) =>
        Math.round(Number.parseFloat(style.getPropertyValue(`--column-${name}`)) * root);
      const next = {
        ...{ first: size("first"), narrow: size("narrow"), uncertain: size("uncertain") },
        ...{ middle: size("middle"), wide: size("wide") },
      };
      setSizes((before) => (JSON.stringify(before) === JSON.stringify(next) ? before : next));
    };
    measure();
    window.addEventListener("resize", measure);
    return () => window.removeEventListener("resize", measure);
  }, [frame]);
  return useMemo(() => {
    const all = columns.map(({ size }) => (size === undefined || sizes === null ? Number.NaN : sizes[size]));
    return all.every(Number.isFinite) ? all : null;
  }, [columns, sizes]);
}
