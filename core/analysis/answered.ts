import type { Answer, AnsweredQuestion, Question } from "./question.ts";
import type { StudyQuestions } from "./study-questions.ts";

/**
 * Closes the questions that somebody answered. Pure: the answers are handed in.
 *
 * @param answerOf the answer to a question; null where it is open
 */
export function withAnswers(
  { runQuestions, questions, answered }: StudyQuestions,
  answerOf: (question: Question) => Answer | null,
): StudyQuestions {
  const closed: AnsweredQuestion[] = [...answered];
  const open = (some: readonly Question[]): Question[] =>
    some.filter((question) => {
      const answer = answerOf(question);
      if (answer === null) return true;
      closed.push({ ...question, answer });
      return false;
    });
  // About the whole study first, as everywhere.
  const ofStudy = open(questions);
  const ofRuns = new Map([...runQuestions].map(([run, some]) => [run, open(some)]));
  return { questions: ofStudy, runQuestions: ofRuns, answered: closed };
}
