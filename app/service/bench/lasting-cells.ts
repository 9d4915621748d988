import { type PhaseName, type ProcedureOptions, procedureSteps, type Run } from "../../../core/index.ts";
import { phaseCells } from "../../import/index.ts";
import type { CellEdit } from "../stored/index.ts";
import { specimensColumn } from "./specimens-column.ts";

/** What stands in each cell of a phase's row. */
export function cellsOf(run: Run, phase: PhaseName): ReadonlyMap<string, string> {
  const of = run.phases.find((one) => one.phase === phase);
  return new Map(of === undefined ? [] : phaseCells(run, of).map(({ column, text }) => [column, text]));
}

/** Columns that are read once for the run, in the first phase, by the later phases that have them too. */
export function lastingColumns(run: Run, form: ProcedureOptions): ReadonlyMap<PhaseName, ReadonlySet<string>> {
  const found = new Map<PhaseName, Set<string>>();
  for (const { phase, column, otherBasis, begins } of procedureSteps(run.method, form).flatMap(
    ({ fields }) => fields,
  )) {
    if (phase === null || begins === null || !begins.stays || begins.column !== column) continue;
    const columns = found.get(phase) ?? new Set();
    found.set(phase, columns.add(column));
    if (otherBasis !== null) columns.add(otherBasis).add(specimensColumn(1));
  }
  return found;
}

/**
 * What is read once for the run stands in each phase's row: later phases in which nothing stands, or what stood in the first one,
 * get what is written into the first. The same value in the same column is one reading, with one error.
 */
export function lastingCells(run: Run, form: ProcedureOptions, edits: readonly CellEdit[]): CellEdit[] {
  const [first] = run.phases;
  if (first === undefined) return [];
  const before = cellsOf(run, first.phase);
  const edited = new Set(edits.map(({ phase, column }) => `${phase} ${column}`));
  const ofFirst = edits.filter(({ phase }) => phase === first.phase);
  const found: CellEdit[] = [];
  for (const [phase, columns] of lastingColumns(run, form)) {
    if (!run.phases.some((one) => one.phase === phase)) continue;
    const cells = cellsOf(run, phase);
    for (const { column, text } of ofFirst) {
      if (!columns.has(column) || edited.has(`${phase} ${column}`)) continue;
      const there = cells.get(column) ?? "";
      if ((there === "" || there === before.get(column)) && there !== text.trim()) found.push({ phase, column, text });
    }
  }
  return found;
}

/** The same for a run that is finished: what its later phases lack of what the first one has. */
export function lackingCells(run: Run, form: ProcedureOptions): CellEdit[] {
  const [first] = run.phases;
  if (first === undefined) return [];
  const known = cellsOf(run, first.phase);
  const found: CellEdit[] = [];
  for (const [phase, columns] of lastingColumns(run, form)) {
    if (phase === first.phase || !run.phases.some((one) => one.phase === phase)) continue;
    const cells = cellsOf(run, phase);
    const hasMoisture = cells.has("moisture_wet_percent") || cells.has("moisture_dry_percent");
    for (const column of columns) {
      const text = known.get(column);
      if (text === undefined || cells.has(column) || (hasMoisture && column.startsWith("moisture_"))) continue;
      found.push({ phase, column, text });
    }
  }
  return found;
}
