import { moments } from "./moments.ts";
import type { Flagged } from "./reason.ts";

/**
 * Arithmetic mean, in the unit of the values, right to about the last digit even with a large common offset.
 *
 * Missing for an empty list. A RangeError for a value that is not finite.
 */
export function mean(values: readonly number[]): Flagged<"no-values"> {
  const value = moments(values).mean;
  return value === null ? { value, because: "no-values" } : { value, because: null };
}
