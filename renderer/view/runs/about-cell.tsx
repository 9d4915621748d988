import { type Ref, useMemo } from "react";
import type { GridRowView, QuestionView } from "../../../app/contract/index.ts";
import { type FieldHelp, fieldHelp, type Locale, type Method, type PhaseName } from "../../../core/index.ts";
import { FullName, shortened } from "../../component/name.tsx";
import { QuestionAnswer } from "../../component/question-answer.tsx";
import { VariantMark } from "../../component/variant-mark.tsx";
import type { CellDesk, CellPlace } from "../../state/cell-desk.ts";
import type { GridRows } from "../../state/grid.ts";
import { useLocale, useWords } from "../../state/language.tsx";
import type { Route } from "../../state/route.ts";
import { useStudy } from "../../state/study.tsx";
import { phaseOfCell } from "./bulk-cells.ts";
import { CellField, type FieldWish } from "./cell-field.tsx";
import { CellHistory } from "./cell-history.tsx";
import {
  missingIn,
  quantityKeyOf,
  questionsIn,
  type RunsColumn,
  readingOf,
  shownText,
  uncertainText,
} from "./grid-columns.ts";
import { LeaveOut } from "./leave-out.tsx";
import { ResultBudget } from "./result-budget.tsx";

/** Most texts of a column that are proposed for its cells. */
const mostProposals = 60;

/** The cell of the study that a place of the grid shows; null where it is worked out. */
export function cellPlace(study: string | null, row: GridRowView, column: RunsColumn): CellPlace | null {
  if (study === null || column.reading === null) return null;
  return { study, run: row.runId, phase: column.at === null ? null : phaseOfCell(row, column), column: column.reading };
}

/** "R02, cold start, fuel before, g". */
export function useCellLabel(): (row: GridRowView, column: RunsColumn) => string {
  const { changes, phase: phaseWord, runs } = useWords();
  return (row, column) =>
    column.at === null
      ? changes.field(shortened(row.run), null, runs.run)
      : changes.field(shortened(row.run), column.group === "run" ? null : phaseWord(row.phase), column.heading);
}

/** Whether it is shown what the uncertainty of a result is made of, and how to open and close that. */
export interface OpenBudget {
  readonly isOpen: boolean;
  readonly wantsFocus: boolean;
  readonly open: () => void;
  readonly focused: () => void;
  readonly close: () => void;
}

interface AboutCellProps {
  row: GridRowView | undefined;
  column: RunsColumn | undefined;
  columns: readonly RunsColumn[];
  grid: GridRows;
  cells: CellDesk;
  /** It is being written in its cell. */
  isInGrid: boolean;
  budget: OpenBudget;
  route: Route;
  wantsFocus: FieldWish | null;
  onFocused: () => void;
  onDone: () => void;
  /** Writes an earlier text into the field, to be looked at and saved. */
  onPutBack: (place: CellPlace, stands: string, text: string) => void;
  panel: Ref<HTMLElement>;
}

/**
 * Everything that is known about a cell: its whole text, why it is missing, what is odd about it, all that ever stood there;
 * and a field that changes it.
 */
export function AboutCell({ row, column, panel, ...rest }: AboutCellProps) {
  const words = useWords().runs;
  return (
    <section ref={panel} className="about-cell" aria-label={words.details}>
      {column === undefined && <p className="soft">{words.detailsEmpty}</p>}
      {column !== undefined && row === undefined && <AboutColumn row={null} column={column} isHeading />}
      {column !== undefined && row !== undefined && (
        <AboutRunCell row={row} column={column} key={`${row.runId}/${row.phase}/${column.key}`} {...rest} />
      )}
    </section>
  );
}

function AboutRunCell({
  row,
  column,
  columns,
  grid,
  cells,
  isInGrid,
  budget,
  route,
  wantsFocus,
  onFocused,
  onDone,
  onPutBack,
}: Omit<AboutCellProps, "row" | "column" | "panel"> & { row: GridRowView; column: RunsColumn }) {
  const words = useWords();
  const { runs, phase: phaseWord, separator } = words;
  const locale = useLocale();
  const { handle, view } = useStudy();
  const label = useCellLabel();
  const missing = missingIn(row, column);
  const place = cellPlace(handle, row, column);
  const canChange = place !== null && view?.readOnly === null;
  const stands = readingOf(row, column);
  const proposals = useProposals(column, grid, canChange);
  const shown = useMemo(
    () => new Set(columns.flatMap(({ reading }) => (reading === null ? [] : [reading]))),
    [columns],
  );
  const isFrozen = column.at === null;
  const uncertain = uncertainText(row, column, locale);
  const quantity = quantityKeyOf(row, column);
  return (
    <div className="beside about-beside">
      <div>
        <h2>
          <FullName text={row.run} />
          {separator}
          {phaseWord(row.phase)}
          {!isFrozen && separator + column.heading}
          {!canChange && !isFrozen && (
            <>
              {separator}
              {missing === null ? (
                <FullName
                  text={
                    uncertain === null
                      ? shownText(row, column, locale)
                      : `${uncertain.value} ${words.uncertainty.plusMinus(uncertain.half)}`
                  }
                />
              ) : (
                <span className="soft">{runs.missing(missing)}</span>
              )}
            </>
          )}
        </h2>
        {canChange && (
          <CellField
            cells={cells}
            place={place}
            label={label(row, column)}
            stands={stands}
            proposals={proposals}
            isInGrid={isInGrid}
            wantsFocus={wantsFocus}
            onFocused={onFocused}
            onDone={onDone}
          />
        )}
        <WhyNot column={column} row={row} />
        {isFrozen && (
          <p className="variant-name">
            <VariantMark index={row.variantIndex} /> <FullName text={row.variant} />
          </p>
        )}
        {row.leftOut !== null && view?.readOnly !== null && (
          <p className="soft">
            <FullName text={runs.leftOut(row.leftOut)} />
          </p>
        )}
        {questionsIn(row, column, shown).map((question) => (
          <Question key={question.id} question={question} isElsewhere={isFrozen} onAnswered={onDone} />
        ))}
        {quantity !== null && handle !== null && !budget.isOpen && (
          <p className="budget-way">
            <button type="button" className="act quiet" onClick={budget.open}>
              {words.uncertainty.open}
            </button>{" "}
            <kbd>{words.uncertainty.openKey}</kbd>
          </p>
        )}
        {quantity !== null && handle !== null && budget.isOpen && (
          <ResultBudget
            place={{ study: handle, run: row.runId, quantity }}
            route={route}
            wantsFocus={budget.wantsFocus}
            onFocused={budget.focused}
            onClose={() => {
              budget.close();
              onDone();
            }}
          />
        )}
        <AboutColumn row={row} column={column} isHeading={false} />
      </div>
      <div>
        {place !== null && (
          <CellHistory
            place={place}
            stands={stands}
            onPutBack={canChange ? (text) => onPutBack(place, stands, text) : null}
          />
        )}
        {view?.readOnly === null && (
          <LeaveOut key={row.runId} runId={row.runId} leftOut={row.leftOut} onDone={onDone} />
        )}
      </div>
    </div>
  );
}

