import type { Comparison } from "../analysis/comparison.ts";
import { levelText } from "../analysis/finding.ts";
import { resultOf } from "../analysis/run-results.ts";
import { studyErrors } from "../analysis/study-errors.ts";
import { compareIn, type StudyResults, variantMean } from "../analysis/study-results.ts";
import { formatFixed } from "../format/number.ts";
import { keyLabel, type QuantityKey } from "../quantity/quantity-key.ts";
import type { InstrumentRole } from "../readings/reading.ts";
import { combinedBudget } from "../uncertainty/budget.ts";
import type { Combined } from "../uncertainty/combined.ts";
import { type Locale, wordsFor } from "../words/index.ts";
import { shorten } from "../words/shorten.ts";
import { Amounts, type BudgetText, budgetText } from "./budget-text.ts";
import { adviceOn, adviceTexts } from "./combined-text.ts";
import type { ReportBlock, ReportTable } from "./report-document.ts";
import type { ReportChoice } from "./report-request.ts";

/** Longest name of a variant in a table, and the most rows of the table of differences. */
const longestName = 60;
const mostDifferences = 12;

/**
 * What the headline's uncertainty is made of, and what would make it surer: of the difference, of all differences and the least sure of
 * them, or of a single variant's mean. Nothing where the settings state no errors.
 */
export function howSure(results: StudyResults, choice: ReportChoice): ReportBlock[] {
  const { key, baseline } = choice;
  const words = wordsFor(results.locale).report.sure;
  if (key === null || studyErrors(results.study.settings) === null) return [];
  const others = results.variants.map(({ variant }) => variant).filter((variant) => variant !== baseline);
  const comparisons = (choice.variant === null ? others : [choice.variant])
    .map((variant) => compareIn(results, key, variant, baseline))
    .filter((comparison) => comparison !== null && comparison.combined !== null) as WithErrors[];
  const blocks =
    comparisons.length === 0
      ? ofMean(results, key, baseline)
      : [...(comparisons.length > 1 ? overview(comparisons, key, results) : []), ...ofDifference(comparisons, results)];
  return blocks.length === 0 ? [] : [{ kind: "heading", level: 2, text: words.heading }, ...blocks];
}

type WithErrors = Comparison & { readonly combined: NonNullable<Comparison["combined"]> };

function ofDifference(comparisons: readonly WithErrors[], results: StudyResults): ReportBlock[] {
  const { report, charts } = wordsFor(results.locale);
  const words = report.sure;
  // Of several the one that is least sure: there is most to gain. Nobody knows how sure one is whose scatter is not in it.
  const known = comparisons.filter(({ combined }) => !combined.difference.noReplicates);
  const widest = (known.length > 0 ? known : comparisons).reduce((so, one) =>
    one.combined.difference.standardUncertainty > so.combined.difference.standardUncertainty ? one : so,
  );
  const { key, baseline, variant, confidence, welch, combined } = widest;
  if (welch.difference === null) return [];
  const exact = exactRolesOf(results, key, [baseline, variant]);
  const text = budgetText(
    combinedBudget(welch.difference, combined.difference, exact),
    key,
    confidence,
    results.locale,
  );
  if (text.rows.length === 0) return listOf([words.nothingLeft, ...ofBaseline(widest, results)]);
  const unit = text.unit === "%" ? charts.percentagePoints : text.unit;
  const names = [shorten(variant, longestName), shorten(baseline, longestName)] as const;
  const isOneOfSeveral = known.length > 1 || (known.length === 0 && comparisons.length > 1);
  const said = isOneOfSeveral ? words.leastSure(...names) : words.difference(...names);
  return [
    {
      kind: "paragraph",
      text: words.is(said, valueText(text, unit), text.coverage, !combined.difference.noReplicates),
      tone: "plain",
    },
    ...budgetBlocks(text, words.differenceOf(text.label, ...names), results.locale),
    ...listOf([
      ...adviceTexts(widest, results.locale),
      ...ofBaseline(widest, results),
      ...text.notes,
      ...(isWiderAlone(widest) ? [words.hull] : []),
    ]),
  ];
}

/** A mean by itself is less sure than the difference where much is shared: it is said of the baseline's. */
function ofBaseline({ key, baseline, confidence, groups, combined }: WithErrors, { locale }: StudyResults): string[] {
  const words = wordsFor(locale).report.sure;
  const { sharedUncertainty, noReplicates } = combined.baseline;
  if (groups.baseline.mean === null || noReplicates || sharedUncertainty <= combined.difference.sharedUncertainty) {
    return [];
  }
  const text = budgetText(combinedBudget(groups.baseline.mean, combined.baseline), key, confidence, locale);
  const advice = adviceOn(combined.baseline, locale);
  const name = shorten(baseline, longestName);
  return advice.length === 0 ? [] : [words.alone(name, valueText(text, text.unit), advice.join(" "))];
}

/** Scatter alone gives the wider interval of the difference, which findings keep. */
function isWiderAlone({ welch, combined }: WithErrors): boolean {
  const { interval } = combined.difference;
  return welch.interval !== null && (welch.interval.lower < interval.lower || welch.interval.upper > interval.upper);
}

