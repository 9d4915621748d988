import { type Change, changeOf, changeTexts } from "../analysis/change.ts";
import { chanceText, headlineWith, outlookSentences } from "../analysis/finding.ts";
import { formatFixed, formatSignificant } from "../format/number.ts";
import { type Factor, interactionName } from "../statistics/factor-terms.ts";
import { allPairs } from "../statistics/pair-comparison.ts";
import { type Words, wordsFor } from "../words/index.ts";
import type { Lead } from "./design.ts";
import type { PairAnalysis } from "./pair-analysis.ts";
import type { Shown } from "./shown.ts";
import type { TableAnalysis } from "./table-analysis.ts";

/** With more variants than this, sentences are given for the pairs with the baseline alone. */
export const mostVariantsInSentences = 5;

/** Between which levels or combinations an effect is told. */
type FactorEnds = Parameters<Words["comparison"]["effect"]>[4];

/** A pair's leading result: what is said of it. */
interface Leading {
  readonly change: Change | null;
  readonly p: number | null;
  /** Which kind of interval it is; null where it is the usual one of two groups. */
  readonly kind: string | null;
  readonly because: string | null;
}

/** All that a comparison says, in sentences: each variant, all together, factors, each pair with what it cannot tell. */
export function comparisonSentences(analysis: TableAnalysis, leads: Lead, shown: Shown): string[] {
  const told = analysis.pairs.flatMap((pair, index) => (isTold(analysis, pair) ? [{ pair, index }] : []));
  return [
    ...analysis.groups.map((_, index) => groupSentence(analysis, index, shown)),
    ...togetherSentence(analysis, leads, shown),
    ...factorSentences(analysis, shown),
    ...told.flatMap(({ pair, index }) => [
      pairSentence(pair, leadingOf(analysis, leads, index, shown), shown, analysis),
      ...besideSentence(pair, shown),
      ...equivalenceSentence(pair, shown),
    ]),
  ];
}

/** Whether a pair has sentences of its own. */
export function isTold({ groups }: TableAnalysis, { baseline }: PairAnalysis): boolean {
  return baseline === groups[0] || groups.length <= mostVariantsInSentences;
}

function groupSentence({ groups }: TableAnalysis, index: number, shown: Shown): string {
  const { comparison: words, findings } = wordsFor(shown.locale);
  const group = groups[index] as TableAnalysis["groups"][number];
  const { n, mean, interval, because } = group.summary;
  if (mean !== null && interval !== null) {
    const text = shown.mean(mean, interval.lower, interval.upper);
    return words.group(group.level, shown.label, text.mean, shown.level, text.range, n);
  }
  const why = because === "no-scatter" ? findings.noScatter : findings.oneRun;
  return words.groupAlone(group.level, shown.label, shown.value(mean ?? 0), n, why);
}

/** Whether the variants differ at all, where there are more than two. */
function togetherSentence(analysis: TableAnalysis, leads: Lead, shown: Shown): string[] {
  const words = wordsFor(shown.locale).comparison;
  const count = analysis.groups.length;
  if (count < 3) return [];
  const { blocked, welchAnova } = analysis;
  const isBlocked = leads === "blocked" && blocked !== null;
  const test = isBlocked ? { ...blocked, f: blocked.variantF } : welchAnova;
  const method = isBlocked ? words.blockedAnalysis : words.welchAnova;
  const { f, df1, df2, p, because } = test;
  if (f === null || df1 === null || df2 === null || p === null) {
    return [words.togetherUnknown(count, method, words.reasons[because ?? "too-large"])];
  }
  const degrees = formatFixed(df2, Number.isInteger(df2) ? 0 : 1, shown.locale);
  return [
    words.together(count, chanceText(p, shown.locale, words.chanceOfAll), method, shown.plain(f), String(df1), degrees),
  ];
}

/** The result that leads for a pair. */
function leadingOf(analysis: TableAnalysis, leads: Lead, index: number, shown: Shown): Leading {
  const words = wordsFor(shown.locale).comparison;
  const pair = analysis.pairs[index] as PairAnalysis;
  const several = analysis.groups.length > 2;
  const of = leads === "blocked" ? analysis.blocked?.pairs[index] : several ? analysis.gamesHowell[index] : undefined;
  if (of === undefined) {
    const { welch, ratio, baseline, variant } = pair;
    const change = changeOf(welch, ratio, shown.entry, [baseline.summary.mean, variant.summary.mean]);
    return { change, p: welch.p, kind: null, because: welch.because };
  }
  const { difference, lower, upper, p, because } = of;
  const kind = leads === "blocked" ? words.withinBlocks : words.forAllPairs(allPairs(analysis.groups.length).length);
  const change = difference === null ? null : shown.change({ value: difference, lower, upper });
  return { change, p, kind, because };
}

