import { LARGEST_NONCENTRALITY, noncentralT } from "./noncentral-t.ts";
import { normalQuantile } from "./normal.ts";

const MOST_STEPS = 100;
/** A tail of this size has nine digits where it is 1 less the other. */
const SMALL_TAIL = 1e-4;
/** The last step's length, in relative terms: where a secant step is this short, the next would be shorter by as much again and more. */
const LAST_STEP = 1e-7;
const NEAR_THE_END = 1e-6;

/** The noncentralities that an observed t is compatible with. */
export interface NoncentralityLimits {
  readonly lower: number;
  readonly upper: number;
}

/**
 * Confidence limits of the noncentrality of a t distribution, from one t: the lower is the noncentrality at which a t as large or larger
 * has probability (1 - confidence)/2, the upper the one at which a t as small or smaller has.
 *
 * Null where a limit lies beyond the noncentralities answered (1000 either way).
 *
 * Source: J. H. Steiger and R. T. Fouladi, Noncentrality interval estimation and the evaluation of statistical models (1997) (from memory).
 */
export function noncentralityLimits(
  t: number,
  degreesOfFreedom: number,
  confidence: number,
): NoncentralityLimits | null {
  const tail = (1 - confidence) / 2;
  const { lowerTail, upperTail } = noncentralT(t, degreesOfFreedom);
  // The normal approximation of the noncentral t: t [1 - 1/(4 nu)] is about delta, with variance 1 + t^2/(2 nu).
  const spread = Math.sqrt(1 + (t * t) / (2 * degreesOfFreedom));
  const centre = t * (1 - 1 / (4 * degreesOfFreedom));
  const upper = upperLimit(centre, spread, tail, lowerTail);
  // P(T > t; delta) is P(T < -t; -delta). Where it is no small number it is taken from the other tail, whose terms are known by now.
  const above = tail < SMALL_TAIL ? upperTail : (delta: number) => 1 - lowerTail(delta);
  const mirrored = upperLimit(-centre, spread, tail, (delta) => above(-delta));
  return upper === null || mirrored === null ? null : { lower: -mirrored, upper };
}

/**
 * Solves lowerTail(delta) = tail, which falls as delta rises. Secant steps are taken on the normal quantile of the tail, which is nearly a
 * straight line in delta, and are kept within the bracket known so far.
 */
function upperLimit(
  centre: number,
  spread: number,
  tail: number,
  lowerTail: (noncentrality: number) => number,
): number | null {
  const wanted = normalQuantile(tail);
  const height = (delta: number) => {
    const probability = lowerTail(delta);
    // Far out the tail has no digits left; a bound with the right sign sends the search back.
    return probability <= 1e-300 ? -40 : probability >= 1 ? 40 : normalQuantile(probability) - wanted;
  };
  let low = -LARGEST_NONCENTRALITY;
  let high = LARGEST_NONCENTRALITY;
  let delta = centre - wanted * spread;
  if (!(delta > low && delta < high)) return null;
  let slope = -1 / spread;
  let here = height(delta);
  for (let step = 0; step < MOST_STEPS && here !== 0; step += 1) {
    if (here > 0) low = delta;
    else high = delta;
    let next = delta - here / slope;
    if (!(next > low && next < high)) next = (low + high) / 2;
    if (Math.abs(next) > LARGEST_NONCENTRALITY - NEAR_THE_END) return null;
    if (Math.abs(next - delta) <= LAST_STEP * Math.max(1, Math.abs(delta))) return next;
    const there = height(next);
    const newSlope = (there - here) / (next - delta);
    if (newSlope < 0) slope = newSlope;
    [delta, here] = [next, there];
  }
  return delta;
}
