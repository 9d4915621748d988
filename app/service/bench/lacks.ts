import {
  fieldName,
  furtherFuelFields,
  type Locale,
  type PhaseName,
  type ProcedureField,
  type ProcedureOptions,
  procedureSteps,
  type Run,
  wordsFor,
} from "../../../core/index.ts";
import type { CellEdit } from "../stored/index.ts";
import { isBegun } from "./begin-run.ts";
import { cellsOf, lackingCells, lastingColumns } from "./lasting-cells.ts";

/** Further fuel entries of which something stands in a phase's row. */
export function entriesOf(cells: ReadonlyMap<string, string>): (2 | 3 | 4)[] {
  const numbers = [2, 3, 4] as const;
  return numbers.filter((entry) => [...cells.keys()].some((column) => new RegExp(`^fuel${entry}(_|$)`).test(column)));
}

/** Phases in which something was read, beside what is read once for the run. */
export function begunPhases(run: Run, form: ProcedureOptions): readonly PhaseName[] {
  const lasting = lastingColumns(run, form);
  return run.phases
    .map(({ phase }) => phase)
    .filter((phase) => isBegun(run, phase, cellsOf(run, phase), lasting.get(phase) ?? new Set()));
}

/** Whether a field is recorded, on either basis. */
export function isRecorded(cells: ReadonlyMap<string, string>, { column, otherBasis }: ProcedureField): boolean {
  return cells.has(column) || (otherBasis !== null && cells.has(otherBasis));
}

/**
 * What lacks before a run can be finished, a sentence each. Phases that were not begun are none of it.
 *
 * @param filled cells that finishing fills by itself
 */
export function lacksOf(
  run: Run,
  form: ProcedureOptions,
  locale: Locale,
  filled: readonly CellEdit[] = lackingCells(run, form),
): string[] {
  const words = wordsFor(locale).benchWork;
  if (begunPhases(run, form).length === 0) return [words.nothingRead];
  return lackingIn(run, form, filled).map((field) => words.lacks(fieldName(field, form.pots, locale), field.phase));
}

/** The fields that lack before a run can be finished, in the order of the procedure. */
export function lackingIn(
  run: Run,
  form: ProcedureOptions,
  filled: readonly CellEdit[] = lackingCells(run, form),
): ProcedureField[] {
  const [first] = run.phases;
  const begun = begunPhases(run, form);
  if (first === undefined || begun.length === 0) return [];
  const ofRun = cellsOf(run, first.phase);
  const fields = procedureSteps(run.method, form).flatMap((step) => step.fields);
  const further = begun.flatMap((phase) =>
    entriesOf(cellsOf(run, phase)).flatMap((entry) => furtherFuelFields(phase, entry)),
  );
  return [...fields, ...further].filter((field) => {
    const { phase, needed } = field;
    if (!needed || (phase !== null && !begun.includes(phase))) return false;
    const cells = new Map(phase === null ? ofRun : cellsOf(run, phase));
    for (const cell of filled) if (cell.phase === phase) cells.set(cell.column, cell.text);
    return !isRecorded(cells, field);
  });
}
