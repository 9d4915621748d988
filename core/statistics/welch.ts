import { requireProbability } from "./argument.ts";
import { studentTCritical, studentTTwoSidedTail } from "./distribution/student-t.ts";
import { hasScatter, type Moments, moments } from "./moments.ts";
import type { Interval } from "./reason.ts";
import { satterthwaiteDegreesOfFreedom } from "./satterthwaite.ts";

/** Two independent groups of runs to compare, and the confidence (coverage probability) of the interval. */
export interface TwoGroups {
  readonly baseline: readonly number[];
  readonly variant: readonly number[];
  readonly confidence: number;
}

/** Variant minus baseline, in the unit of the values. */
export interface Welch {
  /** Number of values in each group. */
  readonly runs: { readonly baseline: number; readonly variant: number };
  readonly difference: number | null;
  /** sqrt(s1^2/n1 + s2^2/n2); null where a group has no standard deviation. */
  readonly standardError: number | null;
  readonly t: number | null;
  readonly degreesOfFreedom: number | null;
  /** Two-sided. */
  readonly p: number | null;
  readonly interval: Interval | null;
  /** Why t, p and the interval are missing. */
  readonly because: "no-values" | "one-value" | "no-scatter" | null;
}

/**
 * Is the variant different from the baseline, and by how much: Welch's t-test, which does not assume equal scatter.
 *
 *     t = (mean2 - mean1)/SE,  SE^2 = s1^2/n1 + s2^2/n2,  degrees of freedom after Satterthwaite
 *
 * The difference is given whenever both groups have a value; test and interval need two values in each and scatter in at least
 * one. A RangeError for a value that is not finite or a confidence not between 0 and 1.
 *
 * Source: B. L. Welch, The generalization of Student's problem, Biometrika 34, 28 (1947).
 */
export function welch({ baseline, variant, confidence }: TwoGroups): Welch {
  requireProbability("Confidence", confidence);
  return welchFromMoments(moments(baseline), moments(variant), confidence);
}

/**
 * The same from numbers, means and standard deviations.
 *
 * @param critical the t of the interval by its degrees of freedom, where it is known more cheaply than from `studentTCritical`
 */
export function welchFromMoments(
  baseline: Moments,
  variant: Moments,
  confidence: number,
  critical?: (degreesOfFreedom: number) => number,
): Welch {
  const all = welchDifference(baseline, variant, confidence, critical);
  const { t, degreesOfFreedom } = all;
  return { ...all, p: t === null || degreesOfFreedom === null ? null : studentTTwoSidedTail(t, degreesOfFreedom) };
}

/** All of it but p. */
export function welchDifference(
  baseline: Moments,
  variant: Moments,
  confidence: number,
  critical = (degreesOfFreedom: number) => studentTCritical(confidence, degreesOfFreedom),
): Omit<Welch, "p"> {
  const runs = { baseline: baseline.n, variant: variant.n };
  const missing = { standardError: null, t: null, degreesOfFreedom: null, interval: null };
  if (baseline.mean === null || variant.mean === null) {
    return { runs, difference: null, ...missing, because: "no-values" };
  }
  const difference = variant.mean - baseline.mean;
  if (baseline.standardDeviation === null || variant.standardDeviation === null) {
    return { runs, difference, ...missing, because: "one-value" };
  }
  const baselineError = baseline.standardDeviation / Math.sqrt(baseline.n);
  const variantError = variant.standardDeviation / Math.sqrt(variant.n);
  const standardError = Math.hypot(baselineError, variantError);
  if (!hasScatter(standardError, baseline.mean, variant.mean)) {
    return { runs, difference, ...missing, standardError, because: "no-scatter" };
  }
  const variantShare = (variantError / standardError) ** 2;
  const degreesOfFreedom = satterthwaiteDegreesOfFreedom(variantShare, variant.n - 1, baseline.n - 1);
  const t = difference / standardError;
  const half = critical(degreesOfFreedom) * standardError;
  return {
    runs,
    difference,
    standardError,
    t,
    degreesOfFreedom,
    interval: { level: confidence, lower: difference - half, upper: difference + half },
    because: null,
  };
}
