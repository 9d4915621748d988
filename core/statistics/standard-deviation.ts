import { moments } from "./moments.ts";
import type { Flagged } from "./reason.ts";

/**
 * Sample standard deviation (divisor n - 1), in the unit of the values: the scatter of single runs.
 *
 * Missing for fewer than two values; zero where all are equal. A RangeError for a value that is not finite.
 */
export function standardDeviation(values: readonly number[]): Flagged<"no-values" | "one-value"> {
  const { n, standardDeviation: value } = moments(values);
  if (value === null) return { value, because: n === 0 ? "no-values" : "one-value" };
  return { value, because: null };
}
