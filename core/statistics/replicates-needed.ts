import { requireProbability } from "./argument.ts";
import { normalQuantile } from "./distribution/normal.ts";
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
}

export type FewestReplicates =
  | {
      /** Runs of each variant, whole, at least 2. */
      readonly runsPerVariant: number;
      /** Power with that many. */
      readonly powerReached: number;
      readonly because: null;
    }
  | {
      readonly runsPerVariant: null;
      readonly powerReached: null;
      readonly because: "no-scatter" | "no-difference" | "more-than-maximum";
      /** How far the largest number of runs allowed would reach, where that was the limit. */
      readonly powerAtMaximum: number | null;
    };

/** Fewest runs of a variant: one run shows no scatter. */
const FEWEST_RUNS = 2;

/**
 * The fewest whole runs of each variant with which a two-sided two-sample t-test finds a difference with the wanted power, by the
 * noncentral t distribution.
 *
 * Missing where the standard deviation or the difference is zero, and where `maximum` runs are not enough. A RangeError for
 * arguments outside their domain.
 *
 * Source: as `twoSamplePower`.
 */
export function fewestReplicates(question: ReplicatesQuestion): FewestReplicates {
  requireQuestion(question);
  const { standardDeviation, difference, power, maximum } = question;
  if (standardDeviation === 0) return unreachable("no-scatter", null);
  if (difference === 0) return unreachable("no-difference", null);
  // Power rises with the number of runs. The normal distribution's answer is near; from there, step to the edge.
  let runs = Math.min(maximum, Math.max(FEWEST_RUNS, normalGuess(question)));
  let reached = powerWith(question, runs);
  while (reached < power) {
    if (runs >= maximum) return unreachable("more-than-maximum", reached);
    runs += 1;
    reached = powerWith(question, runs);
  }
  while (runs > FEWEST_RUNS) {
    const withFewer = powerWith(question, runs - 1);
    if (withFewer < power) break;
    runs -= 1;
    reached = withFewer;
  }
  return { runsPerVariant: runs, powerReached: reached, because: null };
}

/** Runs of each variant if the standard deviation were known: 2 ((z1 + z2) s / d)^2. */
function normalGuess({ standardDeviation, difference, power, confidence }: ReplicatesQuestion): number {
  const factor = normalQuantile((1 + confidence) / 2) + normalQuantile(power);
  return Math.ceil(Math.min(2 * ((factor * standardDeviation) / difference) ** 2, Number.MAX_SAFE_INTEGER));
}

function powerWith(question: ReplicatesQuestion, runs: number): number {
  return twoSamplePower({ ...question, variantRuns: runs, baselineRuns: runs });
}

function unreachable(because: "no-scatter" | "no-difference" | "more-than-maximum", powerAtMaximum: number | null) {
  return { runsPerVariant: null, powerReached: null, because, powerAtMaximum };
}

function requireQuestion({ standardDeviation, difference, power, confidence, maximum }: ReplicatesQuestion) {
  requireProbability("Power", power);
  requireProbability("Confidence", confidence);
  if (!(standardDeviation >= 0 && Number.isFinite(standardDeviation)) || !Number.isFinite(difference)) {
    throw new RangeError("The standard deviation must be finite and not negative, the difference finite.");
  }
  if (!Number.isSafeInteger(maximum) || maximum < FEWEST_RUNS) {
    throw new RangeError(`The largest number of runs is ${maximum}: it must be whole, and at least ${FEWEST_RUNS}.`);
  }
}
