import { keyLabel, type QuantityKey } from "../quantity/quantity-key.ts";
import { type QuantityEntry, quantityEntry } from "../quantity/quantity-table.ts";
import { type FiellerRatio, fiellerRatio } from "../statistics/fieller-ratio.ts";
import { influenceOnPairs } from "../statistics/influential-run.ts";
import { type LogRatio, logRatio } from "../statistics/log-ratio.ts";
import type { Interval } from "../statistics/reason.ts";
import { type Welch, welch } from "../statistics/welch.ts";
import type { Combined } from "../uncertainty/combined.ts";
import {
  type CombinedRatio,
  combinedDifference,
  combinedMean,
  combinedRatio,
} from "../uncertainty/combined-comparison.ts";
import type { Locale } from "../words/index.ts";
import { type Change, changeOf } from "./change.ts";
import type { RunResults } from "./run-results.ts";
import { resultOf } from "./run-results.ts";
import { groupWithErrors, type StudyErrors } from "./study-errors.ts";
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
  /** Scatter and shared errors together; null where the settings state no errors. */
  readonly combined: CombinedFinding | null;
  /** By the combined intervals where there are any, else by scatter alone. */
  readonly change: Change;
  /**
   * The run that decides by itself whether the scatter's interval holds "no change" (of several that do, the one that moves the difference
   * most), and how many others do; null where none does.
   */
  readonly decidedBy: { readonly run: string; readonly variant: string; readonly others: number } | null;
  /** Distinct blocks among the runs compared; two or more mean that the comparison ignores something recorded. */
  readonly blocks: number;
}

/** Both groups, their difference and their ratio, each with scatter and shared errors. */
export interface CombinedFinding {
  readonly baseline: Combined;
  readonly variant: Combined;
  readonly difference: Combined;
  readonly ratio: CombinedRatio;
}

/** The runs that are compared, and at which confidence. */
export interface ComparisonRequest {
  readonly key: QuantityKey;
  readonly baseline: string;
  readonly variant: string;
  readonly confidence: number;
  readonly locale: Locale;
  /** Errors of instruments and values; absent or null: none are stated. */
  readonly errors?: StudyErrors | null;
}

/**
 * Compares two variants by Welch's t and Fieller's ratio, runs that were left out not counted, and with the shared errors where the
 * settings state them. Blocks are not analysed.
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
  const combined = combinedFinding(request, baselineRuns, variantRuns, summaries);
  const change = changeOf(
    leadingDifference(difference, combined?.difference ?? null),
    leadingRatio(ratio, combined?.ratio ?? null),
    entry,
    [summaries.baseline.mean, summaries.variant.mean],
  );
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
    combined,
    change,
    decidedBy: decidingRun([baselineRuns, variantRuns], [groups.baseline, groups.variant], confidence),
    blocks: blocks.size,
  };
}

/** One of more runs than this hardly decides anything. */
const mostWatched = 40;

function decidingRun(
  runs: readonly (readonly RunResults[])[],
  values: readonly (readonly number[])[],
  confidence: number,
): Comparison["decidedBy"] {
  if (values.some((group) => group.length > mostWatched)) return null;
  const [influence] = influenceOnPairs(values, confidence);
  const first = influence?.runs[0];
  const decisive = first === undefined ? undefined : runs[first.group]?.[first.place]?.run;
  if (influence === null || influence === undefined || decisive === undefined) return null;
  return { run: decisive.name, variant: decisive.variant, others: influence.runs.length - 1 };
}

function combinedFinding(
  { errors = null, key, confidence }: ComparisonRequest,
  baselineRuns: readonly RunResults[],
  variantRuns: readonly RunResults[],
  summaries: Comparison["groups"],
): CombinedFinding | null {
  const baseline = groupWithErrors(errors, baselineRuns, key, summaries.baseline);
  const variant = groupWithErrors(errors, variantRuns, key, summaries.variant);
  if (baseline === null || variant === null) return null;
  return {
    baseline: combinedMean(baseline, confidence),
    variant: combinedMean(variant, confidence),
    difference: combinedDifference(baseline, variant, confidence),
    ratio: combinedRatio(baseline, variant, confidence),
  };
}

/**
 * What a finding is said by: the combined interval, but never a narrower one than scatter alone gives. (With very few runs the effective
 * degrees of freedom of a sum can grow faster than its uncertainty; an error more must not make anybody surer.)
 */
function leadingDifference(scatter: Welch, combined: Combined | null): Welch {
  const { interval } = scatter;
  return interval === null || combined === null
    ? scatter
    : { ...scatter, interval: hullOf(interval, combined.interval) };
}

/** The interval that holds both. */
export function hullOf(one: Interval, other: Interval): Interval {
  return { ...one, lower: Math.min(one.lower, other.lower), upper: Math.max(one.upper, other.upper) };
}

function leadingRatio(scatter: FiellerRatio, combined: CombinedRatio | null): FiellerRatio {
  if (combined === null || scatter.set === "none") return scatter;
  const { set, lower, upper, excluded, because } = combined;
  if (scatter.set !== "bounded" || set === "none") return scatter;
  if (set !== "bounded" || lower === null || upper === null || scatter.lower === null || scatter.upper === null) {
    return { ...scatter, set, lower, upper, excluded, because };
  }
  return { ...scatter, lower: Math.min(lower, scatter.lower), upper: Math.max(upper, scatter.upper) };
}
