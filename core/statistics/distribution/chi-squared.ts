import regularizedIncompleteGamma from "@stdlib/math-base-special-gammainc";
import { requireDegreesOfFreedom } from "./degrees-of-freedom.ts";
import { quantileFromTail } from "./quantile-from-tail.ts";

/**
 * P(chi2 > x) for the chi-squared distribution, accurate in relative terms however small it is; 1 for x at or below 0.
 *
 *     P(chi2 > x) = Q(nu/2, x/2), the regularized upper incomplete gamma function
 *
 * @param degreesOfFreedom above 0 and finite, fractions allowed; a RangeError otherwise
 *
 * Source: the relation to the incomplete gamma function, Abramowitz and Stegun 26.4.19; the function itself from @stdlib.
 */
export function chiSquaredTail(x: number, degreesOfFreedom: number): number {
  requireDegreesOfFreedom(degreesOfFreedom);
  if (degreesOfFreedom === Number.POSITIVE_INFINITY) throw new RangeError("Degrees of freedom must be finite.");
  if (Number.isNaN(x)) throw new RangeError("Chi-squared is not a number.");
  if (x <= 0) return 1;
  if (x === Number.POSITIVE_INFINITY) return 0;
  return regularizedIncompleteGamma(x / 2, degreesOfFreedom / 2, true, true);
}

/**
 * The x that is exceeded with probability `tail`.
 *
 * @param tail between 0 and 1; a RangeError otherwise
 * @param degreesOfFreedom as `chiSquaredTail`
 */
export function chiSquaredQuantile(tail: number, degreesOfFreedom: number): number {
  return quantileFromTail((x) => chiSquaredTail(x, degreesOfFreedom), tail, {
    lower: degreesOfFreedom / 2,
    upper: degreesOfFreedom * 2,
  });
}
