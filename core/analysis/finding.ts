import { formatFixed, formatSignificant } from "../format/number.ts";
import type { QuantityKey } from "../quantity/quantity-key.ts";
import type { Settings } from "../readings/settings.ts";
import { statesErrors } from "../readings/states-errors.ts";
import { type Locale, type Words, wordsFor } from "../words/index.ts";
import { changeTexts, type ShownUnit } from "./change.ts";
import type { Comparison } from "./comparison.ts";
import { narrowingWith, planningDefaults, runsOutlook } from "./planning.ts";

/** What a comparison says, in words. */
export interface Finding {
  /** sure: the interval does not hold "no change". */
  readonly tone: "sure" | "open";
  /** The finding without its bracket, as a headline. */
  readonly headline: string;
  /** Interval, runs and how likely by chance, in one line. */
  readonly detail: string;
  /** All of it in one or two sentences: direction, size, interval, number of runs, how sure, blocks ignored. */
  readonly sentence: string;
  /** "better", "worse", "cannot tell: between 9 % less and 6 % more". */
  readonly verdict: string;
  /** "21 % less". */
  readonly directed: string;
  readonly range: string | null;
  readonly warnings: readonly string[];
}

/** "95", "90", "99.5": a confidence level in per cent. */
export function levelText(confidence: number, locale: Locale): string {
  const percent = confidence * 100;
  const decimals = [0, 1, 2].find((count) => Math.abs(Number(percent.toFixed(count)) - percent) < 1e-9) ?? 3;
  return formatFixed(percent, decimals, locale);
}

/** Puts a comparison into words. */
export function findingOf(comparison: Comparison, locale: Locale): Finding {
  const { findings } = wordsFor(locale);
  const { change, entry, baseline, variant } = comparison;
  const texts = changeTexts(change, entry, locale);
  const headline = headlineOf(comparison, texts.amount, texts.range, locale);
  const blocks = comparison.blocks >= 2 ? [findings.blocksIgnored] : [];
  const undecided = texts.range !== null && !change.sure;
  const outlook = undecided ? outlookSentences(comparison, locale) : [];
  return {
    tone: change.sure ? "sure" : "open",
    headline: `${headline}.`,
    detail: detailOf(comparison, texts.range, locale),
    sentence: [`${headline} (${bracketOf(comparison, texts.range, locale)}).`, ...outlook, ...blocks].join(" "),
    verdict: verdictOf(comparison, texts.range, locale),
    directed: texts.directed,
    range: texts.range,
    warnings: [...warningsOf(comparison, baseline, variant, locale), ...blocks],
  };
}

function headlineOf(comparison: Comparison, amount: string, range: string | null, locale: Locale): string {
  return headlineWith(comparison, phraseOf(comparison.key, locale), amount, range, locale);
}

/** What a variant did, by whether it is less, with the amount: "used 21 % less wood for 5 litres". */
export type Phrase = (isLess: boolean, amount: string) => string;

/** The phrase of a quantity, in its phase. */
export function phraseOf(key: QuantityKey, locale: Locale): Phrase {
  const { quantities } = wordsFor(locale);
  const { less, more } = quantities.of[key.quantity];
  return (isLess, amount) => {
    const phrase = isLess ? less(amount) : more(amount);
    return key.phase === null ? phrase : quantities.inPhase(phrase, key.phase);
  };
}

/** A finding without its bracket and its full stop. */
export function headlineWith(
  { change, variant, baseline, label }: Pick<Comparison, "change" | "variant" | "baseline" | "label">,
  phrase: Phrase,
  amount: string,
  range: string | null,
  locale: Locale,
): string {
  const { findings } = wordsFor(locale);
  if (range !== null && !change.sure) return findings.cannotTell(variant, baseline, label, range);
  if (change.value === 0) return findings.equal(variant, baseline, label);
  const said = phrase(change.value < 0, amount);
  return range === null ? findings.differsUnsure(variant, said, baseline) : findings.differs(variant, said, baseline);
}

function bracketOf(comparison: Comparison, range: string | null, locale: Locale): string {
  const { findings } = wordsFor(locale);
  const { runs } = comparison.welch;
  if (range === null) return findings.bracketNoInterval(runs.variant, runs.baseline, whyNoInterval(comparison, locale));
  const level = levelText(comparison.confidence, locale);
  return comparison.change.sure
    ? findings.bracket(level, range, runs.variant, runs.baseline, holdsErrors(comparison))
    : findings.bracketOpen(level, runs.variant, runs.baseline, holdsErrors(comparison));
}

/** True where stated errors of instruments or values are in a comparison's interval: some of them reach this quantity. */
export function holdsErrors({ combined }: Comparison): boolean {
  return combined !== null && (combined.baseline.sharedUncertainty > 0 || combined.variant.sharedUncertainty > 0);
}

/** What the intervals of a study hold, in one or two sentences. */
export function intervalsHold(settings: Settings, locale: Locale): string {
  const { findings } = wordsFor(locale);
  return statesErrors(settings) ? findings.sharedErrorsIncluded : findings.sharedErrors;
}

/** Why a comparison has no interval, in words. */
export function whyNoInterval({ welch }: Comparison, locale: Locale): string {
  const { findings } = wordsFor(locale);
  return welch.because === "no-scatter" ? findings.noScatter : findings.oneRun;
}

