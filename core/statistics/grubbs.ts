import { studentTUpperTail } from "./distribution/student-t.ts";
import { hasScatter, moments } from "./moments.ts";

/** Whether the value farthest from the mean is farther than chance would put it. */
export interface Grubbs {
  /** G = |value - mean|/s of that value, without unit. */
  readonly statistic: number | null;
  /** Its place among the values, from 0; the first of several that are equally far. */
  readonly suspect: number | null;
  /** Two-sided; an upper bound that is exact where it is below about a half. */
  readonly p: number | null;
  /** Why p is missing. */
  readonly because: "no-values" | "too-few-values" | "no-scatter" | "others-equal" | null;
}

/**
 * Grubbs' test for one outlier on either side of a normal sample.
 *
 *     G = max |x - mean|/s,   T = sqrt(n (n - 2) G^2/[(n - 1)^2 - n G^2]),   p = min(1, 2 n P(t > T)) with n - 2 degrees of freedom
 *
 * It needs three values. Where all values but one are equal, G has its greatest possible value whatever the one is, and no p is given: the
 * others show no scatter to judge it by. A RangeError for a value that is not finite.
 *
 * Source: F. E. Grubbs, Procedures for detecting outlying observations in samples, Technometrics 11, 1 (1969); NIST/SEMATECH e-Handbook
 * 1.3.5.17.1, whose critical values are this p solved for G.
 */
export function grubbs(values: readonly number[]): Grubbs {
  const { n, mean, standardDeviation } = moments(values);
  const missing = { statistic: null, suspect: null, p: null };
  if (mean === null) return { ...missing, because: "no-values" };
  if (standardDeviation === null || n < 3) return { ...missing, because: "too-few-values" };
  if (!hasScatter(standardDeviation, mean)) return { ...missing, because: "no-scatter" };
  const distances = values.map((value) => Math.abs(value - mean) / standardDeviation);
  const statistic = Math.max(...distances);
  const suspect = distances.indexOf(statistic);
  const others = moments(values.filter((_, index) => index !== suspect));
  if (others.mean === null || others.standardDeviation === null) return { ...missing, because: "too-few-values" };
  if (!hasScatter(others.standardDeviation, others.mean)) {
    return { statistic, suspect, p: null, because: "others-equal" };
  }
  // T is the suspect's distance from the mean of the others in terms of their scatter: the same number as by G, without its
  // cancellation.
  const away = Math.abs((values[suspect] ?? 0) - others.mean) / others.standardDeviation;
  const t = away * Math.sqrt((n - 1) / n);
  return { statistic, suspect, p: Math.min(1, 2 * n * studentTUpperTail(t, n - 2)), because: null };
}
