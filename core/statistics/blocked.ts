import { requireFinite, requireProbability } from "./argument.ts";
import { contrastOf } from "./contrast.ts";
import { fTail } from "./distribution/f.ts";
import { type LeastSquares, leastSquares } from "./least-squares.ts";

/** One run: its value, its variant and the block (day, operator) it was made in. */
export interface BlockedRow {
  readonly value: number;
  readonly level: string;
  readonly block: string;
}

/** Two variants compared within blocks. */
export interface BlockedPair {
  /** Places of the two in the list of levels. */
  readonly first: number;
  readonly second: number;
  /** Second minus first, adjusted for blocks; null where no chain of blocks joins the two. */
  readonly difference: number | null;
  readonly standardError: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  readonly t: number | null;
  /** Two-sided, of this pair alone: not adjusted for the number of pairs. */
  readonly p: number | null;
  /** The difference as weights of the fit's coefficients; null where there is none. */
  readonly contrast: readonly number[] | null;
  readonly because: "no-values" | "never-together" | "no-degrees-of-freedom" | "no-scatter" | null;
}

export interface BlockedAnalysis {
  /** Variants, adjusted for blocks. */
  readonly variantF: number | null;
  readonly df1: number | null;
  /** The residual's. */
  readonly df2: number | null;
  readonly p: number | null;
  readonly pairs: readonly BlockedPair[];
  /** Standard deviation of single runs within blocks, in the unit of the values. */
  readonly residualDeviation: number | null;
  /** Blocks that hold one variant only: they say nothing on any difference. */
  readonly uninformativeBlocks: readonly string[];
  /** Whether every block holds every variant equally often. */
  readonly isBalanced: boolean;
  /** The model by least squares, its rows as they were given; null where no difference can be told. */
  readonly fit: LeastSquares | null;
  /** Why F and p are missing. */
  readonly because: "no-values" | "never-together" | "no-degrees-of-freedom" | "no-scatter" | null;
}

/**
 * Randomised blocks, complete or with missing cells: value = block + variant + residual, by least squares.
 *
 * F is that of the variants beyond the blocks (type II: blocks first, then variants). Each pair's difference is the one adjusted for
 * blocks, with a t interval and p from the common residual, as contrasts of R's lm(value ~ block + level) give them: not adjusted for
 * the number of pairs. With two variants in complete pairs this is the paired t-test.
 *
 * A block with one variant adds nothing to a difference (several runs of it in the block still tell the scatter). Two variants that
 * no block joins, not even by way of a third, have no difference. A RangeError for a value that is not finite, a level
 * not in the list or a confidence not between 0 and 1.
 *
 * Source: H. Scheffe, The analysis of variance (1959), chapter 4 (from memory); checked against R.
 */
export function blockedAnalysis(
  rows: readonly BlockedRow[],
  levels: readonly string[],
  confidence: number,
): BlockedAnalysis {
  requireProbability("Confidence", confidence);
  requireFinite(rows.map((row) => row.value));
  const unknown = rows.find((row) => !levels.includes(row.level));
  if (unknown !== undefined) throw new RangeError(`${unknown.level} is not among the levels.`);
  const blocks = [...new Set(rows.map((row) => row.block))];
  const levelsIn = new Map(blocks.map((block) => [block, levelsOf(rows, block)] as const));
  const uninformativeBlocks = blocks.filter((block) => levelsIn.get(block)?.size === 1);
  const joined = joinedLevels(levels, [...levelsIn.values()]);
  const isBalanced = isComplete(rows, levels, blocks);
  // Of each set of joined levels the first is the one the others are counted from: its column would depend on the blocks.
  const seen = levels.filter((level) => rows.some((row) => row.level === level));
  const counted = seen.filter((level) => joined.get(level) !== level);
  const columns = [
    ...blocks.map((block) => rows.map((row) => (row.block === block ? 1 : 0))),
    ...counted.map((level) => rows.map((row) => (row.level === level ? 1 : 0))),
  ];
  const known = { uninformativeBlocks, isBalanced };
  const missing = { variantF: null, df1: null, df2: null, p: null, residualDeviation: null };
  if (rows.length === 0 || counted.length === 0) {
    const because = seen.length < 2 ? "no-values" : "never-together";
    const pairs = pairsOf(levels, (first, second) =>
      nothing(
        first,
        second,
        seen.includes(levels[first] ?? "") && seen.includes(levels[second] ?? "") ? "never-together" : "no-values",
      ),
    );
    return { ...missing, ...known, pairs, fit: null, because };
  }
  const fit = leastSquares(
    columns,
    rows.map((row) => row.value),
  );
  const pairs = pairsOf(levels, (first, second) => {
    const [one, other] = [levels[first] ?? "", levels[second] ?? ""];
    if (!seen.includes(one) || !seen.includes(other)) return nothing(first, second, "no-values");
    if (joined.get(one) !== joined.get(other)) return nothing(first, second, "never-together");
    const contrast = columns.map((_, column) => {
      const level = counted[column - blocks.length];
      return level === other ? 1 : level === one ? -1 : 0;
    });
    const { value, ...rest } = contrastOf(fit, contrast, confidence);
    return { first, second, difference: value, contrast, ...rest };
  });
  const { residualDeviation, degreesOfFreedom: df2 } = fit;
  const df1 = counted.length;
  const found = { ...known, pairs, fit };
  if (residualDeviation === null) return { ...found, ...missing, df1, df2, because: "no-degrees-of-freedom" };
  if (!fit.hasScatter) return { ...found, ...missing, df1, df2, residualDeviation, because: "no-scatter" };
  const variantF = (fit.lengthOfLast(df1) / residualDeviation) ** 2 / df1;
  return { ...found, variantF, df1, df2, p: fTail(variantF, df1, df2), residualDeviation, because: null };
}

function nothing(first: number, second: number, because: "no-values" | "never-together"): BlockedPair {
  const missing = { difference: null, standardError: null, lower: null, upper: null, t: null, p: null };
  return { first, second, ...missing, contrast: null, because };
}

function pairsOf<T>(levels: readonly string[], pair: (first: number, second: number) => T): T[] {
  return levels.flatMap((_, first) => levels.slice(first + 1).map((_, more) => pair(first, first + 1 + more)));
}

function levelsOf(rows: readonly BlockedRow[], block: string): Set<string> {
  return new Set(rows.filter((row) => row.block === block).map((row) => row.level));
}

/** For each level the first of those that blocks join it to, by way of others too. */
function joinedLevels(levels: readonly string[], together: readonly ReadonlySet<string>[]): Map<string, string> {
  const first = new Map(levels.map((level) => [level, level] as const));
  for (const set of together) {
    const roots = new Set([...set].map((level) => first.get(level) ?? level));
    const earliest = levels.find((level) => roots.has(level));
    if (earliest === undefined) continue;
    for (const [level, root] of first) if (roots.has(root)) first.set(level, earliest);
  }
  return first;
}

function isComplete(rows: readonly BlockedRow[], levels: readonly string[], blocks: readonly string[]): boolean {
  const counts = Map.groupBy(rows, (row) => JSON.stringify([row.block, row.level]));
  const each = rows.length / (levels.length * blocks.length);
  return counts.size === levels.length * blocks.length && [...counts.values()].every((cell) => cell.length === each);
}
