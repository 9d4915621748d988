import { changeTexts } from "../analysis/change.ts";
import {
  type Estimate,
  type Influence,
  type InfluentialRun,
  influenceOnContrasts,
  influenceOnPairs,
} from "../statistics/influential-run.ts";
import { wordsFor } from "../words/index.ts";
import type { ComparedRow } from "./compared-table.ts";
import { isTold } from "./comparison-sentences.ts";
import type { Lead } from "./design.ts";
import type { Shown } from "./shown.ts";
import type { TableAnalysis } from "./table-analysis.ts";

/** Of which difference a single run decides, with the rows of the runs that it is about. */
interface Decided {
  readonly what: string;
  readonly isTold: boolean;
  readonly influence: Influence;
  rowOf(run: InfluentialRun): ComparedRow;
}

/**
 * Differences of the leading analysis whose verdict hangs on one run: each with the row, the size with it and without. With more variants than
 * have sentences for all pairs, those of other pairs than the baseline's are named together.
 */
export function influenceWarnings(analysis: TableAnalysis, leads: Lead, shown: Shown): string[] {
  const words = wordsFor(shown.locale).comparison.warnings;
  const decided = decidedBy(analysis, leads, shown);
  const others = decided.filter((one) => !one.isTold);
  const elsewhere = others.flatMap(({ what, influence, rowOf }) => {
    const [run] = influence.runs;
    return run === undefined ? [] : [{ name: what, row: rowOf(run).row }];
  });
  return [
    ...decided.flatMap((one) => (one.isTold ? warningOf(one, shown) : [])),
    ...(elsewhere.length === 0 ? [] : [words.influentialElsewhere(elsewhere)]),
  ];
}

function decidedBy(analysis: TableAnalysis, leads: Lead, shown: Shown): Decided[] {
  const words = wordsFor(shown.locale).comparison;
  const { table, groups, pairs, settings, blocked, factors } = analysis;
  const { confidence } = settings;
  const inTable = ({ place }: InfluentialRun) => table.rows[place] as ComparedRow;
  if (leads === "factors") {
    if (factors?.fit == null) return [];
    const contrasts = factors.factors.map(({ contrast }) => contrast);
    const influences = influenceOnContrasts(factors.fit, contrasts, confidence);
    return factors.factors.flatMap(({ term, level, baseline }, index) => {
      const influence = influences[index] ?? null;
      const what = level === null || baseline === null ? words.label(term) : words.levels(term, level, baseline);
      return influence === null ? [] : [{ what, isTold: true, influence, rowOf: inTable }];
    });
  }
  const isBlocked = leads === "blocked";
  if (leads === null || (isBlocked && blocked?.fit == null)) return [];
  const influences =
    isBlocked && blocked?.fit != null
      ? influenceOnContrasts(
          blocked.fit,
          blocked.pairs.map(({ contrast }) => contrast),
          confidence,
        )
      : influenceOnPairs(
          groups.map(({ values }) => values),
          confidence,
        );
  return pairs.flatMap((pair, index) => {
    const influence = influences[index] ?? null;
    if (influence === null) return [];
    const rowOf = isBlocked
      ? inTable
      : ({ group, place }: InfluentialRun) => [pair.baseline, pair.variant][group]?.rows[place] as ComparedRow;
    const what = words.pair(pair.variant.level, pair.baseline.level);
    return [{ what, isTold: isTold(analysis, pair), influence, rowOf }];
  });
}

function warningOf({ what, influence, rowOf }: Decided, shown: Shown): string[] {
  const words = wordsFor(shown.locale).comparison.warnings;
  const [first, ...others] = influence.runs;
  if (first === undefined) return [];
  const text = (estimate: Estimate) => {
    const { directed, range } = changeTexts(shown.change(estimate), shown.entry, shown.locale);
    return words.withInterval(directed, shown.level, range ?? "");
  };
  const { row, level, value } = rowOf(first);
  return [
    words.influential({
      what,
      all: text(influence.all),
      without: text(first.without),
      row,
      level,
      value: shown.value(value),
      wasSure: influence.all.lower > 0 || influence.all.upper < 0,
      alsoRows: others.map((run) => rowOf(run).row).sort((one, other) => one - other),
    }),
  ];
}
