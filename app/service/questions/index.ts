import type { Question } from "../../../core/index.ts";
import type { Edit, QuestionsView, QuestionView } from "../../contract/index.ts";
import { refuse } from "../refused.ts";
import type { EditContext, Prepared } from "../study/prepared.ts";
import type { StudySession } from "../study/study-session.ts";

export function questionView({ rule, run, phase, column, message }: Question): QuestionView {
  return { id: "0".repeat(32), rule, run, phase, column, message, answer: null };
}
export function answerEdit(_edit: Extract<Edit, { kind: "answer" | "reopen" }>, _context: EditContext): Prepared {
  refuse("");
}
export function questionsView(_session: StudySession): QuestionsView {
  refuse("");
}
