import type { AnsweredQuestion, Question } from "../../../core/index.ts";
import type { QuestionView } from "../../contract/index.ts";

/** A question of an open study (`StudyContent.overview` names them) for a page. */
export function questionView(question: Question | AnsweredQuestion): QuestionView {
  const { id, rule, run, phase, column, message } = question;
  if (id === undefined) throw new Error(`a question of the rule ${rule} has no name`);
  return { id, rule, run, phase, column, message, answer: "answer" in question ? question.answer : null };
}
