import { compensatedSum } from "../numeric/compensated-sum.ts";
import { seededGenerator } from "../numeric/seeded-generator.ts";
import { requireProbability } from "./argument.ts";
import { normalLowerTail, normalQuantile } from "./distribution/normal.ts";
import { hasScatter, moments } from "./moments.ts";

/** Fewer values than this give an interval that is told to be unreliable. */
export const FEWEST_RELIABLE_VALUES = 6;

export interface BootstrapSettings {
  /** Coverage probability, between 0 and 1. */
  readonly confidence: number;
  /** How many resamples, a whole number above 0; 10 000 is usual. */
  readonly resamples: number;
  /** A whole number from 0: the same seed gives the same interval everywhere. */
  readonly seed: number;
}

/** An interval of a mean, in the unit of the values. */
export interface BcaInterval {
  readonly method: "BCa";
  readonly level: number;
  readonly lower: number | null;
  readonly upper: number | null;
  readonly resamples: number;
  readonly seed: number;
  /** z0: how far the resampled means' median is from the mean, in normal quantiles. */
  readonly biasCorrection: number | null;
  /** a: how fast the standard error changes with the mean. */
  readonly acceleration: number | null;
  /**
   * `few-values`: under six values, so too few to rely on; their resamples take few different means. `extreme-resamples`: a limit is the
   * smallest or largest resample, so more of them might have gone further.
   */
  readonly cautions: readonly ("few-values" | "extreme-resamples")[];
  /** Why the limits are missing; `no-scatter` also means that all resamples are equal. */
  readonly because: "no-values" | "one-value" | "no-scatter" | "too-few-resamples" | null;
}

/**
 * Bias-corrected and accelerated bootstrap interval of the mean, which makes no assumption on the shape of the distribution.
 *
 *     z0 = quantile of the share of resampled means below the mean,  a = sum(d^3)/[6 sum(d^2)^(3/2)],  d = x - mean
 *     limits: the resampled means' quantiles at Phi[z0 + (z0 + z)/(1 - a (z0 + z))],  z = the normal quantiles (1 +- confidence)/2
 *
 * The acceleration is the jackknife's, which for a mean needs no resampling: leaving x out moves the mean by -d/(n - 1). Resampled
 * means equal to the mean do not count as below it. Between resamples the quantile is interpolated on the normal scale. Under six values the
 * interval is given with a caution. A RangeError for a value that is not finite or settings outside their domain.
 *
 * Sources: B. Efron, Better bootstrap confidence intervals, J. Amer. Statist. Assoc. 82, 171 (1987); interpolation, A. C. Davison and D. V.
 * Hinkley, Bootstrap methods and their application (1997), equation 5.8 (both from memory): the conventions of R's boot.
 */
export function bcaInterval(values: readonly number[], settings: BootstrapSettings): BcaInterval {
  const { confidence, resamples, seed } = settings;
  requireProbability("Confidence", confidence);
  if (!Number.isSafeInteger(resamples) || resamples < 1) {
    throw new RangeError(`The number of resamples is ${resamples}: it must be a whole number above 0.`);
  }
  const generator = seededGenerator(seed);
  const { n, mean, standardDeviation } = moments(values);
  const head = { method: "BCa", level: confidence, resamples, seed } as const;
  const missing = { ...head, lower: null, upper: null, biasCorrection: null, acceleration: null };
  const fewValues = n < FEWEST_RELIABLE_VALUES ? (["few-values"] as const) : [];
  if (mean === null) return { ...missing, cautions: fewValues, because: "no-values" };
  if (standardDeviation === null) return { ...missing, cautions: fewValues, because: "one-value" };
  if (!hasScatter(standardDeviation / Math.sqrt(n), mean)) {
    return { ...missing, cautions: fewValues, because: "no-scatter" };
  }
  // In standard deviations from the mean, so that sums neither overflow nor lose digits to a common offset.
  const deviations = Float64Array.from(values, (value) => (value - mean) / standardDeviation);
  const means = resampledMeans(deviations, resamples, generator.nextUint32);
  // Sums of the same values in another order, and values with a large common offset, differ by rounding.
  const largest = values.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  const rounding = 4 * n * Number.EPSILON * (10 + largest / standardDeviation);
  const below = means.findIndex((value) => value >= -rounding);
  if (below <= 0) return { ...missing, cautions: fewValues, because: "too-few-resamples" };
  const biasCorrection = normalQuantile(below / resamples);
  const squares = compensatedSum(deviations.map((deviation) => deviation ** 2));
  const acceleration = compensatedSum(deviations.map((deviation) => deviation ** 3)) / (6 * squares ** 1.5);
  const limitAt = (z: number) => {
    const shifted = biasCorrection + z;
    const shrink = 1 - acceleration * shifted;
    // Where the correction breaks down the limit is the outermost resample.
    const probability = shrink > 0 ? normalLowerTail(biasCorrection + shifted / shrink) : z > 0 ? 1 : 0;
    return quantileOf(means, probability);
  };
  const z = -normalQuantile((1 - confidence) / 2);
  const [lower, upper] = [limitAt(-z), limitAt(z)];
  const cautions = [...fewValues, ...(lower.isExtreme || upper.isExtreme ? (["extreme-resamples"] as const) : [])];
  return {
    ...head,
    lower: mean + standardDeviation * lower.value,
    upper: mean + standardDeviation * upper.value,
    biasCorrection,
    acceleration,
    cautions,
    because: null,
  };
}

/** Means of resamples with replacement, sorted. */
function resampledMeans(values: Float64Array, resamples: number, nextUint32: () => number): Float64Array {
  const n = values.length;
  const means = new Float64Array(resamples);
  const scale = n / 2 ** 32;
  for (let resample = 0; resample < resamples; resample += 1) {
    let sum = 0;
    for (let draw = 0; draw < n; draw += 1) sum += values[Math.floor(nextUint32() * scale)] ?? 0;
    means[resample] = sum / n;
  }
  return means.sort();
}

/** The quantile of sorted values, interpolated on the normal scale between those at k/(count + 1). */
function quantileOf(
  sorted: Float64Array,
  probability: number,
): { readonly value: number; readonly isExtreme: boolean } {
  const count = sorted.length;
  const k = Math.floor((count + 1) * probability);
  if (k < 1) return { value: sorted[0] ?? 0, isExtreme: true };
  if (k >= count) return { value: sorted[count - 1] ?? 0, isExtreme: true };
  const [before, after] = [sorted[k - 1] ?? 0, sorted[k] ?? 0];
  const from = normalQuantile(k / (count + 1));
  const to = normalQuantile((k + 1) / (count + 1));
  const share = (normalQuantile(probability) - from) / (to - from);
  return { value: before + share * (after - before), isExtreme: false };
}
