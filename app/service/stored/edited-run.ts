import { type Locale, type Problem, type Run, type Settings, wordsFor } from "../../../core/index.ts";
import { factorOf, phaseCells, type RunCellsRead, readDate, readRunCells } from "../../import/index.ts";
import { type CellEdit, type CellProblem, cellProblems, editsByPhase, placeKey, textProblems } from "./cell-edit.ts";
import { mergedPhases } from "./merge-phases.ts";
import { type PhaseSheet, phaseSheet } from "./phase-sheet.ts";

export type RunEdited =
  | {
      readonly ok: true;
      readonly run: Run;
      /** All that reading the run's cells asks about now, not only about those that were edited; without file and row. */
      readonly questions: readonly Problem[];
    }
  | { readonly ok: false; readonly problems: readonly CellProblem[] };

/** Edits of the run's own columns that change what is shown there. */
function effectiveRunEdits(run: Run, edits: ReadonlyMap<string, CellEdit>): ReadonlyMap<string, CellEdit> {
  const [first] = run.phases;
  if (edits.size === 0 || first === undefined) return edits;
  const shown = new Map(phaseCells(run, first).map(({ column, text }) => [column, text]));
  return new Map([...edits].filter(([column, { text }]) => text !== (shown.get(column) ?? "")));
}

/** How the run is written before cells are edited: a new date moves its dated times along, whose minutes stay what they are. */
function writtenRun(run: Run, date: CellEdit | undefined): Run {
  const text = date?.text.trim();
  if (text === undefined) return run;
  if (text === "") return { ...run, date: null };
  return readDate(text) === null ? run : { ...run, date: text };
}

function readSheets(name: string, sheets: readonly PhaseSheet[], settings: Settings, locale: Locale): RunCellsRead {
  const rows = sheets.map(({ before, cells }) => ({ phase: before.phase, cells }));
  return readRunCells(name, rows, settings, locale);
}

const errorsOf = ({ problems }: RunCellsRead) => problems.filter(({ severity }) => severity === "error");

/** Errors that the edit made, or that stand in its cells: others were there before, and nobody asked about them now. */
function newErrors(
  errors: readonly Problem[],
  run: Run,
  edited: ReadonlySet<string>,
  settings: Settings,
  locale: Locale,
): readonly Problem[] {
  if (errors.length === 0) return [];
  const key = ({ phase, column, message }: Problem) => `${placeKey(phase, column ?? "")} ${message}`;
  const before = readSheets(
    run.name,
    run.phases.map((phase) => phaseSheet(run, phase)),
    settings,
    locale,
  );
  const known = new Set(errorsOf(before).map(key));
  return errors.filter((error) => edited.has(placeKey(error.phase, error.column ?? "")) || !known.has(key(error)));
}

/** Levels of factors in their order, with those that were edited. */
function editedFactors(
  factors: ReadonlyMap<string, string>,
  edits: ReadonlyMap<string, CellEdit>,
  reread: ReadonlyMap<string, string>,
): ReadonlyMap<string, string> {
  const names = [...edits.keys()].flatMap((column) => factorOf(column) ?? []);
  if (names.length === 0) return factors;
  const levels = new Map(factors);
  for (const name of names) {
    const level = reread.get(name);
    if (level === undefined) levels.delete(name);
    else levels.set(name, level);
  }
  return levels;
}

/** Without its date a run could not tell the days of times that were written with theirs. */
function needsItsDate(run: Run, sheets: readonly PhaseSheet[]): boolean {
  return sheets.some(({ before: { timing }, edited }) => {
    const isRewritten = edited.has("start") && edited.has("end");
    return run.date !== null && timing.kind === "clock" && timing.written !== "time" && !isRewritten;
  });
}

/**
 * A run with cells edited, by the rules by which a readings file is read: the run's rows are written as cells, the edited ones
 * put in their places, and the rows read again. In number cells comma and point are both decimal marks, and nothing parts
 * thousands. Refused, with every reason, where the rows could not be read, or say what cannot be; what was so before stays.
 *
 * Readings whose cells were not edited keep value and identity. Of the times of a phase (start, end, duration, boiling) each
 * is read again when one of them is edited, since bare clock times depend on each other.
 *
 * An empty cell is no reading. A needed one may be emptied only in a run that is left out; it is NaN there, and the run cannot
 * be brought back before it is filled in.
 *
 * That no other run has the run's new name is for the caller to see to.
 *
 * @throws RangeError for a phase that the run has not, or a column that no readings file has
 */
export function editedRun(run: Run, settings: Settings, edits: readonly CellEdit[], locale: Locale): RunEdited {
  const byPhase = editsByPhase(run, edits);
  const unreadable = textProblems(edits, locale);
  if (unreadable.length > 0) return { ok: false, problems: unreadable };
  const runEdits = effectiveRunEdits(run, byPhase.get(null) ?? new Map());
  const written = writtenRun(run, runEdits.get("date"));
  const sheets = run.phases.map((phase) => phaseSheet(written, phase, runEdits, byPhase.get(phase.phase)));
  const read = readSheets(runEdits.get("run")?.text.trim() ?? run.name, sheets, settings, locale);
  const edited = new Set([
    ...[...runEdits.keys()].map((column) => placeKey(null, column)),
    ...sheets.flatMap(({ before, edited: columns }) => [...columns].map((column) => placeKey(before.phase, column))),
  ]);
  const errors = errorsOf(read);
  const refused = newErrors(errors, run, edited, settings, locale);
  if (refused.length > 0) return { ok: false, problems: cellProblems(refused) };

  const { values, date, phases } = read.draft;
  const losesDate = runEdits.has("date") && values.date === null;
  if (losesDate && (date !== null || needsItsDate(run, sheets))) {
    const message = wordsFor(locale).problems.entry.timesHaveDates();
    return { ok: false, problems: [{ phase: null, column: "date", message }] };
  }
  const has = (column: string) => runEdits.has(column);
  const rereads = sheets.map((sheet) => ({
    sheet,
    after: phases.find(({ phase }) => phase.phase === sheet.before.phase)?.phase ?? sheet.before,
  }));
  const after: Run = {
    ...run,
    name: has("run") ? (phases[0]?.row.run ?? run.name) : run.name,
    variant: has("variant") ? (values.variant ?? run.variant) : run.variant,
    date: has("date") ? date : (run.date ?? date),
    order: has("order") ? values.order : run.order,
    block: has("block") ? values.block : run.block,
    operator: has("operator") ? values.operator : run.operator,
    leftOut: has("excluded") ? values.leftOut : run.leftOut,
    factors: editedFactors(run.factors, runEdits, values.factors),
    phases: mergedPhases(rereads, errors),
  };
  return { ok: true, run: after, questions: read.problems.filter(({ severity }) => severity === "question") };
}
