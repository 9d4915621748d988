import type { ValueInterval } from "./interval.ts";
import { numericalTolerance, type SignificantDigits } from "./numerical-tolerance.ts";

/** The comparison of a first-order interval with that of the trials. */
export interface Validation {
  readonly digits: SignificantDigits;
  readonly tolerance: number;
  /** Distances between the lower ends and between the upper ends. */
  readonly lowerApart: number;
  readonly upperApart: number;
  /** Both distances are within the tolerance. */
  readonly validates: boolean;
}

/**
 * Whether the first-order interval y +- U agrees with that of the trials, to the digits of the standard uncertainty that are meant to hold.
 * Null where it is left open: at two digits the trials must have become stable to two (adaptive procedure), and both intervals must be there.
 *
 * @param standardUncertainty u_c, first-order
 * @param stableDigits to how many digits the trials are known to be stable; null where nothing is known: good enough for one digit
 *
 * Source: JCGM 101:2008, 8.1.3 (with its numerical tolerance of 7.9.2). That a fixed number of trials is taken to do for one digit is ours.
 */
export function validateFirstOrder(
  standardUncertainty: number,
  firstOrder: ValueInterval,
  trials: ValueInterval | null,
  digits: SignificantDigits,
  stableDigits: SignificantDigits | null,
): Validation | null {
  const tolerance = numericalTolerance(standardUncertainty, digits);
  if (tolerance === null || trials === null) return null;
  if (digits === 2 && stableDigits !== 2) return null;
  const lowerApart = Math.abs(firstOrder.lower - trials.lower);
  const upperApart = Math.abs(firstOrder.upper - trials.upper);
  return {
    digits,
    tolerance,
    lowerApart,
    upperApart,
    validates: lowerApart <= tolerance && upperApart <= tolerance,
  };
}
