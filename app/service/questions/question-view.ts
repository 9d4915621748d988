import type { AnsweredQuestion, Question } from "../../../core/index.ts";
import type { QuestionView, SetUpSubject } from "../../contract/index.ts";

/** Where questions are answered that are about what is set up. */
const setUpOf: Readonly<Record<string, SetUpSubject>> = {
  balanceWithoutGain: "instrument",
  calibration: "calibration",
  clockErrorOfReading: "instrument",
  noCalorific: "fuel",
  otherMethod: "study",
  potNotSetUp: "pot",
};

/** A question of an open study (`StudyContent.overview` names them) for a page. */
export function questionView(question: Question | AnsweredQuestion): QuestionView {
  const { id, rule, run, phase, column, message } = question;
  if (id === undefined) throw new Error(`a question of the rule ${rule} has no name`);
  const setUp = setUpOf[rule] ?? null;
  return { id, rule, run, phase, column, setUp, message, answer: "answer" in question ? question.answer : null };
}
