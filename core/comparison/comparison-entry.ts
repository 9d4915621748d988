import type { Lead } from "./design.ts";
import type { GroupEntry } from "./group-analysis.ts";
import type { PairEntry } from "./pair-analysis.ts";

/** A test by the ratio of two variances. */
export interface VarianceRatioEntry {
  readonly f: number;
  readonly df1: number;
  readonly df2: number;
  readonly p: number;
}

/** Two of several variants, with limits and p by a method that the list is named after. */
export interface SeveralPairEntry {
  readonly baseline: string;
  readonly variant: string;
  readonly difference: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  readonly p: number | null;
}

export interface BlockedEntry {
  readonly variantF: number | null;
  readonly df1: number | null;
  readonly df2: number | null;
  readonly p: number | null;
  readonly pairs: readonly BlockedPairEntry[];
}

/** Two variants within blocks: limits and p of this pair alone, and p adjusted by Holm's method for all the pairs listed. */
export interface BlockedPairEntry extends SeveralPairEntry {
  readonly holmP: number | null;
}

export interface FactorEffectEntry {
  readonly term: string;
  /** Of a factor with more than two levels: which level, against which. */
  readonly level?: string;
  readonly baseline?: string;
  readonly effect: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  readonly t: number | null;
  readonly p: number | null;
}

export interface FactorTestEntry {
  readonly term: string;
  readonly f: number | null;
  readonly df1: number | null;
  readonly df2: number | null;
  readonly p: number | null;
}

/**
 * What `compare --json` writes. What was not asked for is null or an empty list; what cannot be computed is null, with a note.
 */
export interface TableComparison {
  readonly value: string;
  readonly by: string;
  readonly confidence: number;
  readonly leads: Lead;
  readonly because: string;
  readonly groups: Readonly<Record<string, GroupEntry>>;
  /** All pairs: the baseline's first, then the others', by order of the levels. */
  readonly pairs: readonly PairEntry[];
  readonly brownForsythe: VarianceRatioEntry | null;
  readonly anova: VarianceRatioEntry | null;
  readonly welchAnova: VarianceRatioEntry | null;
  readonly tukey: readonly SeveralPairEntry[];
  readonly gamesHowell: readonly SeveralPairEntry[];
  readonly blocked: BlockedEntry | null;
  readonly factors: readonly FactorEffectEntry[];
  readonly factorTests: readonly FactorTestEntry[];
  readonly warnings: readonly string[];
  readonly notes: readonly string[];
  readonly sentences: readonly string[];
}
