import type { Run } from "../readings/study.ts";
import type { StudyProvenance } from "./report-request.ts";

/** Whether a run is still being made. */
export function isOnBench({ id }: Pick<Run, "id">, { runsOnBench }: StudyProvenance): boolean {
  return runsOnBench?.includes(id) === true;
}

/** Whether a run was left out with a reason: one that is being made does not count yet, but was not left out. */
export function isLeftOut(run: Pick<Run, "id" | "leftOut">, provenance: StudyProvenance): boolean {
  return run.leftOut !== null && !isOnBench(run, provenance);
}
