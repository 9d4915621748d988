import { requireProbability } from "./argument.ts";
import { noncentralityLimits } from "./distribution/noncentrality-limits.ts";
import { hasScatter, type Moments, moments } from "./moments.ts";

/** Difference of two means in standard deviations, second minus first, corrected for the bias of few runs. */
export interface HedgesG {
  readonly value: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  /** The same before the correction (Cohen's d with pooled standard deviation); its limits are the exact ones of the true difference. */
  readonly uncorrected: { readonly value: number; readonly lower: number; readonly upper: number } | null;
  /** Why value or limits are missing. */
  readonly because: "no-values" | "one-value" | "too-few-values" | "no-scatter" | "too-large" | null;
}

/**
 * Hedges' g: by how many standard deviations two groups differ.
 *
 *     g = J d,  d = (mean2 - mean1)/s,  s^2 = [(n1 - 1) s1^2 + (n2 - 1) s2^2]/m,  m = n1 + n2 - 2,
 *     J = Gamma(m/2)/[sqrt(m/2) Gamma((m - 1)/2)]
 *
 * The limits are those noncentralities of t = d/sqrt(1/n1 + 1/n2) at which it would be just as far out as the confidence allows, turned
 * into standard deviations and multiplied by J as d is: convention "limits of d times J". A group of one value takes part in the mean; m must
 * be at least 2, for below it J is zero. A RangeError for a value that is not finite or a confidence not between 0 and 1.
 *
 * Sources: L. V. Hedges, Distribution theory for Glass's estimator of effect size, J. Educ. Statist. 6, 107 (1981); the interval, J. H.
 * Steiger and R. T. Fouladi, Noncentrality interval estimation (1997) (from memory).
 */
export function hedgesG(first: readonly number[], second: readonly number[], confidence: number): HedgesG {
  requireProbability("Confidence", confidence);
  return hedgesGFromMoments(moments(first), moments(second), confidence);
}

/** The same from numbers, means and standard deviations. */
export function hedgesGFromMoments(one: Moments, other: Moments, confidence: number): HedgesG {
  const missing = { value: null, lower: null, upper: null, uncorrected: null };
  if (one.mean === null || other.mean === null) return { ...missing, because: "no-values" };
  const degreesOfFreedom = one.n + other.n - 2;
  if (degreesOfFreedom === 0) return { ...missing, because: "one-value" };
  if (degreesOfFreedom === 1) return { ...missing, because: "too-few-values" };
  const oneShare = Math.sqrt((one.n - 1) / degreesOfFreedom) * (one.standardDeviation ?? 0);
  const otherShare = Math.sqrt((other.n - 1) / degreesOfFreedom) * (other.standardDeviation ?? 0);
  const pooled = Math.hypot(oneShare, otherShare);
  if (!hasScatter(pooled, one.mean, other.mean)) return { ...missing, because: "no-scatter" };
  const d = (other.mean - one.mean) / pooled;
  if (!Number.isFinite(d)) return { ...missing, because: "too-large" };
  const correction = smallSampleCorrection(degreesOfFreedom);
  const value = correction * d;
  const unit = Math.sqrt(1 / one.n + 1 / other.n);
  const limits = noncentralityLimits(d / unit, degreesOfFreedom, confidence);
  if (limits === null) return { ...missing, value, because: "too-large" };
  const [lower, upper] = [limits.lower * unit, limits.upper * unit];
  return {
    value,
    lower: correction * lower,
    upper: correction * upper,
    uncorrected: { value: d, lower, upper },
    because: null,
  };
}

/**
 * J(m) = Gamma(m/2)/[sqrt(m/2) Gamma((m - 1)/2)] for whole m from 2, by R(m + 1) R(m) = (m - 1)/2 for the ratio R of the gamma functions,
 * from R(2) = 1/sqrt(pi).
 */
export function smallSampleCorrection(degreesOfFreedom: number): number {
  let ratio = 1 / Math.sqrt(Math.PI);
  for (let m = 2; m < degreesOfFreedom; m += 1) ratio = (m - 1) / 2 / ratio;
  return ratio / Math.sqrt(degreesOfFreedom / 2);
}
