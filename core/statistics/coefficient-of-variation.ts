import { moments } from "./moments.ts";
import type { Flagged } from "./reason.ts";

/**
 * Coefficient of variation: sample standard deviation (n - 1) over the mean, a fraction (0.05 for 5 %). A lab reads from it how
 * repeatable its test is. Not corrected for small n.
 *
 * Missing for fewer than two values, and where the mean is not above zero, since scatter relative to it has no meaning then.
 */
export function coefficientOfVariation(
  values: readonly number[],
): Flagged<"no-values" | "one-value" | "mean-not-positive" | "too-large"> {
  const { n, mean, standardDeviation } = moments(values);
  if (mean === null || standardDeviation === null) return { value: null, because: n === 0 ? "no-values" : "one-value" };
  if (mean <= 0) return { value: null, because: "mean-not-positive" };
  const value = standardDeviation / mean;
  return Number.isFinite(value) ? { value, because: null } : { value: null, because: "too-large" };
}
