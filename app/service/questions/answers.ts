import type { Answer } from "../../../core/index.ts";
import type { StoredHead, StoredRemark } from "../../store/index.ts";

/** An answer as its remark keeps it, with what was asked: the question may no longer be there. */
export interface AnswerValue extends Answer {
  /** Name of the question. */
  readonly question: string;
  readonly rule: string;
  readonly phase: string | null;
  readonly column: string | null;
  readonly message: string;
}

/** An answer of the file, and its remark's item. */
export interface KeptAnswer {
  readonly item: number;
  readonly answer: Answer;
}

/** The answers that a study keeps, by the question's name. */
export function answersOf({ remarks }: Pick<StoredHead, "remarks">): ReadonlyMap<string, KeptAnswer> {
  const answers = new Map<string, KeptAnswer>();
  for (const [item, { kind, value }] of remarks) {
    if (kind !== "answer") continue;
    const { question, because, who, at } = value as AnswerValue;
    answers.set(question, { item, answer: { because, who, at } });
  }
  return answers;
}

/** @param run item of the run that it is about, with which it goes */
export function answerRemark(run: number | null, value: AnswerValue): StoredRemark {
  return { kind: "answer", run, value };
}