function pairSentence(
  pair: PairAnalysis,
  leading: Leading,
  shown: Shown,
  { settings, blocked }: TableAnalysis,
): string {
  const { comparison: words, findings } = wordsFor(shown.locale);
  const { change, p, kind, because } = leading;
  const [baseline, variant] = [pair.baseline, pair.variant];
  const reason = words.reasons[(because ?? "too-large") as keyof typeof words.reasons];
  if (change === null)
    return `${words.notes.pair(words.pair(variant.level, baseline.level), [words.what.blockedPair], reason)}.`;
  const { amount, range } = changeTexts(change, shown.entry, shown.locale);
  const mean = baseline.summary.mean ?? 0;
  const own = change.value / shown.entry.shownFactor;
  const withShare =
    change.unit === "own" && mean > 0 && change.sure
      ? words.withShare(amount, formatSignificant(Math.abs((own / mean) * 100), 2, shown.locale))
      : amount;
  const whyNone = because === "one-value" ? findings.oneRun : because === "no-scatter" ? findings.noScatter : reason;
  const named = { change, variant: variant.level, baseline: baseline.level, label: shown.label };
  const headline = headlineWith(named, shown.phrase, withShare, range, shown.locale);
  const bracket = words.bracket([
    ...(range === null ? [] : [words.interval(shown.level, change.sure ? range : null)]),
    words.runsOf(variant.summary.n, baseline.summary.n),
    ...(range === null ? [whyNone] : kind === null ? [] : [kind]),
    ...(range === null || p === null ? [] : [chanceText(p, shown.locale)]),
  ]);
  // Within blocks runs scatter as the residual does.
  const residualDeviation = leading.kind === words.withinBlocks ? (blocked?.residualDeviation ?? null) : null;
  const scattering = (summary: typeof baseline.summary) =>
    residualDeviation === null ? summary : { ...summary, standardDeviation: residualDeviation };
  const groups = { baseline: scattering(baseline.summary), variant: scattering(variant.summary) };
  const basis = { change, entry: shown.entry, groups, confidence: settings.confidence };
  const outlook =
    range !== null && !change.sure
      ? outlookSentences(basis, shown.locale)
      : because === "one-value"
        ? [findings.needsRuns]
        : [];
  return [`${headline} (${bracket}).`, ...outlook].join(" ");
}

/** Ratio, size in scatters of single runs, and ranks: what they say beside the leading result. */
function besideSentence({ baseline, variant, entry }: PairAnalysis, shown: Shown): string[] {
  const words = wordsFor(shown.locale).comparison;
  const { ratio, hedgesG, mannWhitney } = entry(null);
  const { fieller, logWelch } = ratio;
  const limits = ({ lower, upper }: { readonly lower: number | null; readonly upper: number | null }) =>
    lower === null || upper === null ? null : words.interval(shown.level, shown.limits(lower, upper));
  const [geometric, size] = [limits(logWelch), limits(hedgesG)];
  const parts = [
    ...(ratio.value === null ? [] : [words.ratioMeasure(shown.plain(ratio.value), limits(fieller))]),
    ...(logWelch.value === null || geometric === null
      ? []
      : [words.geometricMeasure(shown.plain(logWelch.value), geometric)]),
    ...(hedgesG.value === null || size === null ? [] : [words.sizeMeasure(shown.plain(hedgesG.value), size)]),
    ...(mannWhitney.p === null ? [] : [words.ranksMeasure(shown.p(mannWhitney.p))]),
  ];
  return parts.length === 0 ? [] : [words.beside(words.pair(variant.level, baseline.level), parts)];
}

function equivalenceSentence({ baseline, variant, equivalence }: PairAnalysis, shown: Shown): string[] {
  const words = wordsFor(shown.locale).comparison;
  if (equivalence === null || equivalence.equivalent === null) return [];
  const say = equivalence.equivalent ? words.equivalent : words.notEquivalent;
  return [say(words.pair(variant.level, baseline.level), shown.size(equivalence.margin, 3), shown.level)];
}

function factorSentences({ factors, factorList, table }: TableAnalysis, shown: Shown): string[] {
  const words = wordsFor(shown.locale).comparison;
  if (factors === null) return [];
  const othersThan = (isInteraction: boolean) => factorList.length > (isInteraction ? 2 : 1);
  return factors.factors.flatMap((one) => {
    const { term, level, baseline, effect, lower, upper, p, because } = one;
    if (effect === null) return [];
    const ends = level === null || baseline === null ? combinationsOf(term, factorList) : { from: baseline, to: level };
    if (ends === null) return [];
    const change = shown.change({ value: effect, lower, upper });
    const { amount, range } = changeTexts(change, shown.entry, shown.locale);
    const isLess = change.value < 0;
    if (range === null) {
      const reason = words.reasons[because ?? "too-large"];
      return [words.effectUnsure(term, amount, isLess, shown.label, ends, reason)];
    }
    const bracket = words.bracket([
      words.interval(shown.level, change.sure ? range : null),
      wordsFor(shown.locale).findings.runs(table.rows.length),
      ...(othersThan(level === null) ? [words.othersAtEqualWeight] : []),
      ...(p === null ? [] : [shown.p(p)]),
    ]);
    return [
      change.sure
        ? words.effect(term, amount, isLess, shown.label, ends, bracket)
        : words.effectOpen(term, range, shown.label, ends, bracket),
    ];
  });
}

/** The combinations that an interaction of two factors with two levels each holds against each other; null of any other term. */
function combinationsOf(term: string, factorList: readonly Factor[]): FactorEnds | null {
  for (const [place, { name, levels }] of factorList.entries()) {
    for (const other of factorList.slice(place + 1)) {
      const [[first, second], [otherFirst, otherSecond]] = [levels, other.levels];
      if (term !== interactionName(name, other.name) || second === undefined || otherSecond === undefined) continue;
      if (first === undefined || otherFirst === undefined) continue;
      return {
        alike: [
          [first, otherFirst],
          [second, otherSecond],
        ],
        mixed: [
          [first, otherSecond],
          [second, otherFirst],
        ],
      };
    }
  }
  return null;
}
