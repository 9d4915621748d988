import { type StudyResults, studyErrors } from "../../../core/index.ts";
import { Turn } from "../grid/turn.ts";
import type { StudySession } from "../study/study-session.ts";

/**
 * Works out the first-order errors of all runs that count, others having their turn in between: what is asked of means and differences
 * after that finds them. They are kept as long as the runs are.
 */
export async function workOutErrors(
  session: Pick<StudySession, "pause">,
  { runs, study }: StudyResults,
): Promise<void> {
  const errors = studyErrors(study.settings);
  if (errors === null) return;
  const turn = new Turn(session);
  for (const { run } of runs) {
    if (run.leftOut === null) errors.ofRun(run);
    if (turn.isOver) await turn.pause();
  }
}
