import type { RunView } from "../../../app/contract/index.ts";
import { DataGrid, type GridCell } from "../../component/data-grid.tsx";
import type { GridPlace } from "../../component/grid-place.ts";
import { Name } from "../../component/name.tsx";
import { VariantName } from "../../component/variant-mark.tsx";
import { useWords } from "../../state/language.tsx";
import type { RunsCell, RunsColumn } from "./runs-table.ts";

interface RunsGridProps {
  label: string;
  columns: readonly RunsColumn[];
  runs: readonly RunView[];
  place: GridPlace;
  onMove: (place: GridPlace) => void;
  onPoint: (place: GridPlace | null) => void;
  onSort: (column: number) => void;
  onEnter: (place: GridPlace) => void;
  onType: (place: GridPlace, text: string) => void;
  /** What was saved in a cell that the table does not have yet; null: nothing. */
  awaited: (run: RunView, column: RunsColumn) => string | null;
  sort: string | null;
  falling: boolean;
  focusWish: number;
}

/** One row a run: its name, what it was, and the chosen readings or results. */
export function RunsGrid({ columns, runs, sort, falling, onSort, awaited, ...grid }: RunsGridProps) {
  const { runs: words, compare } = useWords();
  return (
    <DataGrid
      {...grid}
      columns={columns.map((column) => ({
        key: column.key,
        align: column.align,
        title: words.sortHint,
        className: column.heading.length > 12 ? "long-heading" : undefined,
        sort: column.key === sort ? (falling ? "descending" : "ascending") : "none",
        heading: (
          <>
            {column.heading}
            {column.formulaOnly && <i className="small"> ({compare.formulaOnly})</i>}
          </>
        ),
      }))}
      rows={runs.length}
      rowKey={(row) => runs[row]?.id ?? row}
      rowClass={(row) => (runs[row]?.leftOut == null ? "" : "left-out")}
      cell={(row, column) => {
        const run = runs[row];
        const of = columns[column];
        return run === undefined || of === undefined ? { content: null } : shownCell(run, of, awaited(run, of), words);
      }}
      onHeading={onSort}
    />
  );
}

type RunsWords = ReturnType<typeof useWords>["runs"];

function shownCell(run: RunView, column: RunsColumn, awaited: string | null, words: RunsWords): GridCell {
  const found = column.cell(run);
  // What is odd about it is not known before the table is.
  const cell = awaited === null ? found : { ...found, text: awaited, missing: null, questions: [] };
  const because = column.key === "run" && run.leftOut !== null ? words.leftOut(run.leftOut) : null;
  const said = [
    ...(because === null ? [] : [because]),
    ...cell.questions.map((question) => `${words.question}: ${question}`),
    ...(cell.missing === null ? [] : [words.missing(cell.missing)]),
  ];
  const isStruck = run.leftOut !== null && column.quantity !== null && cell.missing === null;
  return {
    content: (
      <>
        <CellContent run={run} column={column} cell={cell} />
        {because !== null && <span className="small"> {words.leftOutShort}</span>}
        {said.length > 0 && <span className="visually-hidden"> {said.join(". ")}</span>}
      </>
    ),
    className: `${cell.questions.length > 0 ? "questioned" : ""} ${cell.missing === null ? "" : "unknown"} ${isStruck ? "struck" : ""}`,
    title: said.length > 0 ? said.join("\n") : cell.text,
  };
}

function CellContent({ run, column, cell }: { run: RunView; column: RunsColumn; cell: RunsCell }) {
  const { dash } = useWords();
  if (column.key === "variant") return <VariantName index={run.variantIndex} name={run.variant} />;
  if (cell.missing !== null) return <span aria-hidden="true">{dash}</span>;
  return (
    <span className="cell-text">
      <Name text={cell.text} />
      {cell.questions.length > 0 && (
        <span className="question-mark" aria-hidden="true">
          ?
        </span>
      )}
    </span>
  );
}