/** What looks odd, with where it stands if that is not this cell. */
export function Question({
  question,
  isElsewhere,
  onAnswered,
}: {
  question: QuestionView;
  isElsewhere: boolean;
  onAnswered: () => void;
}) {
  const words = useWords();
  const where = isElsewhere && question.column !== null ? `${words.reading(question.column)}: ` : "";
  return (
    <div className="mark">
      <p>
        <b>{words.runs.question}.</b> <FullName text={where + question.message} />
      </p>
      <QuestionAnswer question={question} onAnswered={onAnswered} />
    </div>
  );
}

/** Why a cell cannot be changed, if it cannot. */
function WhyNot({ row, column }: { row: GridRowView; column: RunsColumn }) {
  const { changes, grid } = useWords();
  const readOnly = useStudy().view?.readOnly ?? null;
  if (column.group === "runResult" && !row.isFirst) return <p className="soft prose">{grid.onFirstRow}</p>;
  if (column.reading === null) {
    return <p className="soft prose">{column.group === "run" ? grid.leftOutHere : changes.computed}</p>;
  }
  return readOnly === null ? null : <p className="soft prose">{changes.readOnly}</p>;
}

/** What other runs have in a column of texts: variants, operators, fuels; as far as their rows were fetched. */
export function proposalsOf(column: RunsColumn, grid: GridRows): readonly string[] {
  if (column.align !== "text" || column.at === null) return [];
  const found = new Set<string>();
  for (const { rows } of grid.blocks.values()) {
    for (const row of rows) {
      const text = readingOf(row, column);
      if (text !== "" && text.length <= 200) found.add(text);
      if (found.size >= mostProposals) return [...found];
    }
  }
  return [...found];
}

/** Columns of texts that differ from row to row: to propose them would only be in the way. */
const isOwnText = /^(?:note|deviation|date|start|end|boiled_at)$/;

function useProposals(column: RunsColumn, grid: GridRows, wanted: boolean): readonly string[] {
  return useMemo(
    () => (wanted && !isOwnText.test(column.reading ?? "") ? proposalsOf(column, grid) : []),
    [column, grid, wanted],
  );
}

export const wantsProposals = (column: RunsColumn): boolean => !isOwnText.test(column.reading ?? "");

/** What a reading is and how it is taken; null for columns that no step of the procedure has. */
function helpOf(column: RunsColumn, phase: PhaseName | null, method: Method, locale: Locale): FieldHelp | null {
  if (column.reading === null) return null;
  try {
    return fieldHelp({ phase: column.group === "run" ? null : phase, column: column.reading }, 4, method, locale);
  } catch {
    return null;
  }
}

function AboutColumn({ row, column, isHeading }: { row: GridRowView | null; column: RunsColumn; isHeading: boolean }) {
  const { runs: words, compare, grid } = useWords();
  const locale = useLocale();
  const { view } = useStudy();
  const { quantity } = column;
  const help = helpOf(column, row?.phase ?? null, view?.method ?? "wbt", locale);
  return (
    <div className="soft">
      {isHeading && <h2>{column.heading}</h2>}
      {quantity !== null && (
        <>
          <p className="prose">{quantity.meaning}</p>
          <p>
            <span className="formula">{quantity.formula}</span>
          </p>
          {column.formulaOnly && <p>{compare.formulaOnlyMeaning}</p>}
        </>
      )}
      {help !== null && (
        <details className="field-help">
          <summary className="small">{grid.help.what}</summary>
          <p className="prose small">{help.what}</p>
          <p className="prose small">{help.how}</p>
          <p className="prose small">{help.feedsSentence}</p>
          {column.reading !== null && (
            <p className="small">
              {words.heading}: <code>{column.reading}</code>
            </p>
          )}
        </details>
      )}
    </div>
  );
}
