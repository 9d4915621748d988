import { compensatedSum } from "../numeric/compensated-sum.ts";
import { requireFinite } from "./argument.ts";

/** What the t methods need of one group of values. */
export interface Moments {
  readonly n: number;
  /** Arithmetic mean; null for an empty group. */
  readonly mean: number | null;
  /** Sample standard deviation with divisor n - 1; null for fewer than two values. */
  readonly standardDeviation: number | null;
}

/**
 * Number, mean and standard deviation of a group, in the unit of the values.
 *
 *     mean = sum(x)/n,   s^2 = [sum(d^2) - (sum d)^2/n]/(n - 1)  with d = x - mean
 *
 * The mean is refined by the mean of the deviations from it, and the sums are compensated, so values with a large common offset
 * keep their last digits; equal values have a standard deviation of exactly zero. A RangeError for a value that is not finite.
 *
 * Source: the corrected two-pass algorithm, T. F. Chan, G. H. Golub and R. J. LeVeque, Amer. Statist. 37, 242 (1983).
 */
export function moments(values: readonly number[]): Moments {
  requireFinite(values);
  const n = values.length;
  if (n === 0) return { n, mean: null, standardDeviation: null };
  const first = compensatedSum(values) / n;
  const mean = first + compensatedSum(values.map((value) => value - first)) / n;
  if (n === 1) return { n, mean, standardDeviation: null };
  const deviations = values.map((value) => value - mean);
  // Squares are taken of deviations relative to the greatest, so that none over- or underflows.
  const greatest = deviations.reduce((most, deviation) => Math.max(most, Math.abs(deviation)), 0);
  if (greatest === 0) return { n, mean, standardDeviation: 0 };
  const relative = deviations.map((deviation) => deviation / greatest);
  const residue = compensatedSum(relative);
  const squares = compensatedSum(relative.map((deviation) => deviation * deviation)) - (residue * residue) / n;
  return { n, mean, standardDeviation: greatest * Math.sqrt(squares / (n - 1)) };
}

/**
 * Whether a standard error is more than the rounding of the means it belongs to. The limit, ten units in the last place of the
 * larger mean, is the one that R's t.test uses before it calls data "essentially constant".
 */
export function hasScatter(standardError: number, ...means: number[]): boolean {
  const largest = means.reduce((most, mean) => Math.max(most, Math.abs(mean)), 0);
  return standardError > 10 * Number.EPSILON * largest;
}
