import { bracketedRoot } from "../numeric/bracketed-root.ts";
import { requireProbability } from "./argument.ts";
import { twoSamplePower } from "./two-sample-power.ts";

/** What a lab wants to be able to find. */
export interface ReplicatesQuestion {
  /** Pooled standard deviation of single runs, in the unit of the quantity. */
  readonly standardDeviation: number;
  /** Smallest difference of the means worth finding, same unit; its sign does not matter. */
  readonly difference: number;
  /** Wanted probability of finding it, such as 0.8. */
  readonly power: number;
  /** 1 minus the significance level, such as 0.95. */
  readonly confidence: number;
  /** Largest number of runs per variant to consider, a whole number of at least 2. */
  readonly maximum: number;
  /** Where the baseline's runs are already made and no more are planned: their number, at least 1. Otherwise equal numbers. */
  readonly baselineRuns?: number;
}

export type ReplicatesNeeded =
  | {
      /** Runs of each variant (of the variant alone, where the baseline's number is fixed), whole, at least 2. */
      readonly runsPerVariant: number;
      /** Power with that many. */
      readonly powerReached: number;
      /** The number, not rounded up, at which the power is exactly the wanted one; 2 where two runs are enough. */
      readonly exact: number;
      readonly because: null;
    }
  | {
      readonly runsPerVariant: null;
      readonly powerReached: null;
      readonly exact: null;
      readonly because: "no-scatter" | "no-difference" | "more-than-maximum";
      /** How far the largest number of runs allowed would reach, where that was the limit. */
      readonly powerAtMaximum: number | null;
    };

/** Fewest runs of a variant: one run shows no scatter. */
const FEWEST_RUNS = 2;

/** Width within which the exact number is found, in runs. */
const EXACT_TOLERANCE = 1e-9;

/** The fewest whole runs, without the exact number between two whole ones. */
export type FewestReplicates =
  | { readonly runsPerVariant: number; readonly powerReached: number; readonly because: null }
  | Extract<ReplicatesNeeded, { runsPerVariant: null }>;

/**
 * The fewest whole runs of each variant that reach the wanted power: {@link replicatesNeeded} without its exact number, which
 * takes most of its time.
 */
export function fewestReplicates(question: ReplicatesQuestion): FewestReplicates {
  requireQuestion(question);
  const { standardDeviation, difference, power, maximum } = question;
  if (standardDeviation === 0) return unreachable("no-scatter", null);
  if (difference === 0) return unreachable("no-difference", null);
  const atFewest = powerWith(question, FEWEST_RUNS);
  if (atFewest >= power) return { runsPerVariant: FEWEST_RUNS, powerReached: atFewest, because: null };
  // Power rises with the number of runs: double until it is enough, then halve the bracket.
  let [tooFew, enough] = [FEWEST_RUNS, FEWEST_RUNS];
  let powerReached = atFewest;
  while (powerReached < power) {
    if (enough >= maximum) return unreachable("more-than-maximum", powerReached);
    tooFew = enough;
    enough = Math.min(2 * enough, maximum);
    powerReached = powerWith(question, enough);
  }
  while (enough - tooFew > 1) {
    const middle = Math.floor((tooFew + enough) / 2);
    const atMiddle = powerWith(question, middle);
    if (atMiddle >= power) [enough, powerReached] = [middle, atMiddle];
    else tooFew = middle;
  }
  return { runsPerVariant: enough, powerReached, because: null };
}

/**
 * How many runs of each variant a two-sided two-sample t-test needs, by the noncentral t distribution.
 *
 * Missing where the standard deviation or the difference is zero, and where `maximum` runs are not enough. A RangeError for
 * arguments outside their domain.
 *
 * Source: as `twoSamplePower`.
 */
export function replicatesNeeded(question: ReplicatesQuestion): ReplicatesNeeded {
  const fewest = fewestReplicates(question);
  if (fewest.runsPerVariant === null) return fewest;
  const { runsPerVariant } = fewest;
  if (runsPerVariant === FEWEST_RUNS) return { ...fewest, exact: FEWEST_RUNS };
  const shortfall = (runs: number) => powerWith(question, runs) - question.power;
  return { ...fewest, exact: bracketedRoot(shortfall, runsPerVariant - 1, runsPerVariant, EXACT_TOLERANCE) };
}

function powerWith(question: ReplicatesQuestion, runs: number): number {
  return twoSamplePower({ ...question, variantRuns: runs, baselineRuns: question.baselineRuns ?? runs });
}

function unreachable(because: "no-scatter" | "no-difference" | "more-than-maximum", powerAtMaximum: number | null) {
  return { runsPerVariant: null, powerReached: null, exact: null, because, powerAtMaximum };
}

function requireQuestion({
  standardDeviation,
  difference,
  power,
  confidence,
  maximum,
  baselineRuns,
}: ReplicatesQuestion) {
  requireProbability("Power", power);
  requireProbability("Confidence", confidence);
  if (!(standardDeviation >= 0 && Number.isFinite(standardDeviation)) || !Number.isFinite(difference)) {
    throw new RangeError("The standard deviation must be finite and not negative, the difference finite.");
  }
  if (!Number.isSafeInteger(maximum) || maximum < FEWEST_RUNS) {
    throw new RangeError(`The largest number of runs is ${maximum}: it must be whole, and at least ${FEWEST_RUNS}.`);
  }
  if (baselineRuns !== undefined && !(Number.isSafeInteger(baselineRuns) && baselineRuns >= 1)) {
    throw new RangeError(`The baseline's number of runs is ${baselineRuns}: it must be whole, and at least 1.`);
  }
}
