import type { Run } from "../../../core/index.ts";
import type { Edit } from "../../contract/index.ts";
import type { Change, StudyDatabase } from "../../store/index.ts";
import type { CellEdit } from "../stored/index.ts";
import type { EditContext, Prepared } from "../study/prepared.ts";
import type { StudyContent } from "../study/study-content.ts";
import { beginRun } from "./begin-run.ts";
import { benchRecord, recordChange } from "./bench-record.ts";
import { abandonRun, benchForm, finishRun, takeUpRun } from "./end-run.ts";
import { cellsOf, lastingCells } from "./lasting-cells.ts";
import { specimensEdit } from "./specimens.ts";
import { moistureOf, specimensColumn } from "./specimens-column.ts";
import { stamp } from "./stamp.ts";

export { benchClock } from "./bench-clock.ts";
export { benchView } from "./bench-view.ts";
export { countingOnBench } from "./end-run.ts";

export type BenchEdit = Extract<
  Edit,
  { kind: "beginRun" | "benchForm" | "stamp" | "specimens" | "finishRun" | "abandonRun" | "takeUpRun" }
>;

/** What an edit of the Bench does to the file. */
export function benchEdit(edit: BenchEdit, context: EditContext): Prepared {
  switch (edit.kind) {
    case "beginRun":
      return beginRun(edit, context);
    case "benchForm":
      return benchForm(edit, context);
    case "stamp":
      return stamp(edit, context);
    case "specimens":
      return specimensEdit(edit, context);
    case "finishRun":
      return finishRun(edit.run, context);
    case "abandonRun":
      return abandonRun(edit.run, edit.reason, context);
    case "takeUpRun":
      return takeUpRun(edit.run, context);
  }
}

/** Cells of a run, with those that follow from them where it is on the Bench. */
export function cellsWithLasting(
  item: number,
  run: Run,
  cells: readonly CellEdit[],
  { head }: Pick<StudyContent, "head">,
): readonly CellEdit[] {
  const kept = benchRecord(head, item);
  if (kept?.record.state !== "open") return cells;
  // A moisture that is typed in is no longer the mean of the specimens that were noted.
  const stale = cells.flatMap(({ phase, column }): CellEdit[] => {
    const moisture = moistureOf(column);
    const specimens = moisture === null ? null : specimensColumn(moisture.entry);
    const isNoted = phase !== null && specimens !== null && cellsOf(run, phase).has(specimens);
    return isNoted && !cells.some((one) => one.phase === phase && one.column === specimens)
      ? [{ phase, column: specimens, text: "" }]
      : [];
  });
  const all = [...cells, ...stale];
  return [...all, ...lastingCells(run, kept.record, all)];
}

/** A run that counts is on the Bench no longer. */
export function leavingBench(
  item: number,
  after: Run,
  { head }: Pick<StudyContent, "head">,
  database: StudyDatabase,
): Change[] {
  return after.leftOut === null ? recordChange(item, benchRecord(head, item), null, database) : [];
}
