import { type Key, memo, type ReactNode } from "react";

/** Widths that a column may have: tokens of the style sheet. */
export type GridColumnSize = "first" | "narrow" | "middle" | "wide";

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
  /** Column of the place where the grid is walked, if it is in this row. */
  active: number | null;
  /** "2-5": the columns that are chosen. */
  chosen: string | null;
  className: string;
  cell: (row: number, column: number) => GridCell;
  /** While this is the same the cells are: the row is not drawn anew. Undefined: they may always be others. */
  version: unknown;
}

export const alignOf = (column: GridColumn) => (column.align === "number" ? "n" : "");

/** Indices of the columns that are drawn: the frozen one, and those in sight. */
export function drawnColumns(columns: number, left: number, right: number): number[] {
  const beside = Array.from({ length: Math.max(0, right - left) }, (_, index) => left + index);
  return columns === 0 ? [] : [0, ...beside];
}

/** One row of a grid. */
export const GridRow = memo(
  function GridRow({ row, columns, left, right, active, chosen, className, cell }: RowProps) {
    const [from, to] = (chosen ?? "").split("-").map(Number);
    return (
      <tr data-row={row} aria-rowindex={row + 2} className={className}>
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
            className: `${alignOf(column)} ${shown.className ?? ""} ${isChosen ? "chosen" : ""}`,
          };
          const drawn =
            index === 0 ? (
              <th key={column.key} scope="row" {...common}>
                {shown.content}
              </th>
            ) : (
              <td key={column.key} {...common}>
                {shown.content}
              </td>
            );
          return index === 0 && left > 1 ? [drawn, <Gap key="left" />] : [drawn];
        })}
        {right < columns.length && <Gap key="right" />}
      </tr>
    );
  },
  (before, after) =>
    after.version !== undefined &&
    before.version === after.version &&
    before.row === after.row &&
    before.columns === after.columns &&
    before.left === after.left &&
    before.right === after.right &&
    before.active === after.active &&
    before.chosen === after.chosen &&
    before.className === after.className,
);

/** Stands for the columns on one side that are not drawn. */
export function Gap({ isHeading = false }: { isHeading?: boolean }) {
  // biome-ignore lint/a11y/noAriaHiddenOnFocusable: nothing in it takes the focus.
  return isHeading ? <th aria-hidden="true" className="gap" /> : <td aria-hidden="true" className="gap" />;
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
