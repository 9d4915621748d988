import { bracketedRoot } from "../numeric/bracketed-root.ts";
import { requireProbability } from "./argument.ts";
import { normalQuantile } from "./distribution/normal.ts";
import { powerLimit, twoSamplePower } from "./two-sample-power.ts";

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

export type FewestReplicates =
  | {
      /** Runs of each variant (of the variant alone, where the baseline's number is fixed), whole, at least 2. */
      readonly runsPerVariant: number;
      /** Power with that many. */
      readonly powerReached: number;
      readonly because: null;
    }
  | {
      readonly runsPerVariant: null;
      readonly powerReached: null;
      /** `baseline-too-few`: the baseline's fixed number of runs is too small, however many the variant has. */
      readonly because: "no-scatter" | "no-difference" | "baseline-too-few" | "more-than-maximum";
      /** How far the largest number of runs allowed would reach, or any number of them, where that was the limit. */
      readonly powerAtMaximum: number | null;
    };

export type ReplicatesNeeded =
  | (Extract<FewestReplicates, { because: null }> & {
      /** The number, not rounded up, at which the power is exactly the wanted one. */
      readonly exact: number;
    })
  | (Extract<FewestReplicates, { runsPerVariant: null }> & { readonly exact: null });

/** Fewest runs of a variant: one run shows no scatter. */
const FEWEST_RUNS = 2;

/** Below it the critical t grows beyond all bounds; nobody asks for an exact number there. */
const FEWEST_EXACT = 1.125;

/** Width within which the exact number is found, as a fraction of it. */
const EXACT_TOLERANCE = 1e-11;

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
  const { standardDeviation, difference, power, maximum, baselineRuns } = question;
  if (standardDeviation === 0) return unreachable("no-scatter", null);
  if (difference === 0) return unreachable("no-difference", null);
  if (baselineRuns !== undefined) {
    const limit = powerLimit({ ...question, baselineRuns });
    if (limit <= power) return unreachable("baseline-too-few", limit);
  }
  // Power rises with the number of runs. The normal distribution's answer is near; from there the steps double to either side
  // until the edge is between two numbers, which are then drawn together.
  const start = Math.min(maximum, Math.max(FEWEST_RUNS, normalGuess(question)));
  let [tooFew, enough] = [FEWEST_RUNS - 1, maximum];
  let reached = powerWith(question, start);
  if (reached >= power) {
    enough = start;
    for (let step = 1; enough > FEWEST_RUNS; step *= 2) {
      const fewer = Math.max(FEWEST_RUNS, enough - step);
      const withFewer = powerWith(question, fewer);
      if (withFewer < power) {
        tooFew = fewer;
        break;
      }
      [enough, reached] = [fewer, withFewer];
    }
  } else {
    tooFew = start;
    for (let step = 1; reached < power; step *= 2) {
      if (tooFew >= maximum) return unreachable("more-than-maximum", reached);
      enough = Math.min(maximum, tooFew + step);
      reached = powerWith(question, enough);
      if (reached < power) tooFew = enough;
    }
  }
  while (enough - tooFew > 1) {
    const middle = Math.floor((tooFew + enough) / 2);
    const there = powerWith(question, middle);
    if (there < power) tooFew = middle;
    else [enough, reached] = [middle, there];
  }
  return { runsPerVariant: enough, powerReached: reached, because: null };
}

/**
 * {@link fewestReplicates}, and the exact number between two whole ones, which takes most of its time.
 *
 * `exact` is 2 where even 1.125 runs would be enough by the formula: no difference between such numbers means anything.
 */
export function replicatesNeeded(question: ReplicatesQuestion): ReplicatesNeeded {
  const fewest = fewestReplicates(question);
  if (fewest.runsPerVariant === null) return { ...fewest, exact: null };
  const { runsPerVariant } = fewest;
  const shortfall = (runs: number) => powerWith(question, runs) - question.power;
  const below = runsPerVariant === FEWEST_RUNS ? FEWEST_EXACT : runsPerVariant - 1;
  if (shortfall(below) >= 0) return { ...fewest, exact: runsPerVariant };
  return { ...fewest, exact: bracketedRoot(shortfall, below, runsPerVariant, EXACT_TOLERANCE * runsPerVariant) };
}

/** Runs of each variant if the standard deviation were known: 2 ((z1 + z2) s / d)^2, and with a fixed baseline, its own form. */
function normalGuess({ standardDeviation, difference, power, confidence, baselineRuns }: ReplicatesQuestion): number {
  const factor = normalQuantile((1 + confidence) / 2) + normalQuantile(power);
  const perGroup = ((factor * standardDeviation) / difference) ** 2;
  if (baselineRuns === undefined) return Math.ceil(Math.min(2 * perGroup, Number.MAX_SAFE_INTEGER));
  const left = 1 / perGroup - 1 / baselineRuns;
  return left > 0 ? Math.ceil(Math.min(1 / left, Number.MAX_SAFE_INTEGER)) : Number.MAX_SAFE_INTEGER;
}

function powerWith(question: ReplicatesQuestion, runs: number): number {
  return twoSamplePower({ ...question, variantRuns: runs, baselineRuns: question.baselineRuns ?? runs });
}

function unreachable(
  because: Extract<FewestReplicates, { runsPerVariant: null }>["because"],
  powerAtMaximum: number | null,
): FewestReplicates {
  return { runsPerVariant: null, powerReached: null, because, powerAtMaximum };
}

function requireQuestion(question: ReplicatesQuestion) {
  const { standardDeviation, difference, power, confidence, maximum, baselineRuns } = question;
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
