import { type Summary, summarise } from "../analysis/summary.ts";
import { type BcaInterval, bcaInterval } from "../statistics/bootstrap-bca.ts";
import { coefficientOfVariation as coefficientOfVariationOf } from "../statistics/coefficient-of-variation.ts";
import { type Grubbs, grubbs } from "../statistics/grubbs.ts";
import { logMoments } from "../statistics/log-ratio.ts";
import { median } from "../statistics/median.ts";
import type { Moments } from "../statistics/moments.ts";
import type { Interval } from "../statistics/reason.ts";
import { shapiroWilk } from "../statistics/shapiro-wilk.ts";
import type { ComparedRow } from "./compared-table.ts";

/** How many resamples a bootstrap draws, from which seed. */
export interface Resampling {
  readonly resamples: number;
  readonly seed: number;
}

/** One variant, as `compare --json` writes it. */
export interface GroupEntry {
  readonly n: number;
  readonly mean: number | null;
  readonly standardDeviation: number | null;
  readonly coefficientOfVariation: number | null;
  readonly standardError: number | null;
  readonly median: number | null;
  readonly interval: Interval | null;
  readonly grubbs: { readonly statistic: number; readonly suspectRow: number; readonly p: number | null } | null;
  readonly shapiroWilk: { readonly statistic: number; readonly p: number } | null;
  readonly bootstrap: (Interval & Resampling & { readonly method: "BCa" }) | null;
}

/** One variant: its entry, and what the other parts of the comparison need. */
export interface GroupAnalysis {
  readonly level: string;
  readonly rows: readonly ComparedRow[];
  readonly values: readonly number[];
  readonly summary: Summary;
  /** Of the natural logarithms; null where a value is not above zero. */
  readonly logarithms: Moments | null;
  readonly entry: GroupEntry;
  /** A limit of the bootstrap is the outermost resample. */
  readonly bootstrapIsExtreme: boolean;
  /** What of it was not computed, and why. */
  readonly gaps: readonly { readonly what: GroupGap; readonly because: string }[];
}

export type GroupGap = "interval" | "coefficientOfVariation" | "grubbs" | "shapiroWilk" | "bootstrap";

/** Analyses one variant by itself. */
export function analyseGroup(
  level: string,
  rows: readonly ComparedRow[],
  confidence: number,
  resampling: Resampling | null,
): GroupAnalysis {
  const values = rows.map(({ value }) => value);
  const summary = summarise(values, confidence);
  const suspect = grubbs(values);
  const normality = shapiroWilk(values);
  const bootstrap = resampling === null ? null : bcaInterval(values, { confidence, ...resampling });
  const { n, mean, standardDeviation, standardError, coefficientOfVariation, interval } = summary;
  const entry: GroupEntry = {
    n,
    mean,
    standardDeviation,
    coefficientOfVariation,
    standardError,
    median: values.length === 0 ? null : median(values),
    interval,
    grubbs: grubbsEntry(suspect, rows),
    shapiroWilk:
      normality.statistic === null || normality.p === null ? null : { statistic: normality.statistic, p: normality.p },
    bootstrap: bootstrap === null ? null : bootstrapEntry(bootstrap),
  };
  const gaps: { what: GroupGap; because: string | null }[] = [
    { what: "interval", because: summary.because },
    { what: "coefficientOfVariation", because: coefficientOfVariation === null ? variation(values) : null },
    { what: "grubbs", because: suspect.because },
    { what: "shapiroWilk", because: normality.because },
    { what: "bootstrap", because: bootstrap?.because ?? null },
  ];
  return {
    level,
    rows,
    values,
    summary,
    logarithms: logMoments(values),
    entry,
    bootstrapIsExtreme: bootstrap?.cautions.includes("extreme-resamples") === true,
    gaps: gaps.flatMap(({ what, because }) => (because === null ? [] : [{ what, because }])),
  };
}

function variation(values: readonly number[]): string | null {
  return coefficientOfVariationOf(values).because;
}

function grubbsEntry({ statistic, suspect, p }: Grubbs, rows: readonly ComparedRow[]): GroupEntry["grubbs"] {
  const row = suspect === null ? undefined : rows[suspect]?.row;
  return statistic === null || row === undefined ? null : { statistic, suspectRow: row, p };
}

function bootstrapEntry({ method, level, lower, upper, resamples, seed }: BcaInterval): GroupEntry["bootstrap"] {
  return lower === null || upper === null ? null : { method, level, lower, upper, resamples, seed };
}
