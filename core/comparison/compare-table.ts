import { holm } from "../statistics/holm.ts";
import type { StatisticReason } from "../statistics/reason.ts";
import type { VarianceRatio } from "../statistics/variance-ratio.ts";
import type { Locale } from "../words/index.ts";
import type { ComparedTable } from "./compared-table.ts";
import type { SeveralPairEntry, TableComparison, VarianceRatioEntry } from "./comparison-entry.ts";
import { comparisonNotes } from "./comparison-notes.ts";
import { comparisonSentences } from "./comparison-sentences.ts";
import { comparisonWarnings } from "./comparison-warnings.ts";
import { designOf, leadOf } from "./design.ts";
import { Shown } from "./shown.ts";
import { analyseTable, type ComparisonSettings, type TableAnalysis } from "./table-analysis.ts";

/**
 * Compares the variants of a table: every analysis that its design has a place for, which of them leads and why, what weakens them,
 * and sentences. Pure: the same rows give the same answer, wherever they come from.
 *
 * The baseline of the settings must be among the table's variants; a RangeError otherwise, or for a confidence not between 0 and 1.
 */
export function compareTable(table: ComparedTable, settings: ComparisonSettings, locale: Locale): TableComparison {
  const { baseline, confidence } = settings;
  if (baseline !== null && !table.rows.some(({ level }) => level === baseline)) {
    throw new RangeError("The baseline is not among the variants.");
  }
  const design = designOf(table, baseline);
  const analysis = analyseTable(table, design, settings);
  const { leads, because } = leadOf(design, locale);
  const shown = new Shown(
    table.value,
    confidence,
    Math.max(0, ...table.rows.map(({ value }) => Math.abs(value))),
    locale,
  );
  return {
    value: table.value,
    by: table.by,
    confidence,
    leads,
    because,
    groups: Object.fromEntries(analysis.groups.map(({ level, entry }) => [level, entry])),
    pairs: analysis.pairs.map((pair, index) => pair.entry(analysis.holmP[index] ?? null)),
    brownForsythe: ratioEntry(analysis.brownForsythe),
    anova: ratioEntry(analysis.anova),
    welchAnova: ratioEntry(analysis.welchAnova),
    tukey: pairEntries(analysis, analysis.tukey),
    gamesHowell: pairEntries(analysis, analysis.gamesHowell),
    blocked: blockedEntry(analysis),
    ...factorEntries(analysis),
    warnings: comparisonWarnings(analysis, leads, shown),
    notes: comparisonNotes(analysis, shown),
    sentences: comparisonSentences(analysis, leads, shown),
  };
}

function ratioEntry({ f, df1, df2, p }: VarianceRatio<StatisticReason>): VarianceRatioEntry | null {
  return f === null || df1 === null || df2 === null || p === null ? null : { f, df1, df2, p };
}

interface SeveralPair {
  readonly first: number;
  readonly second: number;
  readonly difference: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  readonly p: number | null;
}

function pairEntries({ design }: TableAnalysis, pairs: readonly SeveralPair[]): SeveralPairEntry[] {
  return pairs.map(({ first, second, difference, lower, upper, p }) => ({
    baseline: design.levels[first] ?? "",
    variant: design.levels[second] ?? "",
    difference,
    lower,
    upper,
    p,
  }));
}

function blockedEntry(analysis: TableAnalysis): TableComparison["blocked"] {
  const { blocked } = analysis;
  if (blocked === null || blocked.because === "no-values" || blocked.because === "never-together") return null;
  const { variantF, df1, df2, p } = blocked;
  const holmP = holm(blocked.pairs.map((pair) => pair.p));
  const pairs = pairEntries(analysis, blocked.pairs).map((pair, index) => ({ ...pair, holmP: holmP[index] ?? null }));
  return { variantF, df1, df2, p, pairs };
}

function factorEntries({ factors, factorList }: TableAnalysis): Pick<TableComparison, "factors" | "factorTests"> {
  if (factors === null) return { factors: [], factorTests: [] };
  const several = new Set(factorList.flatMap(({ name, levels }) => (levels.length > 2 ? [name] : [])));
  return {
    factors: factors.factors.map(({ term, level, baseline, effect, lower, upper, t, p }) => ({
      term,
      ...(several.has(term) && level !== null && baseline !== null && { level, baseline }),
      effect,
      lower,
      upper,
      t,
      p,
    })),
    factorTests: factors.factorTests.map(({ term, f, df1, df2, p }) => ({ term, f, df1, df2, p })),
  };
}
