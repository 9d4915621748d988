import {
  type AnsweredQuestion,
  atOnce,
  type InSteps,
  type Question,
  type StudyQuestions,
  withAnswers,
} from "../../../core/index.ts";
import type { StoredHead, StoredRunLine } from "../../store/index.ts";
import { answersOf } from "./answers.ts";
import type { QuestionIds } from "./question-id.ts";

/** A question, open or answered, and the item of the run that it is about. */
export interface AskedQuestion {
  readonly question: Question | AnsweredQuestion;
  readonly runId: string | null;
}

/** Questions of an open study, each with its name; those that were answered are closed. */
export interface AskedQuestions extends StudyQuestions {
  /** All questions, open and answered: about the whole first, then run by run. */
  readonly asked: readonly AskedQuestion[];
}

/** Names the questions of a study, and closes those to which its file has an answer. */
export function askedQuestions(
  all: StudyQuestions,
  ids: QuestionIds,
  head: StoredHead,
  lines: readonly StoredRunLine[],
): AskedQuestions {
  return atOnce(askedQuestionsInSteps(all, ids, head, lines));
}

/** The same, with a pause after each run. */
export function* askedQuestionsInSteps(
  all: StudyQuestions,
  ids: QuestionIds,
  head: StoredHead,
  lines: readonly StoredRunLine[],
): InSteps<AskedQuestions> {
  ids.keepOnly(lines);
  const byId = new Map(lines.map((line) => [String(line.run), line]));
  const variants = new Map([...head.variants].map(([item, { name }]) => [name, item]));
  const itemOf = (variant: string) => variants.get(variant);
  const questions = ids.named(all.questions, null, itemOf);
  const runQuestions = new Map<string, readonly Question[]>();
  for (const [run, some] of all.runQuestions) {
    yield;
    runQuestions.set(run, ids.named(some, byId.get(run) ?? null, itemOf));
  }
  yield;

  const answers = answersOf(head);
  const answerOf = ({ id = "" }: Question) => answers.get(id)?.answer ?? null;
  const asked = (question: Question, runId: string | null): AskedQuestion => {
    const answer = answerOf(question);
    return { question: answer === null ? question : { ...question, answer }, runId };
  };
  return {
    ...withAnswers({ questions, runQuestions, answered: [] }, answerOf),
    asked: [
      ...questions.map((question) => asked(question, null)),
      ...[...runQuestions].flatMap(([run, some]) => some.map((question) => asked(question, run))),
    ],
  };
}
