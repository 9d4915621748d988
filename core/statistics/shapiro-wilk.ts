import { compensatedSum } from "../numeric/compensated-sum.ts";
import { requireFinite } from "./argument.ts";
import { normalQuantile, normalUpperTail } from "./distribution/normal.ts";
import { hasScatter, moments } from "./moments.ts";

/** Fewest and most values for which the approximations were made. */
const FEWEST = 3;
const MOST = 5000;

/** Whether values look like draws from a normal distribution. */
export interface ShapiroWilk {
  /** W, from 0 to 1, the closer to 1 the more normal. */
  readonly statistic: number | null;
  /** Probability of a smaller W where the distribution is normal. */
  readonly p: number | null;
  readonly because: "too-few-values" | "too-many-values" | "no-scatter" | "too-large" | null;
}

/**
 * Do the values of a group look normal: Shapiro and Wilk's W. With three to ten runs it finds only gross departures: a warning, never
 * a reason to choose another method.
 *
 *     W = [sum a(i) x(i)]^2 / sum (x - mean)^2,  x(i) in ascending order
 *
 * The coefficients a are approximated from the normal scores Phi^-1((i - 3/8)/(n + 1/4)); ln(1 - W) is approximately normal after a
 * transformation. For three values both are exact. Ties are left as they are. Missing for fewer than 3 values, more than 5000, and
 * values that differ by no more than rounding. A RangeError for a value that is not finite.
 *
 * Source: P. Royston, Remark AS R94, Applied Statistics 44, 547 (1995), for 3 to 5000 values.
 */
export function shapiroWilk(values: readonly number[]): ShapiroWilk {
  requireFinite(values);
  const n = values.length;
  if (n < FEWEST) return { statistic: null, p: null, because: "too-few-values" };
  if (n > MOST) return { statistic: null, p: null, because: "too-many-values" };
  const { mean, standardDeviation } = moments(values);
  if (standardDeviation !== null && !Number.isFinite(standardDeviation)) {
    return { statistic: null, p: null, because: "too-large" };
  }
  if (mean === null || standardDeviation === null || !hasScatter(standardDeviation, mean)) {
    return { statistic: null, p: null, because: "no-scatter" };
  }
  const deviations = values.map((value) => (value - mean) / standardDeviation).sort((one, other) => one - other);
  const { statistic, shortfall } = wOf(deviations);
  return { statistic, p: n === 3 ? exactForThree(statistic) : normalized(shortfall, n), because: null };
}

/** W and 1 - W of ascending values whose mean is about 0; 1 - W is computed by itself, for it may be small. */
function wOf(ascending: readonly number[]): { readonly statistic: number; readonly shortfall: number } {
  const n = ascending.length;
  const mean = compensatedSum(ascending) / n;
  const coefficients = coefficientsOf(n);
  const a = (index: number) =>
    index < n - 1 - index
      ? -(coefficients[index] ?? 0)
      : index > n - 1 - index
        ? (coefficients[n - 1 - index] ?? 0)
        : 0;
  const squaresOfA = compensatedSum(ascending.map((_, index) => a(index) ** 2));
  const squares = compensatedSum(ascending.map((value) => (value - mean) ** 2));
  const product = compensatedSum(ascending.map((value, index) => a(index) * (value - mean)));
  const root = Math.sqrt(squaresOfA * squares);
  const shortfall = Math.max(0, ((root - product) * (root + product)) / (squaresOfA * squares));
  return { statistic: 1 - shortfall, shortfall };
}

/** Magnitudes of the coefficients of the lower half of n values, from the outermost inwards. */
function coefficientsOf(n: number): number[] {
  if (n === 3) return [Math.SQRT1_2];
  const half = Math.floor(n / 2);
  const scores = Array.from({ length: half }, (_, index) => -normalQuantile((index + 1 - 0.375) / (n + 0.25)));
  const squares = 2 * compensatedSum(scores.map((score) => score * score));
  const root = Math.sqrt(squares);
  const u = 1 / Math.sqrt(n);
  const [first = 0, second = 0] = scores;
  const outermost = polynomial([0, 0.221157, -0.147981, -2.07119, 4.434685, -2.706056], u) + first / root;
  if (n <= 5) {
    const scale = Math.sqrt((squares - 2 * first ** 2) / (1 - 2 * outermost ** 2));
    return [outermost, ...scores.slice(1).map((score) => score / scale)];
  }
  const next = polynomial([0, 0.042981, -0.293762, -1.752461, 5.682633, -3.582633], u) + second / root;
  const scale = Math.sqrt((squares - 2 * first ** 2 - 2 * second ** 2) / (1 - 2 * outermost ** 2 - 2 * next ** 2));
  return [outermost, next, ...scores.slice(2).map((score) => score / scale)];
}

/** P of three values: W lies between 3/4 and 1, and its distribution is known in closed form. */
function exactForThree(w: number): number {
  const p = (6 / Math.PI) * (Math.asin(Math.sqrt(w)) - Math.asin(Math.sqrt(0.75)));
  return Math.min(1, Math.max(0, p));
}

/** P of 1 - W for four values and more. */
function normalized(shortfall: number, n: number): number {
  const logarithm = Math.log(shortfall);
  if (n <= 11) {
    // W of so few values cannot be so small that the inner logarithm would not exist.
    const y = -Math.log(polynomial([-2.273, 0.459], n) - logarithm);
    const mean = polynomial([0.544, -0.39978, 0.025054, -6.714e-4], n);
    const deviation = Math.exp(polynomial([1.3822, -0.77857, 0.062767, -0.0020322], n));
    return normalUpperTail((y - mean) / deviation);
  }
  const x = Math.log(n);
  const mean = polynomial([-1.5861, -0.31082, -0.083751, 0.0038915], x);
  const deviation = Math.exp(polynomial([-0.4803, -0.082676, 0.0030302], x));
  return normalUpperTail((logarithm - mean) / deviation);
}

/** Coefficients from the constant upwards. */
function polynomial(coefficients: readonly number[], x: number): number {
  return coefficients.reduceRight((sum, coefficient) => sum * x + coefficient, 0);
}
