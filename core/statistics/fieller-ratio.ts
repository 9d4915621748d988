import { requireProbability } from "./argument.ts";
import { studentTCritical } from "./distribution/student-t.ts";
import { hasScatter, type Moments, moments } from "./moments.ts";
import { satterthwaiteDegreesOfFreedom } from "./satterthwaite.ts";
import type { TwoGroups } from "./welch.ts";

/**
 * Which ratios the runs are compatible with.
 *
 * - `bounded`: those from `lower` to `upper`.
 * - `half-line`: those beyond the one limit that is given.
 * - `complement`: all but those between the limits in `excluded`; the estimate lies beyond one of them.
 * - `whole-line`: all.
 * - `none`: no statement.
 */
export type RatioSet = "bounded" | "half-line" | "complement" | "whole-line" | "none";

/** Variant's mean over baseline's mean, without unit. */
export interface FiellerRatio {
  readonly runs: { readonly baseline: number; readonly variant: number };
  readonly level: number;
  readonly ratio: number | null;
  readonly degreesOfFreedom: number | null;
  readonly set: RatioSet;
  /** Null where the set has no lower limit. */
  readonly lower: number | null;
  /** Null where the set has no upper limit. */
  readonly upper: number | null;
  /** The ratios that a `complement` leaves out. */
  readonly excluded: { readonly lower: number; readonly upper: number } | null;
  /** Why a limit is missing. */
  readonly because:
    | "no-values"
    | "one-value"
    | "no-scatter"
    | "baseline-mean-not-positive"
    | "baseline-indistinct-from-zero"
    | "both-means-indistinct-from-zero"
    | "unbounded-above"
    | "unbounded-below"
    | "too-large"
    | null;
}

/** The set of ratios, without what it is the set of. */
export type RatioLimits = Pick<FiellerRatio, "set" | "lower" | "upper" | "excluded" | "because">;

/**
 * "Uses 22 % less": ratio of two arithmetic means with its confidence set, the groups' variances kept separate.
 *
 * The set holds every ratio r for which the Welch-type statistic does not reject mean2 = r mean1:
 *
 *     (mean2 - r mean1)^2 <= t^2 (s2^2/n2 + r^2 s1^2/n1)
 *
 * with t Student's at the degrees of freedom after Satterthwaite for r at the estimate. Divided by mean1^2 this is
 * (1 - t^2 g1) r^2 - 2 R r + (R^2 - t^2 g2) <= 0 with R = mean2/mean1 and g = (standard error/mean1)^2. It is an interval only
 * where mean1 differs from zero at this confidence; otherwise the set is unbounded, and said to be.
 *
 * The ratio is missing where the baseline's mean is not above zero. A RangeError for a value that is not finite or a
 * confidence not between 0 and 1.
 *
 * Source: E. C. Fieller, Some problems in interval estimation, J. R. Statist. Soc. B 16, 175 (1954), with Satterthwaite's degrees
 * of freedom in place of the pooled ones.
 */
export function fiellerRatio({ baseline, variant, confidence }: TwoGroups): FiellerRatio {
  requireProbability("Confidence", confidence);
  return fiellerFromMoments(moments(baseline), moments(variant), confidence);
}

/** The same from numbers, means and standard deviations; `critical` as that of `welchFromMoments`. */
export function fiellerFromMoments(
  first: Moments,
  second: Moments,
  confidence: number,
  critical = (degreesOfFreedom: number) => studentTCritical(confidence, degreesOfFreedom),
): FiellerRatio {
  const runs = { baseline: first.n, variant: second.n };
  const head = { runs, level: confidence };
  const unknown = { ratio: null, degreesOfFreedom: null };
  if (first.mean === null || second.mean === null) return { ...head, ...unknown, ...noLimits("no-values") };
  if (first.mean <= 0) return { ...head, ...unknown, ...noLimits("baseline-mean-not-positive") };
  const ratio = second.mean / first.mean;
  if (!Number.isFinite(ratio)) return { ...head, ...unknown, ...noLimits("too-large") };
  const undecided = { ...head, ratio, degreesOfFreedom: null };
  if (first.standardDeviation === null || second.standardDeviation === null) {
    return { ...undecided, ...noLimits("one-value") };
  }
  const baselineError = first.standardDeviation / Math.sqrt(first.n) / first.mean;
  const variantError = second.standardDeviation / Math.sqrt(second.n) / first.mean;
  // The standard error of the ratio to first order; it also weighs the degrees of freedom.
  const ratioError = Math.hypot(variantError, ratio * baselineError);
  if (!Number.isFinite(ratioError)) return { ...undecided, ...noLimits("too-large") };
  if (!hasScatter(ratioError, ratio)) return { ...undecided, ...noLimits("no-scatter") };
  const variantShare = (variantError / ratioError) ** 2;
  const degreesOfFreedom = satterthwaiteDegreesOfFreedom(variantShare, second.n - 1, first.n - 1);
  const t = critical(degreesOfFreedom);
  const limits = ratioLimits(ratio, t * variantError, t * baselineError);
  return { ...head, ratio, degreesOfFreedom, ...limits };
}

/** The solution of the quadratic inequality; both half-widths are t times a standard error over the baseline's mean. */
export function ratioLimits(ratio: number, variantHalf: number, baselineHalf: number): RatioLimits {
  const leading = (1 - baselineHalf) * (1 + baselineHalf);
  const last = (ratio - variantHalf) * (ratio + variantHalf);
  // A quarter of the discriminant, R^2 - leading * last, written so that nothing cancels where the set is an interval.
  const discriminant = (ratio * baselineHalf) ** 2 + variantHalf ** 2 * leading;
  if (!Number.isFinite(leading) || !Number.isFinite(last) || !Number.isFinite(discriminant))
    return noLimits("too-large");
  if (leading === 0) return halfLine(ratio, last);
  if (discriminant <= 0 && leading < 0) return { ...noLimits("both-means-indistinct-from-zero"), set: "whole-line" };
  // Roots by the form that adds magnitudes: far root q/leading, near root last/q.
  const root = Math.sqrt(discriminant);
  const q = ratio + (ratio < 0 ? -root : root);
  const [one, other] = [q / leading, last / q];
  if (!Number.isFinite(one) || !Number.isFinite(other)) return noLimits("too-large");
  const [lower, upper] = one < other ? [one, other] : [other, one];
  if (leading > 0) return { set: "bounded", lower, upper, excluded: null, because: null };
  return { ...noLimits("baseline-indistinct-from-zero"), set: "complement", excluded: { lower, upper } };
}

/** The boundary between bounded and unbounded, where the inequality is linear: -2 R r + last <= 0. */
function halfLine(ratio: number, last: number): RatioLimits {
  if (ratio === 0) return { ...noLimits("both-means-indistinct-from-zero"), set: "whole-line" };
  const limit = last / (2 * ratio);
  if (!Number.isFinite(limit)) return noLimits("too-large");
  return ratio > 0
    ? { set: "half-line", lower: limit, upper: null, excluded: null, because: "unbounded-above" }
    : { set: "half-line", lower: null, upper: limit, excluded: null, because: "unbounded-below" };
}

function noLimits(because: FiellerRatio["because"]): RatioLimits {
  return { set: "none", lower: null, upper: null, excluded: null, because };
}
