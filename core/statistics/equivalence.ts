import { studentTCritical, studentTUpperTail } from "./distribution/student-t.ts";
import type { Interval } from "./reason.ts";
import { type Welch, welch } from "./welch.ts";

/** Whether two groups are the same for practical purposes: their means differ by less than a stated margin, either way. */
export interface EquivalenceTest {
  /** In the unit of the values. */
  readonly margin: number;
  /** The larger of the two one-sided p. */
  readonly p: number | null;
  /** Whether p is below 1 minus the confidence; null where p is missing. */
  readonly equivalent: boolean | null;
  readonly because: "margin-not-positive" | "no-values" | "one-value" | "no-scatter" | "too-large" | null;
}

export interface Equivalence extends EquivalenceTest {
  /** Of the difference, at 1 - 2 (1 - confidence): it lies within the margin exactly where the groups are equivalent. */
  readonly interval: Interval | null;
}

/**
 * Two one-sided t-tests with separate variances (Welch), each at the level alpha = 1 - confidence:
 *
 *     t1 = (difference + margin)/SE,  t2 = (difference - margin)/SE,  p = max[P(T > t1), P(T < t2)]
 *
 * so at a confidence of 0.95 each test is at 5 %, and the interval that goes with them is the 90 % one. A confidence of one half or less has no
 * such interval. The margin must be above 0. A RangeError for a value or a margin that is not finite or a confidence not between 0 and 1.
 *
 * Source: D. J. Schuirmann, A comparison of the two one-sided tests procedure and the power approach, J. Pharmacokin. Biopharm. 15, 657
 * (1987); standard error and degrees of freedom after Welch.
 */
export function equivalence(
  first: readonly number[],
  second: readonly number[],
  margin: number,
  confidence: number,
): Equivalence {
  const compared = welch({ baseline: first, variant: second, confidence });
  const test = equivalenceOf(compared, margin, confidence);
  const { difference, standardError, degreesOfFreedom } = compared;
  // Rounded, so that 0.95 gives 0.9 and not the number just below it.
  const level = Math.round((2 * confidence - 1) * 1e12) / 1e12;
  if (level <= 0 || test.p === null || difference === null || standardError === null || degreesOfFreedom === null) {
    return { ...test, interval: null };
  }
  const half = studentTCritical(level, degreesOfFreedom) * standardError;
  return { ...test, interval: { level, lower: difference - half, upper: difference + half } };
}

/** The tests alone, of two groups whose difference is known; errors as `equivalence`. */
export function equivalenceOf(
  { difference, standardError, degreesOfFreedom, because }: Welch,
  margin: number,
  confidence: number,
): EquivalenceTest {
  if (!Number.isFinite(margin)) throw new RangeError(`The margin is ${margin}: not a finite number.`);
  const missing = { margin, p: null, equivalent: null };
  if (margin <= 0) return { ...missing, because: "margin-not-positive" };
  if (because !== null || difference === null || standardError === null || degreesOfFreedom === null) {
    return { ...missing, because };
  }
  // The larger p is that of the limit which is nearer.
  const nearer = Math.min(difference + margin, margin - difference) / standardError;
  if (Number.isNaN(nearer)) return { ...missing, because: "too-large" };
  const p = studentTUpperTail(nearer, degreesOfFreedom);
  if (!Number.isFinite(p)) return { ...missing, because: "too-large" };
  return { margin, p, equivalent: p < 1 - confidence, because: null };
}
