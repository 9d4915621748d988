import {
  adviceTexts,
  type Comparison,
  changeStrip,
  changeTextOf,
  compareIn,
  comparisonChart,
  type Finding,
  findingOf,
  formatFixed,
  formatMean,
  formatValue,
  headlineKey,
  intervalsHold,
  isFormulaOnly,
  keepTogether,
  keyLabel,
  keyText,
  markedLabel,
  meanInterval,
  parseKey,
  type QuantityKey,
  quantityEntry,
  runValues,
  type StudyResults,
  stripExtent,
  variantMean,
  whatMakesItSurer,
  wordsFor,
} from "../../../core/index.ts";
import type {
  CompareEmptyView,
  CompareView,
  ComparisonChoice,
  QuantityChoiceView,
  ReplyValues,
} from "../../contract/index.ts";
import type { Turn } from "../grid/turn.ts";
import { refuse } from "../refused.ts";
import { variantView } from "./study-view.ts";

/** A choice made whole: what was asked for, or the study's own first choice. */
export interface WholeChoice {
  readonly key: QuantityKey | null;
  readonly variant: string | null;
  readonly baseline: string;
}

/** Fills the gaps of a choice. Refuses names that the study does not know. */
export function wholeChoice(results: StudyResults, choice: ComparisonChoice): WholeChoice {
  const words = wordsFor(results.locale).service;
  const names = results.variants.map(({ variant }) => variant);
  const known = (name: string | null) => {
    if (name !== null && !names.includes(name)) refuse(words.unknownVariant(name));
    return name;
  };
  const key = choice.quantity === null ? headlineKey(results) : parseKey(choice.quantity);
  if (key === null && choice.quantity !== null) refuse(words.unknownQuantity(choice.quantity));
  const variant = known(choice.variant);
  const baseline = known(choice.baseline) ?? names.find((name) => name !== variant) ?? names[0] ?? "";
  return { key, variant: variant === baseline ? null : variant, baseline };
}

/** What is compared: a quantity of one variant with the baseline's. */
export interface ChosenComparison {
  readonly key: QuantityKey;
  readonly variant: string;
  readonly baseline: string;
}

/** The comparison that a choice means; null where there is nothing to compare. Refuses names that the study does not know. */
export function chosenComparison(results: StudyResults, choice: ComparisonChoice): ChosenComparison | null {
  const { key, variant, baseline } = wholeChoice(results, choice);
  if (key === null || results.variants.length < 2) return null;
  return { key, baseline, variant: variant ?? firstOther(results, key, baseline) };
}

/** The first other variant that has the quantity; where none has, the first. */
function firstOther(results: StudyResults, key: QuantityKey, baseline: string): string {
  const others = results.variants.filter(({ variant }) => variant !== baseline);
  const having = others.find(({ quantities }) => quantities.has(keyText(key)));
  return (having ?? others[0])?.variant ?? "";
}

function choices(results: StudyResults): QuantityChoiceView[] {
  const { locale } = results;
  return results.keys
    .filter((key) => results.variants.filter(({ quantities }) => quantities.has(keyText(key))).length >= 2)
    .map((key) => ({
      key: keyText(key),
      label: keyLabel(key, locale),
      unit: quantityEntry(key.quantity, locale).shownUnit,
    }));
}

/**
 * What the Compare screen shows: one variant against a baseline in one quantity, and everything else beside it. Of thousands of runs that
 * takes its time: others have their turn in between.
 */
