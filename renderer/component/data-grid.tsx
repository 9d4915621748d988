import { type Key, type KeyboardEvent, type MouseEvent, type ReactNode, useEffect, useRef } from "react";
import { type GridPlace, placeAfterKey } from "./grid-place.ts";
import { useRowWindow } from "./row-window.ts";

export interface GridColumn {
  readonly key: string;
  readonly heading: ReactNode;
  readonly title?: string | undefined;
  readonly align: "text" | "number";
  readonly sort?: "ascending" | "descending" | "none" | undefined;
  readonly className?: string | undefined;
}

export interface GridCell {
  readonly content: ReactNode;
  readonly className?: string | undefined;
  readonly title?: string | undefined;
}

interface DataGridProps {
  label: string;
  columns: readonly GridColumn[];
  rows: number;
  rowKey: (row: number) => Key;
  rowClass?: (row: number) => string;
  cell: (row: number, column: number) => GridCell;
  place: GridPlace;
  onMove: (place: GridPlace) => void;
  /** Enter, F2 or a double click on a cell or heading. */
  onEnter?: (place: GridPlace) => void;
  /** A character typed on a cell. */
  onType?: (place: GridPlace, text: string) => void;
  onPoint?: (place: GridPlace | null) => void;
  /** A click on a heading; without it headings are only cells. */
  onHeading?: (column: number) => void;
  /** While a cell is being written in, keys belong to it. */
  isWriting?: boolean;
  /** Each new number moves the focus to `place`. */
  focusWish?: number;
}

const sortMarks = { ascending: "▲", descending: "▼", none: "" };

/**
 * A table that is walked cell by cell: one stop for Tab, arrows inside, the first column and the headings always in sight.
 * Long tables draw only the rows in sight.
 */
export function DataGrid(props: DataGridProps) {
  const { columns, rows, place, onMove, isWriting = false, focusWish = 0 } = props;
  const frame = useRef<HTMLDivElement>(null);
  const wantsFocus = useRef(false);
  const { first, end, rowHeight, page, bringIn } = useRowWindow(frame, rows);

  useEffect(() => {
    if (focusWish === 0) return;
    wantsFocus.current = true;
  }, [focusWish]);

  // biome-ignore lint/correctness/useExhaustiveDependencies: first, end and the wish are what may have drawn the wanted cell.
  useEffect(() => {
    if (!wantsFocus.current || isWriting) return;
    bringIn(place.row);
    const cell = frame.current?.querySelector<HTMLElement>(`[data-place="${place.row}:${place.column}"]`);
    if (cell === null || cell === undefined) return;
    wantsFocus.current = false;
    cell.focus();
  }, [place, first, end, focusWish, isWriting, bringIn]);

  const press = (event: KeyboardEvent) => {
    if (isWriting) return;
    const target = placeAfterKey(place, event, { rows, columns: columns.length, page });
    if (target !== null) {
      event.preventDefault();
      wantsFocus.current = true;
      onMove(target);
    } else if (event.key === "Enter" || event.key === "F2") {
      event.preventDefault();
      if (place.row < 0 && props.onHeading !== undefined) props.onHeading(place.column);
      else props.onEnter?.(place);
    } else if (
      props.onType !== undefined &&
      event.key.length === 1 &&
      !event.ctrlKey &&
      !event.metaKey &&
      !event.altKey
    ) {
      event.preventDefault();
      props.onType(place, event.key);
    }
  };

  const placed = (row: number, column: number) => ({
    "data-place": `${row}:${column}`,
    tabIndex: !isWriting && place.row === row && place.column === column ? 0 : -1,
    onMouseDown: () => {
      if (place.row !== row || place.column !== column) onMove({ row, column });
    },
    onFocus: () => {
      if (place.row !== row || place.column !== column) onMove({ row, column });
    },
    // A grid that comes up under a pointer that does not move is not pointed at.
    onMouseEnter: (event: MouseEvent<HTMLElement>) => {
      const { movementX, movementY } = event.nativeEvent;
      if (movementX !== 0 || movementY !== 0) props.onPoint?.({ row, column });
    },
    onDoubleClick: () => props.onEnter?.({ row, column }),
  });

  const alignOf = (column: GridColumn) => (column.align === "number" ? "n" : "");

  return (
    <div className="grid-frame" ref={frame}>
      <table
        // biome-ignore lint/a11y/noNoninteractiveElementToInteractiveRole: a table of cells that are walked is what a grid is.
        role="grid"
        className="grid"
        aria-label={props.label}
        aria-rowcount={rows + 1}
        aria-colcount={columns.length}
        onKeyDown={press}
        onMouseLeave={() => props.onPoint?.(null)}
      >
        <thead>
          <tr aria-rowindex={1}>
            {columns.map((column, index) => (
              <th
                key={column.key}
                {...placed(-1, index)}
                scope="col"
                title={column.title}
                className={`${alignOf(column)} ${column.className ?? ""} ${props.onHeading === undefined ? "" : "sorts"}`}
                aria-sort={column.sort}
                onClick={() => props.onHeading?.(index)}
              >
                {column.heading}
                {column.sort !== undefined && column.sort !== "none" && (
                  <span aria-hidden="true"> {sortMarks[column.sort]}</span>
                )}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          <Spacer height={first * rowHeight} span={columns.length} />
          {Array.from({ length: end - first }, (_, offset) => {
            const row = first + offset;
            return (
              <tr key={props.rowKey(row)} data-row={row} aria-rowindex={row + 2} className={props.rowClass?.(row)}>
                {columns.map((column, index) => {
                  const cell = props.cell(row, index);
                  const common = {
                    ...placed(row, index),
                    title: cell.title,
                    className: `${alignOf(column)} ${cell.className ?? ""}`,
                  };
                  return index === 0 ? (
                    <th key={column.key} scope="row" {...common}>
                      {cell.content}
                    </th>
                  ) : (
                    <td key={column.key} {...common}>
                      {cell.content}
                    </td>
                  );
                })}
              </tr>
            );
          })}
          <Spacer height={(rows - end) * rowHeight} span={columns.length} />
        </tbody>
      </table>
    </div>
  );
}

/** Stands for the rows that are not drawn. */
function Spacer({ height, span }: { height: number; span: number }) {
  if (height <= 0) return null;
  return (
    // biome-ignore lint/a11y/noAriaHiddenOnFocusable: nothing in it takes the focus.
    <tr aria-hidden="true" className="spacer">
      <td colSpan={span} style={{ height }} />
    </tr>
  );
}
