import { resultOf } from "../analysis/run-results.ts";
import type { StudyResults } from "../analysis/study-results.ts";
import type { QuantityKey } from "../quantity/quantity-key.ts";
import { blockedAnalysis } from "../statistics/blocked.ts";
import { gamesHowell } from "../statistics/games-howell.ts";

/** A difference from the baseline by an analysis that takes blocks out, or makes intervals hold for all pairs together. */
export interface AdjustedDifference {
  readonly difference: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  readonly p: number | null;
}

/** What stands beside the Welch comparison of a variant with the baseline. */
export interface BesideWelch {
  readonly blocked?: AdjustedDifference;
  readonly gamesHowell?: AdjustedDifference;
}

/** Most variants that are compared together, and most work for blocks (runs times columns squared): a handful of runs, many times over. */
const mostVariants = 20;
const mostWork = 100_000;

/**
 * One quantity of a study by the analyses that lead where its design says so: within blocks where every run that counts has one and two
 * blocks or more hold two variants, Games and Howell's where there are three variants or more. By variant; what is not given has no
 * place in the design, or is beyond the size for which it is meant.
 */
export function besideWelch(
  results: StudyResults,
  key: QuantityKey,
  baseline: string,
): ReadonlyMap<string, BesideWelch> {
  const rows = results.runs.flatMap((one) => {
    const value = one.run.leftOut === null ? resultOf(one, key) : undefined;
    return value === undefined ? [] : [{ value, level: one.run.variant, block: one.run.block }];
  });
  const seen = new Set(rows.map(({ level }) => level));
  if (!seen.has(baseline) || seen.size < 2) return new Map();
  const levels = [baseline, ...[...seen].filter((level) => level !== baseline)];
  const { confidence } = results.study.settings;
  const blocked = inBlocks(rows, levels, confidence);
  const several =
    levels.length >= 3 && levels.length <= mostVariants
      ? gamesHowell(
          levels.map((level) => rows.flatMap((row) => (row.level === level ? [row.value] : []))),
          confidence,
        )
      : [];
  return new Map(
    levels.slice(1).map((level, index) => {
      // Pairs with the first level come first, in the order of the others.
      const [within, together] = [blocked[index], several[index]];
      return [level, { ...(within && { blocked: entry(within) }), ...(together && { gamesHowell: entry(together) }) }];
    }),
  );
}

function entry({ difference, lower, upper, p }: AdjustedDifference): AdjustedDifference {
  return { difference, lower, upper, p };
}

function inBlocks(
  rows: readonly { readonly value: number; readonly level: string; readonly block: string | null }[],
  levels: readonly string[],
  confidence: number,
): readonly AdjustedDifference[] {
  const whole = rows.flatMap(({ block, ...row }) => (block === null ? [] : [{ ...row, block }]));
  if (whole.length < rows.length) return [];
  const blocks = Map.groupBy(whole, ({ block }) => block);
  const shared = [...blocks.values()].filter((inBlock) => new Set(inBlock.map(({ level }) => level)).size >= 2);
  if (shared.length < 2 || rows.length * (blocks.size + levels.length) ** 2 > mostWork) return [];
  return blockedAnalysis(whole, levels, confidence).pairs;
}
