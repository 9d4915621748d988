/**
 * Robust statistics that tell what a group of runs usually does, so that one odd run does not hide itself.
 *
 * Sources, from memory: median and median absolute deviation as location and scale, with 1.4826 for normal data and a limit of
 * about 3.5 on the scores: B. Iglewicz and D. C. Hoaglin, How to Detect and Handle Outliers, ASQC 1993; the identifier by such
 * scores ("Hampel identifier"): L. Davies and U. Gather, The identification of multiple outliers, JASA 88 (1993), 782.
 */

/** Standard deviation of normal data over its median absolute deviation. */
const normalOverDeviation = 1.4826;

/** The middle of sorted numbers; NaN of none. */
export function medianOfSorted(sorted: ArrayLike<number>): number {
  const { length } = sorted;
  if (length === 0) return Number.NaN;
  const upper = sorted[length >> 1] ?? Number.NaN;
  return length % 2 === 1 ? upper : ((sorted[(length >> 1) - 1] ?? Number.NaN) + upper) / 2;
}

export function median(values: readonly number[]): number {
  return medianOfSorted(Float64Array.from(values).sort());
}

/** Robust standard deviation about a centre: 1.4826 times the median absolute deviation. NaN of no values. */
export function robustScale(values: ArrayLike<number>, centre: number): number {
  const deviations = Float64Array.from(values, (value) => Math.abs(value - centre)).sort();
  return normalOverDeviation * medianOfSorted(deviations);
}

/** Standard error of a difference between one value and the median of n others, over the standard deviation (normal data). */
export function inflationByFew(others: number): number {
  return Math.sqrt(1 + Math.PI / 2 / others);
}
