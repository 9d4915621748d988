import quantile from "@stdlib/stats-base-dists-t-quantile";
import { requireProbability } from "../argument.ts";
import { requireDegreesOfFreedom } from "./degrees-of-freedom.ts";
import { lowerIncompleteBeta, upperIncompleteBeta } from "./incomplete-beta.ts";
import { normalQuantile, normalUpperTail } from "./normal.ts";

/**
 * P(T > t) for Student's t, accurate in relative terms however small it is: never one minus a number near one.
 *
 *     P(T > t) = I(nu/(nu + t^2); nu/2, 1/2)/2 for t >= 0
 *
 * @param degreesOfFreedom above 0, fractions allowed; Infinity means the normal distribution. A RangeError otherwise.
 *
 * Source: the relation to the incomplete beta function, Abramowitz and Stegun 26.7.1; the function itself from @stdlib.
 */
export function studentTUpperTail(t: number, degreesOfFreedom: number): number {
  requireDegreesOfFreedom(degreesOfFreedom);
  if (Number.isNaN(t)) throw new RangeError("t is not a number.");
  if (degreesOfFreedom === Number.POSITIVE_INFINITY) return normalUpperTail(t);
  if (t < 0) return 1 - studentTUpperTail(-t, degreesOfFreedom);
  if (t === Number.POSITIVE_INFINITY) return 0;
  const square = t * t;
  // The argument is kept away from 1, where rounding would cost the digits of t.
  return square < degreesOfFreedom
    ? upperIncompleteBeta(square / (degreesOfFreedom + square), 0.5, degreesOfFreedom / 2) / 2
    : lowerIncompleteBeta(degreesOfFreedom / (degreesOfFreedom + square), degreesOfFreedom / 2, 0.5) / 2;
}

/** P(|T| > |t|): the p of a two-sided test. Domain and errors as `studentTUpperTail`. */
export function studentTTwoSidedTail(t: number, degreesOfFreedom: number): number {
  return 2 * studentTUpperTail(Math.abs(t), degreesOfFreedom);
}

/**
 * From here on the normal distribution's quantile stands for t's: they differ by (z^2 + 1)/(4 nu) of themselves, under 1e-9 up to
 * z = 6 (Abramowitz and Stegun 26.7.5). @stdlib's own has only zeros from about 1e16 on, and near the median sooner.
 */
const asGoodAsNormal = 1e10;

/**
 * The t below which a share `probability` of the distribution lies.
 *
 * @param probability between 0 and 1; a RangeError otherwise
 * @param degreesOfFreedom as `studentTUpperTail`
 */
export function studentTQuantile(probability: number, degreesOfFreedom: number): number {
  requireProbability("Probability", probability);
  requireDegreesOfFreedom(degreesOfFreedom);
  if (degreesOfFreedom >= asGoodAsNormal) return normalQuantile(probability);
  return quantile(probability, degreesOfFreedom);
}

/** What was asked for last: variants with equal numbers of runs ask for the same one after another. */
let latest: { readonly confidence: number; readonly degreesOfFreedom: number; readonly critical: number } | null = null;

/**
 * The factor of a two-sided interval: the t that |T| stays below with the given probability. For a coverage factor k of JCGM 100,
 * annex G.
 *
 * @param confidence coverage probability, between 0 and 1; a RangeError otherwise
 */
export function studentTCritical(confidence: number, degreesOfFreedom: number): number {
  requireProbability("Confidence", confidence);
  if (latest?.confidence !== confidence || latest.degreesOfFreedom !== degreesOfFreedom) {
    // The lower tail is used, for its probability is the one with the digits where confidence is near 1.
    const critical = -studentTQuantile((1 - confidence) / 2, degreesOfFreedom);
    latest = { confidence, degreesOfFreedom, critical };
  }
  return latest.critical;
}
