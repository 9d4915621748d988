import { requireFinite } from "./argument.ts";
import { studentTTwoSidedTail } from "./distribution/student-t.ts";
import { hasScatter, moments } from "./moments.ts";

/** Whether results rose or fell in the course of the runs. */
export interface Drift {
  /** Change from one run to the next, in the unit of the values. */
  readonly slope: number | null;
  readonly standardError: number | null;
  readonly t: number | null;
  readonly degreesOfFreedom: number | null;
  /** Two-sided. */
  readonly p: number | null;
  /** Why the test is missing. */
  readonly because: "no-values" | "orders-equal" | "no-degrees-of-freedom" | "no-scatter" | null;
}

/**
 * Straight line of value against run order with one slope and an intercept for each variant: what is left of a drift when the variants'
 * own means are taken out.
 *
 *     slope = Sxy/Sxx,  s^2 = (Syy - slope Sxy)/(N - k - 1),  t = slope sqrt(Sxx)/s
 *
 * with the sums of squares and products taken about the means of the k variants and added up.
 *
 * @param orders run order of each value; gaps are allowed
 * @param levels the variant of each value; without it all are one variant
 * A RangeError for lists of unequal length or a number that is not finite.
 *
 * Source: analysis of covariance, as R's lm(value ~ variant + order).
 */
export function drift(values: readonly number[], orders: readonly number[], levels?: readonly string[]): Drift {
  requireFinite(orders);
  if (orders.length !== values.length || (levels !== undefined && levels.length !== values.length)) {
    throw new RangeError("Values, orders and variants must be equally many.");
  }
  const missing = { slope: null, standardError: null, t: null, degreesOfFreedom: null, p: null };
  const size = moments(values);
  if (size.mean === null) return { ...missing, because: "no-values" };
  const groups = [...Map.groupBy(values.keys(), (index) => levels?.[index] ?? "").values()];
  const x = centred(orders, groups);
  const y = centred(values, groups);
  const xx = sumOfProducts(x, x);
  if (!(xx > 0)) return { ...missing, because: "orders-equal" };
  const relativeSlope = sumOfProducts(x, y) / xx;
  const scale = Math.max(...values.map(Math.abs)) || 1;
  const residuals = y.map((value, index) => value / scale - (relativeSlope / scale) * (x[index] ?? 0));
  const slope = relativeSlope;
  const degreesOfFreedom = values.length - groups.length - 1;
  if (degreesOfFreedom < 1) return { ...missing, slope, because: "no-degrees-of-freedom" };
  const deviation = scale * Math.sqrt(sumOfProducts(residuals, residuals) / degreesOfFreedom);
  if (!hasScatter(deviation, scale)) return { ...missing, slope, degreesOfFreedom, because: "no-scatter" };
  const standardError = deviation / Math.sqrt(xx);
  const t = slope / standardError;
  return { slope, standardError, t, degreesOfFreedom, p: studentTTwoSidedTail(t, degreesOfFreedom), because: null };
}

/** Each number less the mean of its group. */
function centred(numbers: readonly number[], groups: readonly (readonly number[])[]): number[] {
  const result = [...numbers];
  for (const group of groups) {
    const mean = moments(group.map((index) => numbers[index] ?? 0)).mean ?? 0;
    for (const index of group) result[index] = (numbers[index] ?? 0) - mean;
  }
  return result;
}

function sumOfProducts(one: readonly number[], other: readonly number[]): number {
  return one.reduce((sum, value, index) => sum + value * (other[index] ?? 0), 0);
}
