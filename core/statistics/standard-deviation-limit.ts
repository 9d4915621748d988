import { requireProbability } from "./argument.ts";
import { chiSquaredQuantile } from "./distribution/chi-squared.ts";

/**
 * One-sided upper limit of a standard deviation that was estimated from a few runs, in its unit: with few runs the true scatter may
 * well be larger, and a plan that trusts the estimate has too few runs more often than not.
 *
 *     limit = s sqrt(nu/chi2),  chi2 exceeded with probability `confidence` at nu degrees of freedom
 *
 * Null where the limit is beyond the range of numbers. A RangeError for a negative standard deviation, for degrees of freedom that
 * are not above 0, and for a confidence not between 0 and 1.
 *
 * Source: the distribution of (n - 1) s^2/sigma^2 for normal values; R. H. Browne, On the use of a pilot sample for sample size
 * determination, Stat. Med. 14, 1933 (1995), from memory, for its use in planning.
 */
export function standardDeviationUpperLimit(
  standardDeviation: number,
  degreesOfFreedom: number,
  confidence: number,
): number | null {
  requireProbability("Confidence", confidence);
  if (!(standardDeviation >= 0))
    throw new RangeError(`Standard deviation is ${standardDeviation}: it must not be negative.`);
  const limit = standardDeviation * Math.sqrt(degreesOfFreedom / chiSquaredQuantile(confidence, degreesOfFreedom));
  return Number.isFinite(limit) ? limit : null;
}
