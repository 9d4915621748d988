import { requireProbability } from "./argument.ts";
import { type GroupMoments, groupMoments, meanDifference } from "./group-moments.ts";
import { hasScatter } from "./moments.ts";
import { allPairs, byStudentizedRange, criticalRange, type PairComparison } from "./pair-comparison.ts";
import { satterthwaiteDegreesOfFreedom } from "./satterthwaite.ts";

/** A pair of Games and Howell's comparison. */
export interface GamesHowellPair extends PairComparison<"no-values" | "one-value" | "no-scatter" | "too-large"> {
  /** Welch's, of this pair. */
  readonly degreesOfFreedom: number | null;
}

/**
 * Which variants differ, and by how much, each with a scatter of its own: Games and Howell's comparison of all pairs, with intervals
 * that hold together.
 *
 *     q = |difference|/sqrt((s1^2/n1 + s2^2/n2)/2),   p = P(Q(k, nu) > q),   limits: difference -+ Q(confidence) times the same root
 *
 * with nu Welch's degrees of freedom of the pair and k the number of groups with values; for two groups this is Welch's t-test. A pair
 * lacks limits and p where a group has no value (`no-values`) or only one (`one-value`), or where the values of both differ by no more
 * than rounding (`no-scatter`).
 *
 * @param confidence coverage probability of all intervals together, between 0 and 1; a RangeError otherwise, or for a value that is
 * not finite
 *
 * Source: P. A. Games and J. F. Howell, Pairwise multiple comparison procedures with unequal N's and/or variances, J. Educ. Statist. 1,
 * 113 (1976).
 */
export function gamesHowell(groups: readonly (readonly number[])[], confidence: number): readonly GamesHowellPair[] {
  requireProbability("Confidence", confidence);
  const all = groupMoments(groups);
  const count = all.filter(({ n }) => n > 0).length;
  const criticalOf = criticalRange(confidence, count);
  const missing = { degreesOfFreedom: null, lower: null, upper: null, p: null };
  return allPairs(groups.length).map((pair): GamesHowellPair => {
    const [one, other] = [all[pair.first], all[pair.second]] as [GroupMoments, GroupMoments];
    if (one.mean === null || other.mean === null) {
      return { ...pair, difference: null, ...missing, because: "no-values" };
    }
    const difference = meanDifference(one, other);
    if (!Number.isFinite(difference)) return { ...pair, difference: null, ...missing, because: "too-large" };
    if (one.standardDeviation === null || other.standardDeviation === null) {
      return { ...pair, difference, ...missing, because: "one-value" };
    }
    const oneError = one.standardDeviation / Math.sqrt(one.n);
    const otherError = other.standardDeviation / Math.sqrt(other.n);
    const together = Math.hypot(oneError, otherError);
    if (!hasScatter(together, one.mean, other.mean)) return { ...pair, difference, ...missing, because: "no-scatter" };
    if (!Number.isFinite(together)) return { ...pair, difference, ...missing, because: "too-large" };
    const degreesOfFreedom = satterthwaiteDegreesOfFreedom((oneError / together) ** 2, one.n - 1, other.n - 1);
    const critical = criticalOf(degreesOfFreedom);
    const standardError = together / Math.SQRT2;
    const found = byStudentizedRange({ difference, standardError, groups: count, degreesOfFreedom, critical });
    return found === null
      ? { ...pair, difference, ...missing, because: "too-large" }
      : { ...pair, difference, degreesOfFreedom, ...found, because: null };
  });
}
