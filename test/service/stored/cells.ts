import { expect } from "vitest";
import { emptySettingsFile, readReadings, readTable } from "../../../app/import/index.ts";
import { type CellEdit, cellText, editedRun, type RunEdited } from "../../../app/service/stored/index.ts";
import { defaultSettings, type Phase, type PhaseName, type Run } from "../../../core/index.ts";
import { type Changes, readingsText } from "../../import/good-readings.ts";

/** The run of a readings file with one run. */
export function runOf(changes: Changes = {}): Run {
  const table = readTable(new TextEncoder().encode(readingsText(changes)), "x.csv");
  const { study, problems } = readReadings({ table, settings: emptySettingsFile() });
  const [run] = study?.runs ?? [];
  if (run === undefined) expect.fail(`no run: ${problems.map(({ message }) => message).join(" ")}`);
  return run;
}

export type Cell = readonly [phase: PhaseName | null, column: string, text: string];

export const edit = (run: Run, ...cells: readonly Cell[]): RunEdited => {
  const edits = cells.map(([phase, column, text]): CellEdit => ({ phase, column, text }));
  return editedRun(run, defaultSettings(), edits, "en");
};
export const taken = (run: Run, ...cells: readonly Cell[]): Run => {
  const result = edit(run, ...cells);
  if (!result.ok) expect.fail(result.problems.map(({ message }) => message).join(" "));
  return result.run;
};
export const refused = (run: Run, ...cells: readonly Cell[]) => {
  const result = edit(run, ...cells);
  if (result.ok) expect.fail("the edit was taken");
  return result.problems;
};
export const phaseOf = ({ phases }: Run, name: PhaseName): Phase => {
  const found = phases.find(({ phase }) => phase === name);
  if (found === undefined) expect.fail(`no ${name}`);
  return found;
};
export const textIn = (run: Run, phase: PhaseName, column: string) => cellText(run, phaseOf(run, phase), column);
export const minutesOf = (run: Run, name: PhaseName) => {
  const { timing } = phaseOf(run, name);
  return timing.kind === "clock" ? [timing.start.value, timing.end.value, timing.written] : [timing.minutes.value];
};
