import { keyLabel, type QuantityKey } from "../quantity/quantity-key.ts";
import { type QuantityEntry, quantityEntry } from "../quantity/quantity-table.ts";
import { type FiellerRatio, fiellerRatio } from "../statistics/fieller-ratio.ts";
import { type LogRatio, logRatio } from "../statistics/log-ratio.ts";
import { type Welch, welch } from "../statistics/welch.ts";
import type { Locale } from "../words/index.ts";
import { type Change, changeOf } from "./change.ts";
import type { RunResults } from "./run-results.ts";
import { resultOf } from "./run-results.ts";
import { type Summary, summarise } from "./summary.ts";

/** One variant against the baseline in one quantity: numbers, and what a sentence needs. */
export interface Comparison {
  readonly key: QuantityKey;
  readonly entry: QuantityEntry;
  readonly label: string;
  readonly baseline: string;
  readonly variant: string;
  readonly confidence: number;
  readonly groups: { readonly baseline: Summary; readonly variant: Summary };
  readonly welch: Welch;
  readonly ratio: FiellerRatio;
  readonly logRatio: LogRatio;
  readonly change: Change;
  /** Distinct blocks among the runs compared; two or more mean that the comparison ignores something recorded. */
  readonly blocks: number;
}

/** The runs that are compared, and at which confidence. */
export interface ComparisonRequest {
  readonly key: QuantityKey;
  readonly baseline: string;
  readonly variant: string;
  readonly confidence: number;
  readonly locale: Locale;
}

/**
 * Compares two variants by Welch's t and Fieller's ratio, runs that were left out not counted. Blocks are not analysed.
 *
 * @returns null where a variant has no run with this quantity
 */
export function compareVariants(runs: readonly RunResults[], request: ComparisonRequest): Comparison | null {
  const { key, baseline, variant, confidence, locale } = request;
  const counted = (name: string) =>
    runs.filter(
      (results) => results.run.leftOut === null && results.run.variant === name && resultOf(results, key) !== undefined,
    );
  const [baselineRuns, variantRuns] = [counted(baseline), counted(variant)];
  const values = (group: readonly RunResults[]) => group.map((results) => resultOf(results, key) as number);
  const groups = { baseline: values(baselineRuns), variant: values(variantRuns), confidence };
  const entry = quantityEntry(key.quantity, locale);
  const difference = welch(groups);
  const ratio = fiellerRatio(groups);
  const summaries = {
    baseline: summarise(groups.baseline, confidence),
    variant: summarise(groups.variant, confidence),
  };
  const change = changeOf(difference, ratio, entry, [summaries.baseline.mean, summaries.variant.mean]);
  if (change === null) return null;
  const blocks = new Set(
    [...baselineRuns, ...variantRuns].map(({ run }) => run.block).filter((block) => block !== null),
  );
  return {
    key,
    entry,
    label: keyLabel(key, locale),
    baseline,
    variant,
    confidence,
    groups: summaries,
    welch: difference,
    ratio,
    logRatio: logRatio(groups),
    change,
    blocks: blocks.size,
  };
}
