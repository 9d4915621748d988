import { studentTTwoSidedTail } from "./distribution/student-t.ts";
import { type Moments, moments } from "./moments.ts";
import type { Interval } from "./reason.ts";
import { type TwoGroups, welchDifference } from "./welch.ts";

/** Variant over baseline, as a ratio of geometric means: without unit. */
export interface LogRatio {
  readonly runs: { readonly baseline: number; readonly variant: number };
  readonly ratio: number | null;
  /** Welch's test on the natural logarithms. */
  readonly t: number | null;
  readonly degreesOfFreedom: number | null;
  /** Two-sided. */
  readonly p: number | null;
  readonly interval: Interval | null;
  readonly because: "no-values" | "one-value" | "no-scatter" | "value-not-positive" | "too-large" | null;
}

/**
 * By what factor the variant differs from the baseline, for quantities whose scatter grows in proportion to them: Welch's
 * method on natural logarithms, taken back.
 *
 *     ratio = exp(mean(ln variant) - mean(ln baseline)), limits likewise
 *
 * Missing where a value is zero or negative. A RangeError for a value that is not finite or a confidence not between 0 and 1.
 */
export function logRatio({ baseline, variant, confidence }: TwoGroups): LogRatio {
  const runs = { baseline: baseline.length, variant: variant.length };
  const found = logRatioFromMoments(logMoments(baseline), logMoments(variant), confidence);
  const { t, degreesOfFreedom } = found;
  const p = t === null || degreesOfFreedom === null ? null : studentTTwoSidedTail(t, degreesOfFreedom);
  return { runs, ...found, p };
}

/** Moments of the natural logarithms; null where a value is zero or negative. */
export function logMoments(values: readonly number[]): Moments | null {
  return values.some((value) => value <= 0) ? null : moments(values.map(Math.log));
}

const missing = { ratio: null, t: null, degreesOfFreedom: null, interval: null };

/** All of it but p from the moments of the logarithms, if there are any; `critical` as that of `welchFromMoments`. */
export function logRatioFromMoments(
  baseline: Moments | null,
  variant: Moments | null,
  confidence: number,
  critical?: (degreesOfFreedom: number) => number,
): Omit<LogRatio, "runs" | "p"> {
  if (baseline === null || variant === null) return { ...missing, because: "value-not-positive" };
  const { difference, t, degreesOfFreedom, interval, because } = welchDifference(
    baseline,
    variant,
    confidence,
    critical,
  );
  if (difference === null) return { ...missing, because };
  const ratio = Math.exp(difference);
  if (!Number.isFinite(ratio)) return { ...missing, because: "too-large" };
  const known = { ratio, t, degreesOfFreedom };
  if (interval === null) return { ...known, interval: null, because };
  const [lower, upper] = [Math.exp(interval.lower), Math.exp(interval.upper)];
  if (!Number.isFinite(upper)) return { ...known, interval: null, because: "too-large" };
  return { ...known, interval: { level: interval.level, lower, upper }, because: null };
}
