import type { PhaseName } from "../readings/phase.ts";

/** Something that looks odd: it lets the readings through, marked. */
export interface Question {
  /** Names it for an answer to it, where answers are kept. */
  readonly id?: string;
  /** Stable name of the rule. */
  readonly rule: string;
  /** null: about a variant or the whole study. */
  readonly run: string | null;
  readonly variant: string | null;
  readonly phase: PhaseName | null;
  /** Heading of the readings file's column that it is about. */
  readonly column: string | null;
  readonly message: string;
}

/** "It is right, because …": what closes a question. */
export interface Answer {
  readonly because: string;
  readonly who: string;
  /** ISO 8601, UTC. */
  readonly at: string;
}

/** A question that is closed: it no longer counts among the open ones, and is kept with its answer. */
export interface AnsweredQuestion extends Question {
  readonly answer: Answer;
}
