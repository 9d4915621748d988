import { type Change, changeTexts } from "../analysis/change.ts";
import type { Comparison } from "../analysis/comparison.ts";
import { comparisonsIn, runValues, type StudyResults, variantMean } from "../analysis/study-results.ts";
import { formatMean, labelWithUnit } from "../format/quantity.ts";
import { keyLabel, keyText, type QuantityKey } from "../quantity/quantity-key.ts";
import { type QuantityEntry, quantityEntry } from "../quantity/quantity-table.ts";
import { wordsFor } from "../words/index.ts";
import type { ChangeStrip, LabelledInterval, RunsAndChangeChart, VariantRow } from "./chart-specification.ts";

/** A change as an interval of a chart. */
function labelledChange(change: Change, entry: QuantityEntry, results: StudyResults): LabelledInterval {
  const { directed } = changeTexts(change, entry, results.locale);
  return { value: change.value, lower: change.lower, upper: change.upper, text: directed };
}

/** Every run of every variant in one quantity, and each variant's change from the baseline. */
export function comparisonChart(results: StudyResults, key: QuantityKey, baseline: string): RunsAndChangeChart {
  const { locale, variants } = results;
  const entry = quantityEntry(key.quantity, locale);
  const { charts, findings } = wordsFor(locale);
  const changes = comparisonsIn(results, key, baseline);
  // All on one axis: where one change cannot be a percentage, none is.
  const unit = changes.every(({ change }) => change.unit === changes[0]?.change.unit) ? changes[0]?.change.unit : null;
  // A long unit would not fit below every tick: all but the percent sign stand in the title.
  const titleUnit = unit === "percent" ? "" : unit === "percentagePoints" ? charts.percentagePoints : entry.shownUnit;
  const rows = variants.map(({ variant, index, quantities }): VariantRow => {
    const summary = quantities.get(keyText(key));
    const interval = variantMean(results, { variant, key })?.interval ?? null;
    const texts = summary?.mean == null ? null : formatMean(summary.mean, interval, entry, locale);
    const factor = entry.shownFactor;
    const change = changes.find((comparison) => comparison.variant === variant)?.change;
    return {
      variant,
      index,
      runs: runValues(results, variant, key).map((run) => ({ ...run, value: run.value * factor })),
      mean:
        summary?.mean == null || texts === null
          ? null
          : {
              value: summary.mean * factor,
              lower: interval && interval.lower * factor,
              upper: interval && interval.upper * factor,
              text: texts.mean,
            },
      change: change === undefined || unit === null ? null : labelledChange(change, entry, results),
      isBaseline: variant === baseline,
    };
  });
  const label = keyLabel(key, locale);
  const rowTexts = rows.map((row) => {
    const values = row.runs.filter((run) => !run.leftOut).length;
    return charts.rowAlternative(
      findings.quoted(row.variant),
      values,
      row.mean?.text ?? null,
      row.change?.text ?? null,
    );
  });
  return {
    kind: "runs-and-change",
    valueTitle: labelWithUnit(label, entry),
    changeTitle: changes.length === 0 || unit === null ? null : charts.changeFrom(baseline, titleUnit),
    changeUnit: unit === "percent" ? "%" : "",
    noChangeText: charts.noChange,
    decimals: entry.decimals,
    rows,
    textAlternative: charts.alternative(labelWithUnit(label, entry), rowTexts.join(" ")),
  };
}

/** The widest end of several changes in per cent of their axes: strips of one table share it. */
export function stripExtent(comparisons: readonly Comparison[]): number {
  const ends = comparisons.flatMap(({ change }) => [change.value, change.lower ?? 0, change.upper ?? 0].map(Math.abs));
  return Math.max(1, ...ends) * 1.05;
}

/** One change as a strip. Changes in per cent share an axis; others are drawn relative to their own. */
export function changeStrip(comparison: Comparison, extent: number, results: StudyResults): ChangeStrip {
  const { change, entry } = comparison;
  const labelled = labelledChange(change, entry, results);
  const { range } = changeTexts(change, entry, results.locale);
  return {
    kind: "change-strip",
    change: labelled,
    extent: change.unit === "percent" ? extent : stripExtent([comparison]),
    tone: change.sure ? "sure" : "open",
    textAlternative: range === null ? labelled.text : `${labelled.text} (${range})`,
  };
}