export async function compareView(
  results: StudyResults,
  asked: ComparisonChoice,
  turn: Pick<Turn, "isOver" | "pause">,
): Promise<ReplyValues["compare.show"]> {
  const words = wordsFor(results.locale).service;
  const choice = wholeChoice(results, asked);
  const quantities = choices(results);
  const nothing = (because: string): { nothing: CompareEmptyView } => ({
    nothing: { because, choices: quantities, choice: asked },
  });
  if (choice.key === null) return nothing(words.noResults);
  if (results.variants.length < 2) return nothing(words.nothingToCompare);
  const { key, baseline } = choice;
  const having = (name: string) =>
    results.variants.find(({ variant }) => variant === name)?.quantities.has(keyText(key)) === true;
  const others = results.variants.map(({ variant }) => variant).filter((name) => name !== baseline);
  const variant = choice.variant ?? firstOther(results, key, baseline);
  const comparison = compareIn(results, key, variant, baseline);
  if (comparison === null) return nothing(words.noResultsOf(keyLabel(key, results.locale)));
  const finding = findingOf(comparison, results.locale);
  const { findings } = wordsFor(results.locale);
  const several = others.filter(having).length;
  return {
    comparison: {
      choice: { quantity: keyText(key), variant, baseline },
      quantities,
      variants: results.variants.map(({ variant, index, all }) =>
        variantView(
          variant,
          index,
          all.map(({ run }) => run),
        ),
      ),
      finding: keepTogether(finding.headline),
      detail: keepTogether(finding.detail),
      tone: finding.tone,
      warnings: [...finding.warnings, ...(several > 1 ? [findings.notAdjusted(several, baseline)] : [])],
      chart: comparisonChart(results, key, baseline),
      chartTable: chartTable(results, key, baseline),
      everything: await everything(results, variant, baseline, turn),
      surer: [
        ...whatMakesItSurer(comparison, results.locale),
        ...adviceTexts(comparison, results.locale),
        intervalsHold(results.study.settings, results.locale),
      ].map(keepTogether),
    },
  };
}

function chartTable(results: StudyResults, key: QuantityKey, baseline: string): CompareView["chartTable"] {
  const { locale } = results;
  const entry = quantityEntry(key.quantity, locale);
  const { report, findings } = wordsFor(locale);
  return results.variants.map(({ variant, quantities }) => {
    const summary = quantities.get(keyText(key));
    const interval = variantMean(results, { variant, key })?.interval ?? null;
    const mean = summary?.mean == null ? null : formatMean(summary.mean, interval, entry, locale);
    const deviation = summary?.standardDeviation ?? null;
    const variation = summary?.coefficientOfVariation ?? null;
    return {
      variant,
      runs: runValues(results, variant, key).map(({ name, value, leftOut }) => ({
        name,
        text: formatValue(value, entry, locale),
        leftOut,
      })),
      mean: mean?.mean ?? report.none,
      interval: mean?.lower == null || mean.upper === null ? report.none : report.range(mean.lower, mean.upper),
      standardDeviation:
        deviation === null
          ? report.none
          : formatMean(deviation, null, { ...entry, decimals: entry.decimals + 1 }, locale).mean,
      coefficientOfVariation:
        variation === null ? report.none : findings.percent(formatFixed(variation * 100, 1, locale)),
      change: changeTextOf(results, key, variant, baseline),
    };
  });
}

async function everything(
  results: StudyResults,
  variant: string,
  baseline: string,
  turn: Pick<Turn, "isOver" | "pause">,
): Promise<CompareView["everything"]> {
  const { locale } = results;
  const compared: Comparison[] = [];
  for (const key of results.keys) {
    const comparison = compareIn(results, key, variant, baseline);
    if (comparison !== null) compared.push(comparison);
    if (turn.isOver) await turn.pause();
  }
  const extent = stripExtent(compared.filter(({ change }) => change.unit === "percent"));
  return compared.map((comparison) => {
    const { key, entry, groups, combined } = comparison;
    const finding = findingOf(comparison, locale);
    const cell = (of: "baseline" | "variant") => {
      const { mean } = groups[of];
      if (mean === null) return wordsFor(locale).report.none;
      return formatMean(mean, meanInterval(groups[of], combined?.[of] ?? null), entry, locale).plusMinus;
    };
    return {
      key: keyText(key),
      label: markedLabel(results, key),
      baseline: cell("baseline"),
      variant: cell("variant"),
      strip: changeStrip(comparison, extent, results),
      verdict: keepTogether(verdictText(finding, entry.direction === "neither")),
      tone: finding.tone,
      formulaOnly: isFormulaOnly(results, key),
    };
  });
}

/** "21 % less: better"; where neither more nor less is better, the change says it all. */
function verdictText({ range, tone, verdict, directed }: Finding, isNeutral: boolean): string {
  if (range === null || tone === "open") return verdict;
  return isNeutral ? directed : `${directed}: ${verdict}`;
}
