import { type Ref, useMemo } from "react";
import type { RunView } from "../../../app/contract/index.ts";
import type { GridPlace } from "../../component/grid-place.ts";
import { FullName, shortened } from "../../component/name.tsx";
import { VariantMark } from "../../component/variant-mark.tsx";
import type { CellDesk, CellPlace } from "../../state/cell-desk.ts";
import { useWords } from "../../state/language.tsx";
import { useStudy } from "../../state/study.tsx";
import { CellField, type FieldWish } from "./cell-field.tsx";
import { CellHistory } from "./cell-history.tsx";
import { LeaveOut } from "./leave-out.tsx";
import { hasPhase, type RunsColumn } from "./runs-table.ts";

/** Most texts of a column that are proposed for its cells. */
const mostProposals = 60;

/** The cell of the study that a place of the table shows; null where it is worked out, or where there is nothing to change. */
export function cellPlace(
  study: string | null,
  run: RunView | undefined,
  column: RunsColumn | undefined,
): CellPlace | null {
  if (study === null || run === undefined || column === undefined || column.reading === null) return null;
  if (!hasPhase(run, column.phase)) return null;
  return { study, run: run.id, phase: column.phase, column: column.reading };
}

interface AboutCellProps {
  place: GridPlace;
  columns: readonly RunsColumn[];
  runs: readonly RunView[];
  cells: CellDesk;
  /** It is only pointed at: told about, not changed. */
  isPointed: boolean;
  wantsFocus: FieldWish | null;
  onFocused: () => void;
  onDone: () => void;
  /** Writes an earlier text into the field, to be looked at and saved. */
  onPutBack: (place: CellPlace, stands: string, text: string) => void;
  panel: Ref<HTMLElement>;
}

/**
 * Everything that is known about a cell: its whole text, why it is missing, what is odd about it, all that ever stood there;
 * and the field that changes it.
 */
export function AboutCell({ place, columns, runs, panel, ...rest }: AboutCellProps) {
  const words = useWords().runs;
  const column = columns[place.column];
  const run = runs[place.row];
  return (
    <section ref={panel} className="about-cell" aria-label={words.details}>
      {column === undefined && <p className="soft">{words.detailsEmpty}</p>}
      {column !== undefined && run === undefined && <AboutColumn column={column} isHeading />}
      {column !== undefined && run !== undefined && (
        <AboutRunCell run={run} runs={runs} column={column} key={`${run.id}/${column.phase}/${column.key}`} {...rest} />
      )}
    </section>
  );
}

function AboutRunCell({
  run,
  runs,
  column,
  cells,
  isPointed,
  wantsFocus,
  onFocused,
  onDone,
  onPutBack,
}: Omit<AboutCellProps, "place" | "columns" | "panel"> & { run: RunView; column: RunsColumn }) {
  const { runs: words, changes, phase: phaseWord, separator } = useWords();
  const { handle, view } = useStudy();
  const cell = column.cell(run);
  const place = cellPlace(handle, run, column);
  const canChange = place !== null && !isPointed && view?.readOnly === null;
  const proposals = useProposals(column, runs, canChange);
  return (
    <div className="beside about-beside">
      <div>
        <h2>
          <FullName text={run.run} />
          {column.key !== "run" &&
            [column.phase, column.heading].map(
              (one, at) =>
                one !== null && (
                  <span key={one}>
                    {separator}
                    {at === 0 ? phaseWord(one) : one}
                  </span>
                ),
            )}
          {!canChange && column.key !== "run" && (
            <>
              {separator}
              {cell.missing === null ? (
                <FullName text={cell.text} />
              ) : (
                <span className="soft">{words.missing(cell.missing)}</span>
              )}
            </>
          )}
        </h2>
        {canChange && (
          <CellField
            cells={cells}
            place={place}
            label={changes.field(
              shortened(run.run),
              column.phase === null ? null : phaseWord(column.phase),
              column.heading,
            )}
            stands={cell.text}
            proposals={proposals}
            wantsFocus={wantsFocus}
            onFocused={onFocused}
            onDone={onDone}
          />
        )}
        {!isPointed && <WhyNot run={run} column={column} />}
        {column.key === "run" && (
          <p className="variant-name">
            <VariantMark index={run.variantIndex} /> <FullName text={run.variant} />
          </p>
        )}
        {run.leftOut !== null && (isPointed || view?.readOnly !== null) && (
          <p className="soft">
            <FullName text={words.leftOut(run.leftOut)} />
          </p>
        )}
        {cell.questions.map((question) => (
          <p className="mark" key={question}>
            <b>{words.question}.</b> <FullName text={question} />
          </p>
        ))}
        {column.key === "run" &&
          run.notes.map((note) => (
            <p className="soft" key={note}>
              <FullName text={note} />
            </p>
          ))}
        <AboutColumn column={column} isHeading={false} />
      </div>
      {!isPointed && (
        <div>
          {place !== null && (
            <CellHistory
              place={place}
              stands={cell.text}
              onPutBack={canChange ? (text) => onPutBack(place, cell.text, text) : null}
            />
          )}
          {view?.readOnly === null && <LeaveOut key={run.id} run={run} onDone={onDone} />}
        </div>
      )}
    </div>
  );
}

/** Why a cell cannot be changed, if it cannot. */
function WhyNot({ run, column }: { run: RunView; column: RunsColumn }) {
  const { changes } = useWords();
  const readOnly = useStudy().view?.readOnly ?? null;
  if (column.reading === null) return <p className="soft prose">{changes.computed}</p>;
  if (!hasPhase(run, column.phase)) return <p className="soft prose">{changes.noPhase}</p>;
  return readOnly === null ? null : <p className="soft prose">{changes.readOnly}</p>;
}

/** What other runs have in a column of texts: variants, operators, fuels. */
function useProposals(column: RunsColumn, runs: readonly RunView[], wanted: boolean): readonly string[] {
  return useMemo(() => {
    if (!wanted || column.align !== "text" || column.key === "run") return [];
    const found = new Set<string>();
    for (const run of runs) {
      const { text } = column.cell(run);
      if (text !== "" && text.length <= 200) found.add(text);
      if (found.size >= mostProposals) break;
    }
    return [...found];
  }, [column, runs, wanted]);
}

function AboutColumn({ column, isHeading }: { column: RunsColumn; isHeading: boolean }) {
  const { runs: words, compare } = useWords();
  const { quantity } = column;
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
      {column.reading !== null && column.reading !== column.heading && (
        <p className="small">
          {words.heading}: <code>{column.reading}</code>
        </p>
      )}
    </div>
  );
}
