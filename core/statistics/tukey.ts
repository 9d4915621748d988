import { requireProbability } from "./argument.ts";
import { studentizedRangeQuantile } from "./distribution/studentized-range.ts";
import { type GroupMoments, groupMoments, meanDifference } from "./group-moments.ts";
import { hasScatter } from "./moments.ts";
import { allPairs, byStudentizedRange, type PairComparison } from "./pair-comparison.ts";
import { pooledScatter } from "./variance-ratio.ts";

/** A pair of Tukey's comparison. */
export type TukeyPair = PairComparison<"no-values" | "one-value" | "no-scatter" | "too-large">;

/**
 * Which variants differ, and by how much, with intervals that hold for all pairs together: Tukey's honestly significant difference,
 * with Kramer's form for unequal numbers. Takes the scatter of all groups to be the same.
 *
 *     q = |difference|/[sp sqrt((1/n1 + 1/n2)/2)],   p = P(Q(k, N - k) > q),   limits: difference -+ Q(confidence) times the same
 *
 * with sp the pooled standard deviation and k the number of groups with values; for two groups this is Student's t-test with
 * pooled variance. A pair with an empty group is given with the reason `no-values`; all pairs lack limits and p where no group has
 * two values (`one-value`), or where the values within groups differ by no more than rounding (`no-scatter`).
 *
 * @param confidence coverage probability of all intervals together, between 0 and 1; a RangeError otherwise, or for a value that is
 * not finite
 *
 * Sources: J. W. Tukey, The problem of multiple comparisons (1953); C. Y. Kramer, Biometrics 12, 307 (1956); NIST/SEMATECH e-Handbook,
 * 7.4.7.1.
 */
export function tukey(groups: readonly (readonly number[])[], confidence: number): readonly TukeyPair[] {
  requireProbability("Confidence", confidence);
  const all = groupMoments(groups);
  const present = all.filter(({ n }) => n > 0);
  const missing = { lower: null, upper: null, p: null };
  const within = pooledScatter(present);
  const magnitude = Math.max(...present.map(({ mean }) => Math.abs(mean ?? 0)));
  let critical: number | null = null;
  return allPairs(groups.length).map((pair): TukeyPair => {
    const [one, other] = [all[pair.first], all[pair.second]] as [GroupMoments, GroupMoments];
    if (one.n === 0 || other.n === 0) return { ...pair, difference: null, ...missing, because: "no-values" };
    const difference = meanDifference(one, other);
    if (!Number.isFinite(difference)) return { ...pair, difference: null, ...missing, because: "too-large" };
    if (within === null) return { ...pair, difference, ...missing, because: "one-value" };
    const { standardDeviation, degreesOfFreedom } = within;
    if (!hasScatter(standardDeviation, magnitude)) return { ...pair, difference, ...missing, because: "no-scatter" };
    critical ??= studentizedRangeQuantile(1 - confidence, present.length, degreesOfFreedom);
    const standardError = standardDeviation * Math.sqrt((1 / one.n + 1 / other.n) / 2);
    const found = byStudentizedRange({ difference, standardError, groups: present.length, degreesOfFreedom, critical });
    return found === null
      ? { ...pair, difference, ...missing, because: "too-large" }
      : { ...pair, difference, ...found, because: null };
  });
}
