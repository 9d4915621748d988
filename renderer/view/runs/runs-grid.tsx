import { type ReactNode, useCallback, useMemo } from "react";
import type { GridRowView } from "../../../app/contract/index.ts";
import type { Locale, Words } from "../../../core/index.ts";
import { DataGrid, type GridCell, type GridColumn } from "../../component/data-grid.tsx";
import { Name } from "../../component/name.tsx";
import { VariantMark } from "../../component/variant-mark.tsx";
import { type CellDesk, type CellPlace, isOnDisk } from "../../state/cell-desk.ts";
import type { GridRows } from "../../state/grid.ts";
import { type Bulk, bulkKey } from "../../state/grid-bulk.ts";
import { useLocale, useWords } from "../../state/language.tsx";
import {
  missingIn,
  questionsIn,
  type RunsColumn,
  shownText,
  type UncertainText,
  uncertainText,
} from "./grid-columns.ts";

import { fractionRoom, halfRoom, uncertainRooms } from "./uncertain-room.ts";

type GridProps = Parameters<typeof DataGrid>[0];

interface RunsGridProps
  extends Pick<
    GridProps,
    | "place"
    | "range"
    | "onMove"
    | "onChoose"
    | "onEnter"
    | "onType"
    | "onKey"
    | "onCopy"
    | "onPaste"
    | "focusWish"
    | "topWish"
  > {
  grid: GridRows;
  columns: readonly RunsColumn[];
  cells: CellDesk;
  bulk: Bulk | null;
  placeOf: (row: GridRowView, column: RunsColumn) => CellPlace | null;
  /** The cell that is being written in: by its row and column. */
  writing: { readonly runId: string; readonly phase: string; readonly key: string } | null;
  writer: (row: GridRowView, column: RunsColumn) => ReactNode;
  onSort: (column: number) => void;
  sort: string | null;
  falling: boolean;
}

/** One row a phase of a run: what it was, its readings and results. */
export function RunsGrid(props: RunsGridProps) {
  const { grid, columns, cells, bulk, placeOf, writing, writer, onSort, sort, falling, ...rest } = props;
  const words = useWords();
  const locale = useLocale();
  const { rowAt } = grid;
  const shownColumns = useGridColumns(columns, sort, falling);
  const shownReadings = useMemo(
    () => new Set(columns.flatMap(({ reading }) => (reading === null ? [] : [reading]))),
    [columns],
  );
  const drafts = cells.drafts.filter(({ status }) => status !== "shown");
  const drafted = new Set(drafts.map(({ run }) => run));
  const troubles = useMemo(
    () =>
      new Map((bulk?.cells ?? []).flatMap((cell) => (cell.trouble === null ? [] : [[bulkKey(cell), cell.trouble]]))),
    [bulk],
  );
  const troubled = useMemo(
    () => new Set((bulk?.cells ?? []).flatMap((cell) => (cell.trouble === null ? [] : [cell.run]))),
    [bulk],
  );

  const cell = (at: number, column: number): GridCell => {
    const row = rowAt(at);
    const of = columns[column];
    if (of === undefined) return { content: null };
    if (row === undefined) {
      return { content: <Placeholder said={column === 0 ? words.grid.notFetched : null} />, className: "placeholder" };
    }
    if (writing !== null && isRow(writing, row) && writing.key === of.key) {
      return { className: "writing", content: writer(row, of) };
    }
    const place = placeOf(row, of);
    const draft = drafts.length === 0 || place === null ? undefined : cells.draftOf(place);
    const trouble = place === null ? undefined : troubles.get(bulkKey(place));
    return shownCell({
      row,
      column: of,
      text: draft !== undefined && draft.status !== "shown" ? draft.text : null,
      unsaved: draft !== undefined && !isOnDisk(draft) && draft.status !== "saving",
      trouble: trouble ?? draft?.refusal?.message ?? null,
      shownReadings,
      words,
      locale,
    });
  };
  const rowVersion = (at: number): unknown => {
    const row = rowAt(at);
    if (row === undefined) return "placeholder";
    const isOwn = drafted.has(row.runId) || troubled.has(row.runId) || (writing !== null && isRow(writing, row));
    return isOwn ? undefined : row;
  };

  const rooms = useMemo(() => uncertainRooms(grid.blocks, columns, locale), [grid.blocks, columns, locale]);
  return (
    <div style={rooms}>
      <DataGrid
        {...rest}
        label={words.grid.label}
        columns={shownColumns}
        rows={grid.head?.rows ?? 0}
        rowKey={identity}
        rowClass={(at) => rowClass(rowAt(at))}
        cell={cell}
        rowVersion={rowVersion}
        onRows={grid.see}
        onHeading={onSort}
        isWriting={writing !== null}
      />
    </div>
  );
}

const identity = (row: number) => row;
const isRow = (one: { readonly runId: string; readonly phase: string }, row: GridRowView) =>
  one.runId === row.runId && one.phase === row.phase;

