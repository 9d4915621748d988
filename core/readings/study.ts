import type { Method, Phase } from "./phase.ts";
import type { Settings } from "./settings.ts";

/** One run: one fire (or one day's sequence of fires) on one variant. */
export interface Run {
  readonly id: string;
  readonly name: string;
  readonly variant: string;
  /** From its phases. A study holds runs of one method or says so run by run. */
  readonly method: Method;
  /** ISO 8601 date of the first phase. */
  readonly date: string | null;
  /** Position in which the runs were made. */
  readonly order: number | null;
  readonly block: string | null;
  readonly operator: string | null;
  /** Level of each design factor, by the factor's name. */
  readonly factors: ReadonlyMap<string, string>;
  /** Reason for leaving the run out; null = included. */
  readonly leftOut: string | null;
  /** In the order of the procedure; never two of one name. */
  readonly phases: readonly Phase[];
}

/** Everything that was recorded, and what was settled for the whole study. */
export interface Study {
  readonly name: string;
  readonly settings: Settings;
  /** In order of first appearance. */
  readonly runs: readonly Run[];
}

/** Names of the variants in order of first appearance, left-out runs counted too. */
export function variantNames(runs: readonly Run[]): string[] {
  return [...new Set(runs.map((run) => run.variant))];
}