function detailOf(comparison: Comparison, range: string | null, locale: Locale): string {
  const { findings } = wordsFor(locale);
  const { runs, p } = comparison.welch;
  if (range === null) return findings.detailNoInterval(runs.variant, runs.baseline, whyNoInterval(comparison, locale));
  const level = levelText(comparison.confidence, locale);
  const head = comparison.change.sure
    ? findings.detail(level, range, runs.variant, runs.baseline, holdsErrors(comparison))
    : findings.detailOpen(level, runs.variant, runs.baseline, holdsErrors(comparison));
  return p === null ? head : `${head} · ${chanceText(p, locale)}`;
}

/** How often chance alone would do it. */
type ChanceWords = Pick<Words["findings"], "byChanceRarely" | "byChanceOften" | "byChanceOnceIn">;

/** A p-value as a number of tests, rounded to the cautious side; of two variants, unless other words are given. */
export function chanceText(p: number, locale: Locale, words: ChanceWords = wordsFor(locale).findings): string {
  if (p < 0.001) return words.byChanceRarely(formatFixed(1000, 0, locale));
  if (p >= 0.1) return words.byChanceOften(formatFixed(Math.ceil(p * 100), 0, locale));
  const tests = 1 / p;
  const step = tests >= 100 ? 50 : tests >= 20 ? 5 : 1;
  return words.byChanceOnceIn(formatFixed(Math.floor(tests / step) * step, 0, locale));
}

function verdictOf({ change, entry }: Comparison, range: string | null, locale: Locale): string {
  const { findings } = wordsFor(locale);
  if (range === null) return findings.noIntervalVerdict;
  if (!change.sure) return findings.cannotTellVerdict(range);
  if (entry.direction === "neither") return change.value < 0 ? findings.lowerVerdict : findings.higherVerdict;
  return change.value < 0 === (entry.direction === "less") ? findings.better : findings.worse;
}

function warningsOf(comparison: Comparison, baseline: string, variant: string, locale: Locale): string[] {
  const { findings } = wordsFor(locale);
  const { welch, ratio, change, entry, groups } = comparison;
  const few = [
    { name: variant, count: groups.variant.n },
    { name: baseline, count: groups.baseline.n },
  ].flatMap(({ name, count }) => {
    if (count === 1) return [findings.oneRunOf(name)];
    return count < 3 ? [findings.fewRuns(name, count)] : [];
  });
  const unbounded = change.unit === "own" && entry.shownUnit !== "%" && welch.interval !== null;
  // Where the ratio has limits all the same, it is the variant's mean that may be zero or less.
  const nearZero = ratio.set === "bounded" ? variant : baseline;
  const { decidedBy } = comparison;
  const wasSure = welch.interval !== null && (welch.interval.lower > 0 || welch.interval.upper < 0);
  // Where errors in common have made it unsure, no run decides.
  const decides = decidedBy !== null && wasSure === change.sure;
  const decisive = decides ? [findings.decidedByOneRun(decidedBy, { variant, baseline }, change.sure)] : [];
  return [...few, ...decisive, ...(unbounded ? [findings.ratioUnbounded(nearZero)] : [])];
}

/** What a sentence about more runs needs. */
export interface OutlookBasis extends Pick<Comparison, "change" | "confidence" | "groups"> {
  readonly entry: ShownUnit;
}

/**
 * The difference worth showing, a tenth of the baseline's mean, in the unit of the finding: "10 %" beside percentage points
 * could be taken for ten of these.
 */
function detectableText({ change, entry, groups }: OutlookBasis, locale: Locale): string {
  const { findings } = wordsFor(locale);
  const share = planningDefaults.detectableShare;
  if (change.unit === "percent" || groups.baseline.mean === null) {
    return findings.percent(formatFixed(share * 100, 0, locale));
  }
  const amount = formatSignificant(groups.baseline.mean * entry.shownFactor * share, 2, locale);
  if (change.unit === "percentagePoints") return findings.percentagePoints(amount);
  return entry.shownUnit === "" ? amount : findings.inUnit(amount, entry.shownUnit);
}

/** The runs that would show a difference worth showing, as one sentence; none where the scatter is not known. */
export function outlookSentences(comparison: OutlookBasis, locale: Locale): string[] {
  const { findings } = wordsFor(locale);
  const percent = Math.round(planningDefaults.power * 100);
  const amount = detectableText(comparison, locale);
  const outlook = runsOutlook(comparison);
  switch (outlook?.kind) {
    case undefined:
      return [];
    case "enough":
      return [findings.enoughRuns(percent, amount)];
    case "tooMany":
      return [findings.tooManyRuns(planningDefaults.mostRuns, amount)];
    case "more":
      return [
        outlook.furtherOfEach === null
          ? findings.withRunsOfEach(outlook.runsOfEach, percent, amount)
          : findings.withMoreRuns(outlook.furtherOfEach, percent, amount),
      ];
  }
}

/** What would make it surer: a narrower interval with a few more runs, and the runs that show a difference worth showing. */
export function whatMakesItSurer(comparison: Comparison, locale: Locale): string[] {
  const { findings } = wordsFor(locale);
  const { change, welch, entry } = comparison;
  if (welch.because === "one-value") return [findings.needsRuns];
  const narrowing = narrowingWith(comparison, planningDefaults.furtherRuns);
  const outlook = outlookSentences(comparison, locale);
  if (narrowing === null || change.lower === null || change.upper === null) return outlook;
  const half = (change.upper - change.lower) / 2;
  const width = (value: number) => changeTexts({ ...change, value, lower: null, upper: null }, entry, locale).amount;
  return [findings.narrower(planningDefaults.furtherRuns, width(half), width(half * narrowing)), ...outlook];
}