function rowClass(row: GridRowView | undefined): string {
  return row === undefined ? "" : `${row.leftOut === null ? "" : "left-out"} ${row.isFirst ? "first-of-run" : ""}`;
}

function useGridColumns(columns: readonly RunsColumn[], sort: string | null, falling: boolean): readonly GridColumn[] {
  const { runs, compare } = useWords();
  const heading = useCallback(
    (column: RunsColumn) => (
      <>
        {column.heading}
        {column.formulaOnly && <i className="small"> ({compare.formulaOnly})</i>}
      </>
    ),
    [compare],
  );
  return useMemo(
    () =>
      columns.map((column) => ({
        key: column.key,
        align: column.align,
        size: column.size,
        title: `${column.heading}\n${runs.sortHint}`,
        className: column.group === "reading" || column.group === "run" ? "" : "computed",
        sort: column.key === sort ? (falling ? "descending" : "ascending") : "none",
        heading: heading(column),
      })),
    [columns, sort, falling, heading, runs.sortHint],
  );
}

function Placeholder({ said }: { said: string | null }) {
  return (
    <>
      <span className="bar" aria-hidden="true" />
      {said !== null && <span className="visually-hidden">{said}</span>}
    </>
  );
}

function shownCell({
  row,
  column,
  text,
  unsaved,
  trouble,
  shownReadings,
  words,
  locale,
}: {
  row: GridRowView;
  column: RunsColumn;
  /** What was typed, where the table does not have it yet. */
  text: string | null;
  unsaved: boolean;
  trouble: string | null;
  shownReadings: ReadonlySet<string>;
  words: Words["screens"];
  locale: Locale;
}): GridCell {
  // What is odd about it is not known before the table is.
  const questions = text === null ? questionsIn(row, column, shownReadings) : [];
  const missing = text === null ? missingIn(row, column) : null;
  const uncertain = text === null ? uncertainText(row, column, locale) : null;
  const shown = text ?? (uncertain === null ? shownText(row, column, locale) : "");
  const isFrozen = column.at === null;
  const said = [
    ...(isFrozen && row.leftOut !== null ? [words.runs.leftOut(row.leftOut)] : []),
    ...(unsaved ? [words.grid.unsaved(shown)] : []),
    ...(trouble === null ? [] : [trouble]),
    ...questions.map(({ message }) => `${words.runs.question}: ${message}`),
    ...(missing === null ? [] : [words.runs.missing(missing)]),
  ];
  const isWrong = unsaved || trouble !== null;
  const isStruck = row.leftOut !== null && column.quantity !== null && missing === null;
  const whole = uncertain === null ? shown : `${uncertain.value} ${words.uncertainty.plusMinus(uncertain.half)}`;
  return {
    title: said.length > 0 ? said.join("\n") : isFrozen ? `${whole}${words.separator}${words.phase(row.phase)}` : whole,
    className: `${isWrong ? "wrong" : questions.length > 0 ? "questioned" : ""} ${missing === null ? "" : "unknown"} ${isStruck ? "struck" : ""}`,
    content: (
      <>
        {isFrozen ? (
          <span className="cell-text run-phase">
            <VariantMark index={row.variantIndex} />
            <Name text={shown} /> <span className="phase-of">{words.phase(row.phase)}</span>
            <Mark isWrong={isWrong} isOdd={questions.length > 0} />
          </span>
        ) : column.reading === "variant" && text === null ? (
          <>
            <VariantMark index={row.variantIndex} /> <bdi>{row.variant}</bdi>
          </>
        ) : missing !== null ? (
          <span aria-hidden="true">{words.dash}</span>
        ) : uncertain !== null || (column.uncertaintyAt !== null && shown !== "") ? (
          <Uncertain text={uncertain} bare={shown} at={column.uncertaintyAt ?? 0} />
        ) : (
          <>
            {column.align === "number" ? shown : <bdi>{shown}</bdi>}
            <Mark isWrong={isWrong} isOdd={questions.length > 0} />
          </>
        )}
        {said.length > 0 && <span className="visually-hidden"> {said.join(". ")}</span>}
      </>
    ),
  };
}

/** A number with its uncertainty, room kept for both, so that decimal signs stand below each other. */
function Uncertain({ text, bare, at }: { text: UncertainText | null; bare: string; at: number }) {
  const { plusMinus } = useWords().uncertainty;
  const fraction = text === null ? (/[.,].*$/.exec(bare)?.[0] ?? "") : text.fraction;
  const value = text?.value ?? bare;
  return (
    <span className="uncertain">
      {value.slice(0, value.length - fraction.length)}
      <span style={{ minWidth: `var(${fractionRoom(at)})` }}>{fraction}</span>{" "}
      <span className="half" style={{ minWidth: `var(${halfRoom(at)})` }}>
        {text !== null && plusMinus(text.half)}
      </span>
    </span>
  );
}

function Mark({ isWrong, isOdd }: { isWrong: boolean; isOdd: boolean }) {
  if (!isWrong && !isOdd) return null;
  return (
    <span className="question-mark" aria-hidden="true">
      {isWrong ? "!" : "?"}
    </span>
  );
}
