import { groupMoments } from "./group-moments.ts";
import { median } from "./median.ts";
import { noVarianceRatio, oneWayF, type VarianceRatio } from "./variance-ratio.ts";

/** Test of equal scatter. */
export type BrownForsythe = VarianceRatio<"no-values" | "one-group" | "one-value" | "no-scatter" | "too-large">;

/**
 * Do the groups scatter alike: the one-way analysis of variance of the distances from each group's median (Levene's test centred at
 * the median).
 *
 *     z = |x - median of the group|,   F and p as `anova` of the z
 *
 * The median of an even number of values is the mean of the two in the middle. Groups without values are left out. Missing as for
 * `anova`; also (`no-scatter`) where no group has more than two values, since the distances of two values from their middle are
 * equal. A warning beside a comparison, never a reason to choose another one. A RangeError for a value that is not finite.
 *
 * Source: M. B. Brown and A. B. Forsythe, J. Amer. Statist. Assoc. 69, 364 (1974).
 */
export function brownForsythe(groups: readonly (readonly number[])[]): BrownForsythe {
  const present = groups.filter((values) => values.length > 0);
  if (present.length === 0) return noVarianceRatio("no-values");
  if (present.length === 1) return noVarianceRatio("one-group");
  const distances = present.map((values) => {
    const middle = median(values);
    return values.map((value) => Math.abs(value - middle));
  });
  // The distances carry the rounding of the values that they were taken from.
  const magnitude = present.flat().reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  if (distances.flat().includes(Number.POSITIVE_INFINITY)) return noVarianceRatio("too-large");
  return oneWayF(groupMoments(distances), magnitude);
}
