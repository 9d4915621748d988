import { requireProbability } from "./argument.ts";
import { studentTCritical } from "./distribution/student-t.ts";
import { hasScatter, moments } from "./moments.ts";
import type { Interval } from "./reason.ts";

/** Mean of one group and how well its scatter lets the mean be known. In the unit of the values. */
export interface MeanInterval {
  readonly n: number;
  readonly mean: number | null;
  /** Sample standard deviation, divisor n - 1. */
  readonly standardDeviation: number | null;
  /** s / sqrt(n). */
  readonly standardError: number | null;
  /** n - 1. */
  readonly degreesOfFreedom: number | null;
  readonly interval: Interval | null;
  /** Why the interval is missing. */
  readonly because: "no-values" | "one-value" | "no-scatter" | null;
}

/**
 * Two-sided t interval of a mean, from scatter alone: mean +- t((1 + confidence)/2, n - 1) s/sqrt(n).
 *
 * The interval is missing for fewer than two values, and where the values are equal but for rounding.
 *
 * @param confidence coverage probability, between 0 and 1; a RangeError otherwise
 */
export function meanInterval(values: readonly number[], confidence: number): MeanInterval {
  requireProbability("Confidence", confidence);
  const { n, mean, standardDeviation } = moments(values);
  if (mean === null || standardDeviation === null) {
    const because = n === 0 ? "no-values" : "one-value";
    return { n, mean, standardDeviation, standardError: null, degreesOfFreedom: null, interval: null, because };
  }
  const degreesOfFreedom = n - 1;
  const standardError = standardDeviation / Math.sqrt(n);
  const known = { n, mean, standardDeviation, standardError, degreesOfFreedom };
  if (!hasScatter(standardError, mean)) return { ...known, interval: null, because: "no-scatter" };
  const half = studentTCritical(confidence, degreesOfFreedom) * standardError;
  return { ...known, interval: { level: confidence, lower: mean - half, upper: mean + half }, because: null };
}