function ofMean(results: StudyResults, key: QuantityKey, baseline: string): ReportBlock[] {
  const words = wordsFor(results.locale).report.sure;
  const { confidence } = results.study.settings;
  const having = [baseline, ...results.variants.map(({ variant }) => variant)];
  for (const variant of having) {
    const mean = variantMean(results, { variant, key });
    if (mean === null || mean.combined === null || mean.summary.mean === null) continue;
    const exact = exactRolesOf(results, key, [variant]);
    const text = budgetText(combinedBudget(mean.summary.mean, mean.combined, exact), key, confidence, results.locale);
    const name = shorten(variant, longestName);
    const said = mean.summary.n === 1 ? words.single(name) : words.mean(name);
    return [
      {
        kind: "paragraph",
        text: words.is(said, valueText(text, text.unit), text.coverage, !mean.combined.noReplicates),
        tone: "plain",
      },
      ...budgetBlocks(text, words.meanOf(text.label, name), results.locale),
      ...listOf([...adviceOn(mean.combined, results.locale), ...text.notes]),
    ];
  }
  return [];
}

function valueText(text: BudgetText, unit: string): string {
  return unit === "" ? text.value : `${text.value} ${unit}`;
}

function budgetBlocks(text: BudgetText, caption: string, locale: Locale): ReportBlock[] {
  if (text.chart === null) return [];
  return [
    { kind: "chart", chart: text.chart, caption },
    { kind: "table", table: partsTable(text, locale) },
  ];
}

/** The parts with what each alone makes, and what halving it would give. */
function partsTable(text: BudgetText, locale: Locale): ReportTable {
  const { columns } = wordsFor(locale).report.sure;
  return {
    caption: text.label,
    isCaptionHidden: true,
    columns: [
      { label: columns.part, align: "text", weight: 1.5 },
      { label: columns.detail, align: "text", weight: 2.2 },
      { label: columns.share, align: "number", weight: 0.7 },
      { label: columns.alone, align: "number" },
      { label: columns.halved, align: "number", weight: 1.4 },
    ],
    isReference: true,
    rows: text.rows.map(({ name, detail, share, alone, whenHalved }) => [name, detail, share, alone, whenHalved]),
    note: null,
  };
}

/** Every difference with what scatter and shared errors make of its uncertainty. */
function overview(comparisons: readonly WithErrors[], key: QuantityKey, results: StudyResults): ReportBlock[] {
  const { locale } = results;
  const { report, uncertainty } = wordsFor(locale);
  const words = report.sure;
  const level = levelText(results.study.settings.confidence, locale);
  const shown = comparisons.slice(0, mostDifferences);
  const rows = shown.map((comparison) => {
    const { combined, entry, confidence, welch } = comparison;
    const { difference } = combined;
    const factor = factorOf(difference);
    const amounts = new Amounts(factor * difference.standardUncertainty, entry, locale);
    const part = (standardUncertainty: number) => uncertainty.plusMinus(amounts.bare(factor * standardUncertainty));
    const own = Math.hypot(difference.scatterUncertainty, difference.independentUncertainty);
    const budget = budgetText(combinedBudget(welch.difference ?? 0, difference), key, confidence, locale);
    const share = difference.standardUncertainty === 0 ? 0 : own ** 2 / difference.standardUncertainty ** 2;
    return [
      shorten(comparison.variant, longestName),
      budget.value,
      part(own),
      part(difference.sharedUncertainty),
      difference.noReplicates ? report.none : uncertainty.share(formatFixed(share * 100, 0, locale)),
    ];
  });
  const single = shown.filter(({ combined }) => combined.difference.noReplicates);
  const notes = [
    ...(single.length > 0 ? [words.withoutScatter(single.map(({ variant }) => shorten(variant, longestName)))] : []),
    ...(comparisons.length > shown.length ? [words.moreDifferences(comparisons.length - shown.length)] : []),
  ];
  const unit =
    shown[0]?.entry.shownUnit === "%" ? wordsFor(locale).charts.percentagePoints : (shown[0]?.entry.shownUnit ?? "");
  return [
    {
      kind: "table",
      table: {
        caption: words.overview(keyLabel(key, locale), shorten(shown[0]?.baseline ?? "", longestName), level),
        columns: [
          { label: report.variantColumn, align: "text", weight: 1.8 },
          { label: words.columns.difference(unit), align: "number", weight: 1.2 },
          { label: words.columns.scatter, align: "number" },
          { label: words.columns.shared, align: "number" },
          { label: words.columns.shareOfScatter, align: "number" },
        ],
        isReference: true,
        rows,
        note: notes.length === 0 ? null : notes.join(" "),
      },
    },
  ];
}

function factorOf({ interval, standardUncertainty }: Combined): number {
  return standardUncertainty === 0 ? 0 : (interval.upper - interval.lower) / 2 / standardUncertainty;
}

function listOf(items: readonly string[]): ReportBlock[] {
  return items.length === 0 ? [] : [{ kind: "list", items, isReference: true }];
}

/** Instruments that took readings of these variants' runs, and of whose errors nothing is stated. */
function exactRolesOf({ runs, study }: StudyResults, key: QuantityKey, variants: readonly string[]): InstrumentRole[] {
  const errors = studyErrors(study.settings);
  if (errors === null) return [];
  const counted = runs.filter(
    (one) => one.run.leftOut === null && variants.includes(one.run.variant) && resultOf(one, key) !== undefined,
  );
  return [...new Set(counted.flatMap(({ run }) => errors.ofRun(run).exactRoles))];
}
