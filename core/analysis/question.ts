import type { PhaseName } from "../readings/phase.ts";

/** Something that looks odd: it lets the readings through, marked. */
export interface Question {
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
