import type { Plan, Problem, TableComparison } from "../../core/index.ts";

/** What comes of a table that was handed over to be compared. */
export type TableCompared =
  | { readonly outcome: "refused"; readonly problems: readonly Problem[] }
  | {
      readonly outcome: "done";
      /** As `compare --json` writes it. */
      readonly comparison: TableComparison;
      /** The same for people: lines of text. */
      readonly lines: readonly string[];
    };

export interface PlanView {
  /** As `plan --json` writes them. */
  readonly numbers: Plan["numbers"];
  /** The same for people: lines of text. */
  readonly lines: readonly string[];
}
