import { FEWEST_RELIABLE_VALUES } from "../statistics/bootstrap-bca.ts";
import { wordsFor } from "../words/index.ts";
import type { Lead } from "./design.ts";
import type { GroupAnalysis } from "./group-analysis.ts";
import { influenceWarnings } from "./influence-warnings.ts";
import type { Shown } from "./shown.ts";
import type { TableAnalysis } from "./table-analysis.ts";

/** A p below this is worth a warning. Warnings never change which analysis leads. */
const warningLevel = 0.05;

/** What weakens a comparison: of each variant, of all, of the order and the blocks, of ratios. */
export function comparisonWarnings(analysis: TableAnalysis, leads: Lead, shown: Shown): string[] {
  const { comparison } = wordsFor(shown.locale);
  const words = comparison.warnings;
  const { groups, pairs, design, table, drift, factorList } = analysis;
  const found: string[] = [...similarLevels(analysis, shown)];
  for (const group of groups) found.push(...groupWarnings(group, shown));
  const fewResampled = groups.filter(
    ({ entry, summary: { n } }) => entry.bootstrap !== null && n < FEWEST_RELIABLE_VALUES,
  );
  if (fewResampled.length > 0) {
    const levels = fewResampled.map(({ level }) => level);
    found.push(words.fewForBootstrap(levels, FEWEST_RELIABLE_VALUES));
  }
  found.push(...spreadWarning(analysis, shown));
  if (drift !== null && drift.slope !== null && drift.p !== null && drift.p < warningLevel) {
    found.push(words.drift(drift.slope > 0, shown.size(Math.abs(drift.slope), 2), shown.p(drift.p)));
  }
  found.push(...influenceWarnings(analysis, leads, shown));
  if (table.blocksIgnored >= 2) found.push(words.blocksIgnored(table.blocksIgnored));
  if (design.hasBlocks && leads !== "blocked" && groups.length >= 2) found.push(words.blocksApart);
  if (design.hasBlocks && factorList.length > 0) found.push(words.factorsIgnoreBlocks);
  for (const { name, levels } of factorList) if (levels.length < 2) found.push(words.oneLevel(name));
  for (const { term, confoundedWith, effect } of analysis.factors?.factors ?? []) {
    if (confoundedWith.length > 0 && effect !== null) found.push(words.confounded(term, confoundedWith));
  }
  for (const { baseline, variant, ratio } of pairs) {
    const name = comparison.pair(variant.level, baseline.level);
    if (ratio.set === "complement" && ratio.excluded !== null) {
      const { lower, upper } = ratio.excluded;
      found.push(words.unboundedRatio(name, shown.plain(lower), shown.plain(upper)));
    } else if (ratio.set === "whole-line") found.push(words.anyRatio(name));
    else if (ratio.set === "half-line") found.push(words.oneSidedRatio(name));
  }
  if (pairs.length > 1) found.push(words.unadjusted(pairs.length));
  return found;
}

function groupWarnings(group: GroupAnalysis, shown: Shown): string[] {
  const { comparison, findings } = wordsFor(shown.locale);
  const words = comparison.warnings;
  const { level, rows, entry, summary } = group;
  const { n, because } = summary;
  const { grubbs, shapiroWilk } = entry;
  const found: string[] = [];
  if (n === 1) found.push(findings.oneRunOf(level));
  else if (n < 3) found.push(findings.fewRuns(level, n));
  if (because === "no-scatter") found.push(words.noVariation(level));
  if (grubbs !== null) {
    const value = shown.value(rows.find(({ row }) => row === grubbs.suspectRow)?.value ?? 0);
    if (grubbs.p === null) found.push(words.suspectAlone(level, grubbs.suspectRow, value));
    else if (grubbs.p < warningLevel) found.push(words.suspect(level, grubbs.suspectRow, value, shown.p(grubbs.p)));
  }
  if (shapiroWilk?.p != null && shapiroWilk.p < warningLevel)
    found.push(words.notNormal(level, shown.p(shapiroWilk.p)));
  return found;
}

function spreadWarning({ brownForsythe, groups }: TableAnalysis, shown: Shown): string[] {
  const words = wordsFor(shown.locale).comparison.warnings;
  if (brownForsythe.p === null || brownForsythe.p >= warningLevel) return [];
  const deviations = groups.flatMap(({ level, summary: { standardDeviation } }) =>
    standardDeviation === null ? [] : [{ level, standardDeviation }],
  );
  deviations.sort((one, other) => one.standardDeviation - other.standardDeviation);
  const [least, most] = [deviations[0], deviations.at(-1)];
  if (least === undefined || most === undefined) return [];
  const write = (value: number) => shown.value(value, 2);
  return [
    words.unequalSpread(
      shown.p(brownForsythe.p),
      most.level,
      write(most.standardDeviation),
      least.level,
      write(least.standardDeviation),
    ),
  ];
}

/** Variants whose names differ in capitals and blanks alone. */
function similarLevels({ groups }: TableAnalysis, shown: Shown): string[] {
  const words = wordsFor(shown.locale).comparison.warnings;
  const plain = (level: string) => level.normalize("NFKC").toLowerCase().replaceAll(/[\s_]/g, "");
  const alike = Map.groupBy(groups, ({ level }) => plain(level));
  return [...alike.values()].flatMap(([first, ...others]) =>
    others.map(({ level }) => words.similarLevels(first?.level ?? "", level)),
  );
}
