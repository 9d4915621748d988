import { requireProbability } from "../argument.ts";
import { quantileFromTail } from "./quantile-from-tail.ts";
import { normalRangeTail } from "./range-of-normals.ts";
import { studentTQuantile } from "./student-t.ts";

/** Fewest degrees of freedom answered: less than the 1 that two runs have, for that may come out a hair less by rounding. */
const FEWEST_DEGREES_OF_FREEDOM = 0.5;

/** Terms below this, relative to the sum, are left out. */
const NEGLIGIBLE = 1e-17;

/** Width of a piece of the table of ln P(range > w), and number of coefficients that hold it to the last digits. */
const PIECE = 1;
const COEFFICIENTS = 16;
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
 * P is right to about 1e-12 in relative terms, however small.
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
  const { left, right, total } = scaleWeightsOf(degreesOfFreedom);
  let exceeding = 0;
  // To the right both the weight and the range's tail fall.
  for (let index = 0; index < right.length; index += 1) {
    const { scale, exponent } = right[index] as ScaleWeight;
    const term = Math.exp(exponent + range.logTail(q * scale));
    exceeding += term;
    if (term <= NEGLIGIBLE * exceeding) break;
  }
  // To the left the range's tail rises towards 1, and the weights fall geometrically: what is left out is less than 1/nu of the last.
  const enough = NEGLIGIBLE * Math.min(1, degreesOfFreedom);
  for (let index = 1; ; index += 1) {
    const { scale, exponent } = left(index);
    exceeding += Math.exp(exponent + range.logTail(q * scale));
    const weight = Math.exp(exponent);
    if (weight === 0 || weight < enough * exceeding) break;
  }
  return Math.min(1, exceeding / total);
}

/** One value of s with the logarithm of its weight. */
interface ScaleWeight {
  readonly scale: number;
  readonly exponent: number;
}

/** The values of s from 1 upwards, those below it as far as they are asked for, and the sum of all weights. */
interface ScaleWeights {
  readonly right: readonly ScaleWeight[];
  readonly left: (index: number) => ScaleWeight;
  readonly total: number;
}

/** Those that were asked for last: a tail and a quantile of one pair of groups follow each other. */
let latest: { readonly degreesOfFreedom: number; readonly weights: ScaleWeights } | null = null;

function scaleWeightsOf(degreesOfFreedom: number): ScaleWeights {
  if (latest?.degreesOfFreedom === degreesOfFreedom) return latest.weights;
  const step = 0.53 / Math.sqrt(degreesOfFreedom + 16);
  const at = (index: number): ScaleWeight => {
    const x = index * step;
    return { scale: Math.exp(x), exponent: degreesOfFreedom * (x - Math.expm1(2 * x) / 2) };
  };
  const right: ScaleWeight[] = [];
  const lefts: ScaleWeight[] = [at(0)];
  const left = (index: number): ScaleWeight => {
    for (let next = lefts.length; next <= index; next += 1) lefts.push(at(-next));
    return lefts[index] as ScaleWeight;
  };
  let total = 0;
  for (let index = 0, weight = 1; weight > NEGLIGIBLE; index += 1) {
    right.push(at(index));
    weight = Math.exp((right[index] as ScaleWeight).exponent);
    total += weight;
  }
  for (let index = 1, weight = 1; weight > NEGLIGIBLE * Math.min(1, degreesOfFreedom); index += 1) {
    weight = Math.exp(left(index).exponent);
    total += weight;
  }
  const weights = { right, left, total };
  latest = { degreesOfFreedom, weights };
  return weights;
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
  const pieces: (Float64Array | undefined)[] = [];
  const logTail = (w: number) => {
    if (w >= TABLE_END) return Number.NEGATIVE_INFINITY;
    const piece = Math.floor(w / PIECE);
    const coefficients = pieces[piece] ?? chebyshevCoefficients((x) => Math.log(tail(x)), piece * PIECE);
    pieces[piece] = coefficients;
    return chebyshevSum(coefficients, (2 * (w - piece * PIECE)) / PIECE - 1);
  };
  const table = { tail, logTail };
  tables.set(groups, table);
  return table;
}

/** Chebyshev's coefficients of a function on the piece that starts at `start`, from its values at Chebyshev's points. */
function chebyshevCoefficients(value: (x: number) => number, start: number): Float64Array {
  const angle = (index: number) => (Math.PI * (index + 0.5)) / COEFFICIENTS;
  const values = Array.from({ length: COEFFICIENTS }, (_, index) =>
    value(start + (PIECE * (Math.cos(angle(index)) + 1)) / 2),
  );
  return Float64Array.from({ length: COEFFICIENTS }, (_, order) => {
    const sum = values.reduce((total, here, index) => total + here * Math.cos(order * angle(index)), 0);
    return ((order === 0 ? 1 : 2) * sum) / COEFFICIENTS;
  });
}

/** Clenshaw's sum of a Chebyshev series at t from -1 to 1. */
function chebyshevSum(coefficients: Float64Array, t: number): number {
  let [next, afterNext] = [0, 0];
  for (let order = coefficients.length - 1; order > 0; order -= 1) {
    const here = (coefficients[order] as number) + 2 * t * next - afterNext;
    afterNext = next;
    next = here;
  }
  return (coefficients[0] as number) + t * next - afterNext;
}

function requireDomain(groups: number, degreesOfFreedom: number): void {
  if (!Number.isSafeInteger(groups) || groups < 2) {
    throw new RangeError(`Groups are ${groups}: a whole number from 2.`);
  }
  if (!(degreesOfFreedom >= FEWEST_DEGREES_OF_FREEDOM)) {
    throw new RangeError(`Degrees of freedom are ${degreesOfFreedom}: ${FEWEST_DEGREES_OF_FREEDOM} or more.`);
  }
}
