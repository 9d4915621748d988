import type { Comparison } from "../analysis/comparison.ts";
import { chanceText, findingOf, holdsErrors, levelText, whatMakesItSurer, whyNoInterval } from "../analysis/finding.ts";
import { compareIn, type StudyResults, variantMean } from "../analysis/study-results.ts";
import { formatMean, formatValueWithUnit } from "../format/quantity.ts";
import { keyLabel, keyText, type QuantityKey } from "../quantity/quantity-key.ts";
import { quantityEntry } from "../quantity/quantity-table.ts";
import { wordsFor } from "../words/index.ts";
import type { ReportChoice } from "./report-request.ts";

/** The finding on page one. */
export interface Headline {
  readonly question: string;
  readonly finding: string;
  readonly lead: readonly string[];
  readonly warnings: readonly string[];
}

/** Puts the chosen comparison, or all variants against the baseline, into a question, a sentence and a short lead. */
export function headlineOf(results: StudyResults, choice: ReportChoice): Headline {
  const { key, baseline } = choice;
  const words = wordsFor(results.locale).report;
  if (key === null) {
    return { question: words.kind, ...nothingFound(results) };
  }
  const others = results.variants.map(({ variant }) => variant).filter((variant) => variant !== baseline);
  const wanted = choice.variant === null ? others : [choice.variant];
  const comparisons = wanted
    .map((variant) => compareIn(results, key, variant, baseline))
    .filter((comparison) => comparison !== null);
  const [only] = comparisons;
  if (only === undefined) return singleVariant(results, key, baseline);
  return comparisons.length === 1 ? pair(results, key, only) : several(results, key, baseline, comparisons);
}

function pair(results: StudyResults, key: QuantityKey, comparison: Comparison): Headline {
  const words = wordsFor(results.locale).report;
  const finding = findingOf(comparison, results.locale);
  const undecided = finding.tone === "open" && finding.range !== null;
  return {
    question: words.questionPair(keyLabel(key, results.locale), comparison.variant, comparison.baseline),
    finding: finding.headline,
    lead: [
      leadOf(comparison, finding.range, results),
      ...(undecided ? whatMakesItSurer(comparison, results.locale).slice(-1) : []),
    ],
    warnings: finding.warnings,
  };
}

/** Interval, runs and how likely by chance, in one or two sentences. */
function leadOf(comparison: Comparison, range: string | null, { locale }: StudyResults): string {
  const words = wordsFor(locale).report;
  const { runs, p } = comparison.welch;
  if (range === null) {
    return words.pairLeadNoInterval(runs.variant, runs.baseline, whyNoInterval(comparison, locale));
  }
  const level = levelText(comparison.confidence, locale);
  const interval = comparison.change.sure
    ? words.pairLead(level, range, runs.variant, runs.baseline, holdsErrors(comparison))
    : words.pairLeadOpen(level, runs.variant, runs.baseline, holdsErrors(comparison));
  return p === null ? interval : `${interval} ${capitalised(chanceText(p, locale))}.`;
}

/** What is said where there is nothing to average, and why. */
function nothingFound(results: StudyResults): Omit<Headline, "question"> {
  const words = wordsFor(results.locale).report;
  return results.runs.every(({ run }) => run.leftOut !== null)
    ? { finding: words.noRunsCount, lead: [words.noRunsCountLead], warnings: [] }
    : { finding: words.nothing, lead: [words.nothingLead], warnings: [] };
}

function several(
  results: StudyResults,
  key: QuantityKey,
  baseline: string,
  comparisons: readonly Comparison[],
): Headline {
  const { report: words, findings, quantities } = wordsFor(results.locale);
  const label = keyLabel(key, results.locale);
  const sure = comparisons.filter(({ change }) => change.sure);
  const lower = sure.filter(({ change }) => change.value < 0).length;
  const higher = sure.length - lower;
  const open = comparisons.length - sure.length;
  const count = comparisons.length;
  const { less, more } = quantities.of[key.quantity];
  const phrase = (one: string) => (key.phase === null ? one : quantities.inPhase(one, key.phase));
  const parts = [
    { count: lower, phrase: phrase(less(null)) },
    { count: higher, phrase: phrase(more(null)) },
  ].filter((part) => part.count > 0);
  const [only] = parts;
  const finding =
    only === undefined
      ? words.severalNone(count, label, baseline)
      : only.count === count
        ? words.severalAll(count, only.phrase, baseline)
        : words.severalMixed(count, baseline, parts, open);
  const found = comparisons.map((comparison) => findingOf(comparison, results.locale));
  const items = comparisons.map((comparison, index) => {
    const { range, directed } = found[index] as (typeof found)[number];
    const name = comparison.variant;
    if (range === null) return findings.severalNoInterval(name, directed);
    return comparison.change.sure
      ? findings.severalItem(name, range, directed)
      : findings.severalCannotTell(name, range);
  });
  const level = levelText(results.study.settings.confidence, results.locale);
  return {
    question: words.questionSeveral(label, baseline),
    finding,
    lead: [words.severalLead(findings.listJoin(items), level)],
    warnings: [...new Set([...found.flatMap(({ warnings }) => warnings), findings.notAdjusted(count, baseline)])],
  };
}

function singleVariant(results: StudyResults, key: QuantityKey, baseline: string): Headline {
  const { locale } = results;
  const { report: words } = wordsFor(locale);
  const entry = quantityEntry(key.quantity, locale);
  const label = keyLabel(key, locale);
  const question = words.questionOne(label);
  const having = results.variants.find(({ quantities }) => quantities.has(keyText(key)));
  const shown = results.variants.find(({ variant }) => variant === baseline)?.quantities.has(keyText(key))
    ? results.variants.find(({ variant }) => variant === baseline)
    : having;
  const summary = shown?.quantities.get(keyText(key));
  if (shown === undefined || summary?.mean == null) {
    return { question, ...nothingFound(results) };
  }
  const interval = variantMean(results, { variant: shown.variant, key })?.interval ?? null;
  const texts = formatMean(summary.mean, interval, entry, locale);
  const value = texts.half === null ? formatValueWithUnit(summary.mean, entry, locale) : withUnit(texts.mean);
  const lead =
    texts.lower === null || texts.upper === null
      ? words.oneVariantNoInterval(summary.n)
      : words.oneVariantInterval(
          levelText(results.study.settings.confidence, locale),
          words.range(texts.lower, withUnit(texts.upper)),
          summary.n,
        );
  return { question, finding: words.oneVariant(shown.variant, label, value), lead: [lead], warnings: [] };

  function withUnit(text: string): string {
    return entry.shownUnit === "" ? text : wordsFor(locale).findings.inUnit(text, entry.shownUnit);
  }
}

function capitalised(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
