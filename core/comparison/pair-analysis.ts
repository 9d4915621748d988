import { type EquivalenceTest, equivalenceOf } from "../statistics/equivalence.ts";
import { type FiellerRatio, fiellerFromMoments } from "../statistics/fieller-ratio.ts";
import { hedgesGFromMoments } from "../statistics/hedges-g.ts";
import { logRatioFromMoments } from "../statistics/log-ratio.ts";
import { type MannWhitney, mannWhitney } from "../statistics/mann-whitney.ts";
import { type Welch, welchFromMoments } from "../statistics/welch.ts";
import type { GroupAnalysis } from "./group-analysis.ts";

/** A value with limits; what could not be computed is null. */
export interface Limits {
  readonly value: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
}

/** Two variants, as `compare --json` writes them: variant minus baseline, or over it. */
export interface PairEntry {
  readonly baseline: string;
  readonly variant: string;
  readonly difference: Limits;
  readonly welch: {
    readonly t: number | null;
    readonly degreesOfFreedom: number | null;
    readonly p: number | null;
    /** Adjusted by Holm's method for all the pairs listed. */
    readonly holmP: number | null;
  };
  readonly ratio: {
    readonly value: number | null;
    readonly fieller: { readonly lower: number | null; readonly upper: number | null };
    readonly logWelch: Limits;
  };
  readonly hedgesG: Limits;
  readonly mannWhitney: {
    readonly u: number | null;
    readonly p: number | null;
    readonly smallestP: number | null;
    /** Whether p is that of all arrangements of these runs, tied values sharing their mean rank; otherwise it is `normalP`. */
    readonly exact: boolean;
    /** How many values share their rank with another, of both variants. */
    readonly ties: number;
    /** By the normal distribution, corrected for ties and continuity. */
    readonly normalP: number | null;
  };
  readonly equivalence: {
    readonly margin: number;
    readonly p: number | null;
    readonly equivalent: boolean | null;
  } | null;
}

/** What of a pair was not computed, and why. */
export type PairGap = "welch" | "fieller" | "logWelch" | "hedgesG" | "mannWhitney" | "equivalence";

export interface PairAnalysis {
  readonly baseline: GroupAnalysis;
  readonly variant: GroupAnalysis;
  readonly welch: Welch;
  readonly ratio: FiellerRatio;
  readonly mannWhitney: MannWhitney;
  readonly equivalence: EquivalenceTest | null;
  readonly gaps: readonly { readonly what: PairGap; readonly because: string }[];
  entry(holmP: number | null): PairEntry;
}

/** Compares two variants by every method for two groups; `critical` is Student's t of the intervals, by degrees of freedom. */
export function analysePair(
  baseline: GroupAnalysis,
  variant: GroupAnalysis,
  confidence: number,
  margin: number | null,
  critical: (degreesOfFreedom: number) => number,
): PairAnalysis {
  const difference = welchFromMoments(baseline.summary, variant.summary, confidence, critical);
  const ratio = fiellerFromMoments(baseline.summary, variant.summary, confidence, critical);
  const logarithmic = logRatioFromMoments(baseline.logarithms, variant.logarithms, confidence, critical);
  const size = hedgesGFromMoments(baseline.summary, variant.summary, confidence);
  const ranks = mannWhitney(baseline.values, variant.values);
  const same = margin === null ? null : equivalenceOf(difference, margin, confidence);
  const bounded = ratio.set === "bounded" || ratio.set === "half-line";
  const gaps: { what: PairGap; because: string | null }[] = [
    { what: "welch", because: difference.because },
    { what: "fieller", because: ratio.because },
    { what: "logWelch", because: logarithmic.because },
    { what: "hedgesG", because: size.because },
    { what: "mannWhitney", because: ranks.because },
    { what: "equivalence", because: same?.because ?? null },
  ];
  return {
    baseline,
    variant,
    welch: difference,
    ratio,
    mannWhitney: ranks,
    equivalence: same,
    gaps: gaps.flatMap(({ what, because }) => (because === null ? [] : [{ what, because }])),
    entry: (holmP) => ({
      baseline: baseline.level,
      variant: variant.level,
      difference: {
        value: difference.difference,
        lower: difference.interval?.lower ?? null,
        upper: difference.interval?.upper ?? null,
      },
      welch: { t: difference.t, degreesOfFreedom: difference.degreesOfFreedom, p: difference.p, holmP },
      ratio: {
        value: ratio.ratio,
        fieller: { lower: bounded ? ratio.lower : null, upper: bounded ? ratio.upper : null },
        logWelch: {
          value: logarithmic.ratio,
          lower: logarithmic.interval?.lower ?? null,
          upper: logarithmic.interval?.upper ?? null,
        },
      },
      hedgesG: { value: size.value, lower: size.lower, upper: size.upper },
      mannWhitney: {
        u: ranks.u,
        p: ranks.p,
        smallestP: ranks.smallestP,
        exact: ranks.isExact,
        ties: ranks.ties,
        normalP: ranks.normalP,
      },
      equivalence: same === null ? null : { margin: same.margin, p: same.p, equivalent: same.equivalent },
    }),
  };
}
