import { groupMoments } from "./group-moments.ts";
import { noVarianceRatio, oneWayF, type VarianceRatio } from "./variance-ratio.ts";

/** Classical one-way analysis of variance. */
export type Anova = VarianceRatio<"no-values" | "one-group" | "one-value" | "no-scatter" | "too-large">;

/**
 * Do the variants differ at all: one-way analysis of variance, which takes the scatter of all groups to be the same.
 *
 *     F = [sum n (mean - grand mean)^2/(k - 1)] / [sum (n - 1) s^2/(N - k)],   p = P(F(k - 1, N - k) > F)
 *
 * Groups without values are left out; a group of one value counts between groups but not within. Missing where fewer than two
 * groups have values (`no-values`, `one-group`), where none has two (`one-value`), and where the values within groups differ by no
 * more than rounding (`no-scatter`). A RangeError for a value that is not finite.
 *
 * Source: R. A. Fisher, Statistical Methods for Research Workers (1925), chapter VII; NIST/SEMATECH e-Handbook, 7.4.3.
 */
export function anova(groups: readonly (readonly number[])[]): Anova {
  const present = groupMoments(groups).filter(({ n }) => n > 0);
  if (present.length === 0) return noVarianceRatio("no-values");
  if (present.length === 1) return noVarianceRatio("one-group");
  return oneWayF(present, Math.max(...present.map(({ mean }) => Math.abs(mean ?? 0))));
}
