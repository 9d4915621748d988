import { requireProbability } from "../argument.ts";
import { type ChebyshevSeries, chebyshevSeries, chebyshevValue } from "./chebyshev-series.ts";
import { quantileFromTail } from "./quantile-from-tail.ts";
import { normalRangeTail } from "./range-of-normals.ts";
import { NEGLIGIBLE, scaleWeights } from "./scale-weights.ts";
import { studentTQuantile } from "./student-t.ts";

/** Fewest degrees of freedom answered: less than the 1 that two runs have, for that may come out a hair less by rounding. */
const FEWEST_DEGREES_OF_FREEDOM = 0.5;

/** ln P(range > w) above this is 0 but for rounding. */
const SATURATED = -3e-16;

/** Terms that hold ln P(range > w) to the last digits on a piece of the table, which is 1 wide. */
const TERMS = 18;
/** Where the table ends; beyond it P(range > w) is below 1e-300. */
const TABLE_END = 52;

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
  if (q <= 0) return 1;
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
  // One pair exceeds q less often than any of all pairs does, and these not more often than their number times as often (Bonferroni).
  const pairs = (groups * (groups - 1)) / 2;
  const lower = -Math.SQRT2 * studentTQuantile(tail / 2, degreesOfFreedom);
  const upper = -Math.SQRT2 * studentTQuantile(tail / 2 / pairs, degreesOfFreedom);
  if (groups === 2) return lower;
  return quantileFromTail((q) => studentizedRangeTail(q, groups, degreesOfFreedom), tail, { lower, upper });
}

/** P(range > w) of standard normal draws, and its logarithm from a table. */
interface RangeTable {
  readonly tail: (w: number) => number;
  readonly logTail: (w: number) => number;
}

/** Tables made so far, by the number of groups: a pure function's values, kept since hundreds of pairs ask for the same ones. */
const tables = new Map<number, RangeTable>();

function rangeOf(groups: number): RangeTable {
  const known = tables.get(groups);
  if (known !== undefined) return known;
  const tail = normalRangeTail(groups);
  const pieces: (ChebyshevSeries | undefined)[] = [];
  const logTail = (w: number) => {
    if (w >= TABLE_END) return Number.NEGATIVE_INFINITY;
    const middle = Math.floor(w) + 0.5;
    const piece = pieces[middle - 0.5] ?? chebyshevSeries(TERMS, (t) => Math.log(tail(middle + t / 2)));
    pieces[middle - 0.5] = piece;
    return chebyshevValue(piece, 2 * (w - middle));
  };
  const table = { tail, logTail };
  tables.set(groups, table);
  return table;
}

function requireDomain(groups: number, degreesOfFreedom: number): void {
  if (!Number.isSafeInteger(groups) || groups < 2) {
    throw new RangeError(`Groups are ${groups}: a whole number from 2.`);
  }
  if (!(degreesOfFreedom >= FEWEST_DEGREES_OF_FREEDOM)) {
    throw new RangeError(`Degrees of freedom are ${degreesOfFreedom}: ${FEWEST_DEGREES_OF_FREEDOM} or more.`);
  }
}
