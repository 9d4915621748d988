import type { BudgetText } from "../../core/index.ts";

/** What the uncertainty of one result is made of. */
export interface ResultBudgetView {
  readonly budget: BudgetText;
  /** The settings state errors of anything; where they do not, there is nothing but the value. */
  readonly hasErrors: boolean;
}

/** One part of what a comparison shows, with what its uncertainty is made of. */
export interface ComparisonBudgetPart {
  readonly of: "difference" | "variant" | "baseline";
  /** "Difference", or the variant's name. */
  readonly title: string;
  readonly budget: BudgetText;
  /** What would make it surer: more runs, or a better instrument; of the difference, how far shared errors cancel. Sentences. */
  readonly advice: readonly string[];
}

/** What the uncertainties of a comparison are made of. */
export interface ComparisonBudgetView {
  readonly hasErrors: boolean;
  /** The difference first; empty where no errors are stated. */
  readonly parts: readonly ComparisonBudgetPart[];
}

/** The result of a check by Monte Carlo for one quantity of a run, ready for a person. */
export interface MonteCarloResult {
  /** "200 000 trials, seed 1". */
  readonly trials: string;
  /** Mean, standard uncertainty, intervals, beside what first order gives. */
  readonly rows: readonly {
    readonly name: string;
    readonly monteCarlo: string;
    /** "" where first order has no such figure. */
    readonly firstOrder: string;
  }[];
  /** "%", "g"; "" for a ratio. */
  readonly unit: string;
  /** Whether it agrees with first order, and which interval to use. Sentences. */
  readonly verdict: readonly string[];
  /** agrees: first order is validated; differs: it is not; open: it cannot be told. */
  readonly tone: "agrees" | "differs" | "open";
}

/** How far the check of a run by Monte Carlo is. All quantities of the run are drawn at once. */
export type MonteCarloView =
  /** Nothing was drawn yet; `because`: why nothing can be. */
  | { readonly state: "none"; readonly trials: string; readonly because: string | null }
  /** `share`: 0 to 1. */
  | { readonly state: "running"; readonly share: number }
  | { readonly state: "failed"; readonly message: string }
  | { readonly state: "done"; readonly result: MonteCarloResult };
