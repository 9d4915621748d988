import { type Key, memo, type ReactNode } from "react";

/** Widths that a column may have: tokens of the style sheet. */
export type GridColumnSize = "first" | "narrow" | "uncertain" | "middle" | "wide";

export interface GridColumn {
  readonly key: string;
  readonly heading: ReactNode;
  readonly title?: string | undefined;
  readonly align: "text" | "number";
  readonly sort?: "ascending" | "descending" | "none" | undefined;
  readonly className?: string | undefined;
  /** Where all columns have one they are as wide as it says, and only those in sight are drawn. */
  readonly size?: GridColumnSize | undefined;
}

export interface GridCell {
  readonly content: ReactNode;
  readonly className?: string | undefined;
  readonly title?: string | undefined;
}

export interface RowProps {
  row: number;
  columns: readonly GridColumn[];
  left: number;
  right: number;
  /** Width in pixels of the columns that are not drawn, before and after those that are. */
  before: number;
  after: number;
  /** Column of the place where the grid is walked, if it is in this row. */
  active: number | null;
  /** "2-5": the columns that are chosen. */
  chosen: string | null;
  className: string;
  cell: (row: number, column: number) => GridCell;
  /** While this is the same the cells are: the row is not drawn anew. Undefined: they may always be others. */
  version: unknown;
}

/** Said outright: what is not laid out as a table is none for a screen reader, whatever its elements are called. */
export const roles = {
  row: { role: "row" },
  rowgroup: { role: "rowgroup" },
  rowheader: { role: "rowheader" },
  columnheader: { role: "columnheader" },
  gridcell: { role: "gridcell" },
} as const;

export const classOf = (column: GridColumn) =>
  `${column.align === "number" ? "n" : ""} ${column.size === undefined ? "" : `size-${column.size}`}`;

/** Indices of the columns that are drawn: the frozen one, and those in sight. */
export function drawnColumns(columns: number, left: number, right: number): number[] {
  const beside = Array.from({ length: Math.max(0, right - left) }, (_, index) => left + index);
  return columns === 0 ? [] : [0, ...beside];
}

/** One row of a grid. */
export const GridRow = memo(
  function GridRow({ row, columns, left, right, before, after, active, chosen, className, cell }: RowProps) {
    const [from, to] = (chosen ?? "").split("-").map(Number);
    return (
      <tr {...roles.row} data-row={row} aria-rowindex={row + 2} className={className}>
        {drawnColumns(columns.length, left, right).flatMap((index) => {
          const column = columns[index];
          if (column === undefined) return [];
          const shown = cell(row, index);
          const isChosen = chosen !== null && from !== undefined && to !== undefined && index >= from && index <= to;
          const common = {
            "data-place": `${row}:${index}`,
            "aria-colindex": index + 1,
            "aria-selected": isChosen || active === index,
            tabIndex: active === index ? 0 : -1,
            title: shown.title,
            className: `${classOf(column)} ${shown.className ?? ""} ${isChosen ? "chosen" : ""}`,
          };
          const drawn =
            index === 0 ? (
              <th key={column.key} scope="row" {...roles.rowheader} {...common}>
                {shown.content}
              </th>
            ) : (
              <td key={column.key} {...roles.gridcell} {...common}>
                {shown.content}
              </td>
            );
          return index === 0 && before > 0 ? [drawn, <Gap key="left" width={before} />] : [drawn];
        })}
        {after > 0 && <Gap key="right" width={after} />}
      </tr>
    );
  },
  (was, is) =>
    is.version !== undefined &&
    was.version === is.version &&
    was.row === is.row &&
    was.columns === is.columns &&
    was.left === is.left &&
    was.right === is.right &&
    was.before === is.before &&
    was.after === is.after &&
    was.active === is.active &&
    was.chosen === is.chosen &&
    was.className === is.className,
);

/** Stands for the columns on one side that are not drawn. */
export function Gap({ width, isHeading = false }: { width: number; isHeading?: boolean }) {
  const props = { "aria-hidden": true, className: "gap", style: { flexBasis: width } };
  return isHeading ? <th {...props} /> : <td {...props} />;
}

/** Stands for the rows that are not drawn. */
export function Spacer({ height, span }: { height: number; span: number }) {
  if (height <= 0) return null;
  return (
    // biome-ignore lint/a11y/noAriaHiddenOnFocusable: nothing in it takes the focus.
    <tr aria-hidden="true" className="spacer">
      <td colSpan={span} style={{ height }} />
    </tr>
  );
}

export type RowKey = (row: number) => Key;
