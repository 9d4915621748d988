import { compensatedSum } from "../numeric/compensated-sum.ts";
import { groupMoments, meanDifference } from "./group-moments.ts";
import { hasScatter } from "./moments.ts";
import { noVarianceRatio, type VarianceRatio, varianceRatio } from "./variance-ratio.ts";

/** Welch's analysis of variance. */
export type WelchAnova = VarianceRatio<"no-values" | "one-group" | "one-value" | "no-scatter" | "too-large">;

/**
 * Do the variants differ at all, each with a scatter of its own: Welch's analysis of variance. For two groups F is the square of
 * Welch's t, with its degrees of freedom.
 *
 *     w = n/s^2,  m = sum w (mean)/sum w,  L = sum (1 - w/sum w)^2/(n - 1)/(k^2 - 1)
 *     F = [sum w (mean - m)^2/(k - 1)] / [1 + 2 (k - 2) L],   df1 = k - 1,  df2 = 1/(3 L)
 *
 * Groups without values are left out. Missing where fewer than two groups have values (`no-values`, `one-group`), where a group has
 * only one (`one-value`), and where the values of a group differ by no more than rounding (`no-scatter`), for its weight would be
 * without bound. A RangeError for a value that is not finite.
 *
 * Source: B. L. Welch, On the comparison of several mean values, Biometrika 38, 330 (1951).
 */
export function welchAnova(groups: readonly (readonly number[])[]): WelchAnova {
  const present = groupMoments(groups).filter(({ n }) => n > 0);
  const [first] = present;
  if (first === undefined) return noVarianceRatio("no-values");
  if (present.length === 1) return noVarianceRatio("one-group");
  const errors: number[] = [];
  for (const { n, mean, standardDeviation } of present) {
    if (standardDeviation === null) return noVarianceRatio("one-value");
    if (!hasScatter(standardDeviation, mean ?? 0)) return noVarianceRatio("no-scatter");
    if (!Number.isFinite(standardDeviation)) return noVarianceRatio("too-large");
    errors.push(standardDeviation / Math.sqrt(n));
  }
  // Weights relative to the greatest, means in the least standard error and from the first group's mean on.
  const least = Math.min(...errors);
  const weighed = present.map((group, index) => ({
    weight: (least / (errors[index] ?? least)) ** 2,
    place: meanDifference(first, group) / least,
    n: group.n,
  }));
  const total = compensatedSum(weighed.map(({ weight }) => weight));
  const middle = compensatedSum(weighed.map(({ weight, place }) => weight * place)) / total;
  const between = compensatedSum(weighed.map(({ weight, place }) => weight * (place - middle) ** 2));
  const k = present.length;
  const looseness =
    compensatedSum(weighed.map(({ weight, n }) => (1 - weight / total) ** 2 / (n - 1))) / ((k - 1) * (k + 1));
  return varianceRatio(between / (k - 1) / (1 + 2 * (k - 2) * looseness), k - 1, 1 / (3 * looseness));
}
