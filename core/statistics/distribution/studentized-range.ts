import { requireProbability } from "../argument.ts";
import { normalQuantile } from "./normal.ts";
import { quantileFromTail } from "./quantile-from-tail.ts";
import { type NormalRange, normalRange } from "./range-of-normals.ts";
import { NEGLIGIBLE, scaleWeights } from "./scale-weights.ts";

/** Fewest degrees of freedom answered: less than the 1 that two runs have, for that may come out a hair less by rounding. */
const FEWEST_DEGREES_OF_FREEDOM = 0.5;

/** Ranges below this are exceeded for certain, to the last digit. */
const LEAST_RANGE = 1e-300;

/** ln P(range > w) above this is 0 but for rounding. */
const SATURATED = -3e-16;

/**
 * P(Q > q) for the studentized range: the greatest difference between the means of groups of equal true mean, over the standard error
 * of one mean that has been estimated with `degreesOfFreedom`. Tukey's and Games and Howell's p.
 *
 *     P(Q > q) = integral over s of f(s) P(W > q s) ds
 *
 * with W the range of that many standard normal draws and s^2 chi-squared over its degrees of freedom nu, so that in x = ln s the
 * weight is proportional to exp(nu (x - (exp(2 x) - 1)/2)). Summed by the trapezoidal rule in x, which for such an analytic integrand
 * converges exponentially, and normalized by the sum of the weights. The two upper tails are never taken as a difference from 1:
 * P is right to about 1e-11 in relative terms, however small, up to 100 groups.
 *
 * 1 for q at or below 0.
 *
 * @param groups a whole number from 2
 * @param degreesOfFreedom 0.5 or more, fractions allowed; Infinity for a known variance
 * A RangeError outside these.
 *
 * Source: the double integral as in M. D. Copenhaver and B. Holland, J. Statist. Comput. Simul. 30, 1 (1988); the rule of summation is
 * ours, for theirs is meant for four decimals.
 */
export function studentizedRangeTail(q: number, groups: number, degreesOfFreedom: number): number {
  requireDomain(groups, degreesOfFreedom);
  if (Number.isNaN(q)) throw new RangeError("q is not a number.");
  // So near to 0 it is 1 to the last digit, and the logarithms below would meet numbers that have lost theirs.
  if (q < LEAST_RANGE) return 1;
  if (q === Number.POSITIVE_INFINITY) return 0;
  const range = rangeOf(groups);
  if (degreesOfFreedom === Number.POSITIVE_INFINITY) return range.tail(q);
  const { scales, weights, top, total, count } = scaleWeights(q, groups, degreesOfFreedom);
  let exceeding = 0;
  // From s = 1 to the right both the weight and the range's tail fall.
  for (let index = top; index >= 0; index -= 1) {
    const term = (weights[index] as number) * Math.exp(range.logTail(q * (scales[index] as number)));
    exceeding += term;
    if (term <= NEGLIGIBLE * exceeding) break;
  }
  // To the left the range's tail rises towards 1; from where it is 1, the weights alone are summed.
  let index = top + 1;
  for (; index < count; index += 1) {
    const logTail = range.logTail(q * (scales[index] as number));
    if (logTail > SATURATED) break;
    exceeding += (weights[index] as number) * Math.exp(logTail);
  }
  for (; index < count; index += 1) exceeding += weights[index] as number;
  return Math.min(1, exceeding / total);
}

/**
 * The q that is exceeded with probability `tail`: the factor of simultaneous intervals at confidence 1 - tail.
 *
 * @param tail between 0 and 1; a RangeError otherwise
 * @param groups, degreesOfFreedom as `studentizedRangeTail`
 */
export function studentizedRangeQuantile(tail: number, groups: number, degreesOfFreedom: number): number {
  requireProbability("Tail", tail);
  requireDomain(groups, degreesOfFreedom);
  const guess = firstGuess(tail, groups, degreesOfFreedom);
  const bracket = { lower: guess / 1.05, upper: guess * 1.05 };
  return quantileFromTail((q) => studentizedRangeTail(q, groups, degreesOfFreedom), tail, bracket);
}

/**
 * A quantile to a few per cent where it is an ordinary one; elsewhere it is only where the search begins.
 *
 * Source: R. E. Lund and J. R. Lund, Algorithm AS 190, Applied Statistics 32, 204 (1983), from memory.
 */
function firstGuess(tail: number, groups: number, degreesOfFreedom: number): number {
  const z = -normalQuantile(tail / 2);
  const [t, shift] =
    degreesOfFreedom < 120 ? [z + (z ** 3 + z) / degreesOfFreedom / 4, (1.208 * z - 1.214) / degreesOfFreedom] : [z, 0];
  return Math.max(0.1, t * ((0.8832 - 0.2368 * z + shift) * Math.log(groups - 1) + Math.SQRT2));
}

/** Ranges met so far, by the number of groups: a pure function's values, kept since hundreds of pairs ask for the same ones. */
const ranges = new Map<number, NormalRange>();

function rangeOf(groups: number): NormalRange {
  const range = ranges.get(groups) ?? normalRange(groups);
  ranges.set(groups, range);
  return range;
}

function requireDomain(groups: number, degreesOfFreedom: number): void {
  if (!Number.isSafeInteger(groups) || groups < 2) {
    throw new RangeError(`Groups are ${groups}: a whole number from 2.`);
  }
  if (!(degreesOfFreedom >= FEWEST_DEGREES_OF_FREEDOM)) {
    throw new RangeError(`Degrees of freedom are ${degreesOfFreedom}: ${FEWEST_DEGREES_OF_FREEDOM} or more.`);
  }
}
