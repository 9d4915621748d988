import { type CsvCell, csvText, type Study } from "../../core/index.ts";
import { inLayoutOrder, phaseCells } from "./phase-cells.ts";

/** Columns that every readings file has, filled or not. */
const always = ["run", "variant", "phase"];

/**
 * The readings of a study as a readings file: one row for each phase, in order of run and procedure; only columns that occur,
 * in the layout's order and units. Reading it again gives the same readings, exclusions and notes.
 */
export function writeReadings(study: Study): string {
  const rows = study.runs.flatMap((run) =>
    run.phases.map((phase) => new Map(phaseCells(run, phase).map(({ column, cell }) => [column, cell]))),
  );
  const columns = inLayoutOrder([...new Set([...always, ...rows.flatMap((row) => [...row.keys()])])]);
  const lines: CsvCell[][] = rows.map((row) => columns.map((column) => row.get(column) ?? null));
  return csvText([columns, ...lines]);
}
