import { wordsFor } from "../words/index.ts";
import { mostVariantsInSentences } from "./comparison-sentences.ts";
import type { Shown } from "./shown.ts";
import type { TableAnalysis } from "./table-analysis.ts";

interface Gap {
  readonly what: string;
  readonly because: string;
}

/** What was skipped, and what could not be computed, with the reason. */
export function comparisonNotes(analysis: TableAnalysis, shown: Shown): string[] {
  const words = wordsFor(shown.locale).comparison;
  const { notes, what, reasons } = words;
  const { table, groups, pairs, settings } = analysis;
  const reason = (because: string) => reasons[because as keyof typeof reasons];
  const found: string[] = table.leftOut.map(({ row, reason: why }) => notes.leftOut(row, why));
  if (table.withoutValue.length > 0) found.push(notes.withoutValue(table.withoutValue, table.value));

  if (settings.margin === 0) found.push(notes.marginZero);
  for (const group of groups) {
    const name = group.level;
    if (group.summary.n === 1) found.push(notes.oneRun(name));
    const own = group.summary.n === 1 ? [] : group.gaps;
    for (const [because, gaps] of byReason(own.map((gap) => ({ what: what[gap.what], because: gap.because })))) {
      found.push(notes.group(name, gaps, reason(because)));
    }
    if (group.bootstrapIsExtreme) found.push(notes.bootstrapExtreme(name));
  }

  const pairGaps = pairs.map(({ gaps }) =>
    gaps.flatMap((gap) =>
      gap.because === "margin-not-positive" ? [] : [{ what: what[gap.what], because: gap.because }],
    ),
  );
  found.push(...pairNotes(analysis, pairGaps, shown));
  const ranked = pairs.flatMap(({ baseline, variant, mannWhitney: { p, ties, isExact } }) =>
    p === null ? [] : [{ name: words.pair(variant.level, baseline.level), count: ties, isExact }],
  );
  const tied = ranked.filter(({ count, isExact }) => isExact && count > 0);
  if (tied.length > 0) found.push(notes.ties(tied));
  const approximate = ranked.flatMap(({ name, isExact }) => (isExact ? [] : [name]));
  if (approximate.length > 0) found.push(notes.ranksApproximate(approximate));
  found.push(...smallestPNotes(analysis, shown));
  found.push(...severalNotes(analysis, shown));
  if (pairs.length > 1) found.push(notes.holm(pairs.length));
  const [first] = groups;
  if (groups.length > mostVariantsInSentences && first !== undefined)
    found.push(notes.sentencesForBaseline(first.level));
  return found;
}

/** Where so few runs are compared that the rank test could not tell them apart, whatever they show. */
function smallestPNotes({ pairs, settings }: TableAnalysis, shown: Shown): string[] {
  const words = wordsFor(shown.locale).comparison;
  const limited = pairs.flatMap(({ baseline, variant, mannWhitney: { smallestP } }) =>
    smallestP !== null && smallestP > 1 - settings.confidence ? [{ baseline, variant, smallestP }] : [],
  );
  const runs = ({ baseline, variant }: (typeof limited)[number]) => [variant.summary.n, baseline.summary.n] as const;
  return [...Map.groupBy(limited, (one) => runs(one).join(" "))].map(([, some]) => {
    const [first] = some as [(typeof limited)[number]];
    const names = some.map(({ baseline, variant }) => words.pair(variant.level, baseline.level));
    return words.notes.smallestP(...runs(first), shown.plain(first.smallestP), names);
  });
}

/** Of the analyses of all variants together. */
function severalNotes(analysis: TableAnalysis, shown: Shown): string[] {
  const words = wordsFor(shown.locale).comparison;
  const { notes, what, reasons } = words;
  const { brownForsythe, anova, welchAnova, tukey, gamesHowell, blocked, factors, pairs, drift } = analysis;
  const reason = (because: string) => reasons[because as keyof typeof reasons];
  const found: string[] = [];
  const whole: Gap[] = [
    {
      what: what.brownForsythe,
      because: brownForsythe.because === "no-scatter" ? "distances-alike" : (brownForsythe.because ?? ""),
    },
    { what: what.anova, because: anova.because ?? "" },
    { what: what.welchAnova, because: welchAnova.because ?? "" },
    { what: what.blocked, because: blocked?.because ?? "" },
    { what: what.drift, because: drift?.because ?? "" },
  ];
  for (const [because, missing] of byReason(whole.filter(({ because }) => because !== ""))) {
    found.push(notes.several(missing.join(", no "), reason(because)));
  }
  const pairGaps = pairs.map((_, index) =>
    [
      { what: what.tukey, because: tukey[index]?.because ?? "" },
      { what: what.gamesHowell, because: gamesHowell[index]?.because ?? "" },
      { what: what.blockedPair, because: blocked?.pairs[index]?.because ?? "" },
    ].filter(({ because }) => because !== ""),
  );
  found.push(...pairNotes(analysis, pairGaps, shown));
  if (blocked !== null && blocked.uninformativeBlocks.length > 0) {
    found.push(notes.uninformativeBlocks(blocked.uninformativeBlocks));
  }
  if (factors !== null) {
    const terms = new Map<string, string[]>();
    for (const { term, because } of [...factors.factors, ...factors.factorTests]) {
      if (because !== null && !terms.get(because)?.includes(term))
        terms.set(because, [...(terms.get(because) ?? []), term]);
    }
    for (const [because, names] of terms) found.push(notes.factorTerms(names, reason(because)));
    if (factors.factorTests.some(({ f }) => f !== null)) found.push(notes.factorTests);
  }
  return found;
}

/** What is missing of pairs: those that lack the same for the same reason are named together. */
function pairNotes({ pairs }: TableAnalysis, gapsOf: readonly (readonly Gap[])[], shown: Shown): string[] {
  const words = wordsFor(shown.locale).comparison;
  const missing = pairs.flatMap(({ baseline, variant }, index) =>
    byReason(gapsOf[index] ?? []).map(([because, what]) => ({
      name: words.pair(variant.level, baseline.level),
      what,
      because: words.reasons[because as keyof typeof words.reasons],
    })),
  );
  return [...Map.groupBy(missing, ({ what, because }) => JSON.stringify([what, because])).values()].map((alike) => {
    const [{ what, because }] = alike as [(typeof missing)[number]];
    return words.notes.pair(alike.map(({ name }) => name).join(", "), what, because);
  });
}

/** What is missing, by why. */
function byReason(gaps: readonly Gap[]): [string, string[]][] {
  return [...Map.groupBy(gaps, ({ because }) => because)].map(([because, some]) => [
    because,
    some.map((gap) => gap.what),
  ]);
}
