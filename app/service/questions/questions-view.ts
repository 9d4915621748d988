import type { QuestionsView } from "../../contract/index.ts";
import type { StudySession } from "../study/study-session.ts";
import { questionView } from "./question-view.ts";

/** All questions of a study, open and answered: about the whole first, then run by run as the sheet goes. */
export async function questionsView(session: StudySession): Promise<QuestionsView> {
  // Of a study that is still being looked at: others have their turn until all is known.
  if (session.state().looking !== null) await session.open();
  await session.asked();
  const { asked } = session.content.overview();
  return {
    questions: asked.map(({ question, runId }) => ({
      ...questionView(question),
      runId,
      variant: question.variant,
    })),
  };
}
