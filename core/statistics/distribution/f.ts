import { chiSquaredTail } from "./chi-squared.ts";
import { requireDegreesOfFreedom } from "./degrees-of-freedom.ts";
import { lowerIncompleteBeta, upperIncompleteBeta } from "./incomplete-beta.ts";
import { quantileFromTail } from "./quantile-from-tail.ts";

/**
 * P(F > f) for the F distribution with df1 and df2 degrees of freedom: the p of an analysis of variance. Accurate in relative terms
 * however small it is.
 *
 *     P(F > f) = I(df2/(df2 + df1 f); df2/2, df1/2)
 *
 * 1 for f at or below 0.
 *
 * @param df1 of the numerator, above 0 and finite, fractions allowed; a RangeError otherwise
 * @param df2 of the denominator, above 0, fractions allowed, Infinity for a known variance; a RangeError otherwise
 *
 * Source: the relation to the incomplete beta function, Abramowitz and Stegun 26.6.2; the function itself from @stdlib.
 */
export function fTail(f: number, df1: number, df2: number): number {
  requireDegreesOfFreedom(df1);
  requireDegreesOfFreedom(df2);
  if (df1 === Number.POSITIVE_INFINITY) throw new RangeError("The numerator's degrees of freedom must be finite.");
  if (Number.isNaN(f)) throw new RangeError("F is not a number.");
  if (f <= 0) return 1;
  if (f === Number.POSITIVE_INFINITY) return 0;
  if (df2 === Number.POSITIVE_INFINITY) return chiSquaredTail(f * df1, df1);
  // Both shares are taken of the ratio, so that no product can overflow; the argument is kept away from 1.
  const ratio = (df1 / df2) * f;
  return ratio < 1
    ? upperIncompleteBeta(ratio / (1 + ratio), df1 / 2, df2 / 2)
    : lowerIncompleteBeta(1 / (1 + ratio), df2 / 2, df1 / 2);
}

/**
 * The f that is exceeded with probability `tail`.
 *
 * @param tail between 0 and 1; a RangeError otherwise
 * @param df1, df2 as `fTail`
 */
export function fQuantile(tail: number, df1: number, df2: number): number {
  return quantileFromTail((f) => fTail(f, df1, df2), tail, { lower: 0.5, upper: 2 });
}
