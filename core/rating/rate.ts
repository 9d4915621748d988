import { studentTUpperTail } from "../statistics/distribution/student-t.ts";
import type { MeanInterval } from "../statistics/mean-interval.ts";
import type { TierRow } from "./tiers.ts";

/** Tier of a result, and how sure that is. */
export interface Rating {
  /** Of the mean itself, unrounded. */
  readonly tier: number;
  /** Of the end of the mean's interval that is the worse one. */
  readonly tierAtUnfavourableLimit: number;
  /** Probability that the true mean lies in tier 0, 1, …; they add up to 1. */
  readonly probabilities: readonly number[];
}

/** The highest tier whose threshold a value meets; 0 where it meets none. A value is never rounded before. */
export function tierOf(row: TierRow, value: number): number {
  let tier = 0;
  row.thresholds.forEach((threshold, index) => {
    if (row.better === "more" ? value >= threshold : value <= threshold) tier = index + 1;
  });
  return tier;
}

/**
 * Rates the mean of replicates. The true mean is taken as mean + t(nu) u, with a flat prior: s / sqrt(n) and n - 1, or with shared errors
 * the combined uncertainty and its effective degrees of freedom.
 *
 * @returns null where there is no interval: one run, or no variation
 * Source: thresholds as in the row; probabilities in the manner of JCGM 106:2012, clause 7.
 */
export function rate(row: TierRow, summary: MeanInterval): Rating | null {
  const { mean, standardError, degreesOfFreedom, interval } = summary;
  if (mean === null || standardError === null || degreesOfFreedom === null || interval === null) return null;
  const sign = row.better === "more" ? 1 : -1;
  /** Probability that the true mean is at least as good as the threshold. */
  const reaches = row.thresholds.map((threshold) =>
    studentTUpperTail((sign * (threshold - mean)) / standardError, degreesOfFreedom),
  );
  const atLeast = [1, ...reaches, 0];
  return {
    tier: tierOf(row, mean),
    tierAtUnfavourableLimit: tierOf(row, row.better === "more" ? interval.lower : interval.upper),
    probabilities: atLeast.slice(0, -1).map((probability, tier) => probability - (atLeast[tier + 1] ?? 0)),
  };
}
