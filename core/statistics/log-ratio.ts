import type { Interval } from "./reason.ts";
import { type TwoGroups, welch } from "./welch.ts";

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
  const missing = { ratio: null, t: null, degreesOfFreedom: null, p: null, interval: null };
  if ([...baseline, ...variant].some((value) => value <= 0)) return { runs, ...missing, because: "value-not-positive" };
  const { difference, t, degreesOfFreedom, p, interval, because } = welch({
    baseline: baseline.map(Math.log),
    variant: variant.map(Math.log),
    confidence,
  });
  if (difference === null) return { runs, ...missing, because };
  const ratio = Math.exp(difference);
  if (!Number.isFinite(ratio)) return { runs, ...missing, because: "too-large" };
  const known = { runs, ratio, t, degreesOfFreedom, p };
  if (interval === null) return { ...known, interval: null, because };
  const [lower, upper] = [Math.exp(interval.lower), Math.exp(interval.upper)];
  if (!Number.isFinite(upper)) return { ...known, interval: null, because: "too-large" };
  return { ...known, interval: { level: interval.level, lower, upper }, because: null };
}
