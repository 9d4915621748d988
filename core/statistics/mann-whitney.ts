import { requireFinite } from "./argument.ts";
import { normalUpperTail } from "./distribution/normal.ts";
import { midranks, rankSumCounts } from "./rank-sum.ts";

/** Groups smaller than this are answered exactly: the limit of R's wilcox.test. */
const EXACT_BELOW = 50;

/** Whether one group's values tend to lie above the other's, by their order alone. */
export interface MannWhitney {
  /** Pairs in which the second group's value is the larger, equal ones counted as a half. */
  readonly u: number | null;
  /** Two-sided: twice the smaller tail, at most 1. */
  readonly p: number | null;
  /** 2/C(n1 + n2, n1): what p is when every value of one group lies above every one of the other. */
  readonly smallestP: number | null;
  /** Whether p is that of all arrangements of the runs, or of a normal distribution with continuity correction. */
  readonly isExact: boolean;
  /** p by the normal distribution, corrected for ties and continuity: what is exact only for many runs. */
  readonly normalP: number | null;
  /** How many values share their rank with another, of both groups. */
  readonly ties: number;
  readonly because: "no-values" | "one-value" | "no-scatter" | null;
}

/**
 * The Wilcoxon-Mann-Whitney rank-sum test of two independent groups.
 *
 * Exact for groups under 50, with or without ties: the distribution of the rank sum over all C(n1 + n2, n1) equally likely arrangements,
 * tied values sharing their mean rank. Beyond that, and as `normalP` always, a normal distribution with continuity correction, its variance
 * corrected for ties, which is R's default where there are ties:
 *
 *     z = (|U - n1 n2/2| - 1/2)/sqrt(n1 n2/12 [N + 1 - sum(t^3 - t)/(N (N - 1))])
 *
 * Missing for an empty group, for one value against one (whose p is 1 whatever they are), and where all values are equal. A RangeError for a value that is not finite.
 *
 * Sources: H. B. Mann and D. R. Whitney, Ann. Math. Statist. 18, 50 (1947); with ties, the permutation distribution of midranks, E. L.
 * Lehmann, Nonparametrics (1975), section 1.4 (from memory).
 */
export function mannWhitney(first: readonly number[], second: readonly number[]): MannWhitney {
  requireFinite(first);
  requireFinite(second);
  const [n1, n2] = [first.length, second.length];
  const { ranks, tieSizes } = midranks([...first, ...second]);
  const ties = tieSizes.reduce((sum, size) => sum + size, 0);
  const isExact = n1 < EXACT_BELOW && n2 < EXACT_BELOW;
  const missing = { u: null, p: null, smallestP: null, isExact, normalP: null, ties };
  if (n1 === 0 || n2 === 0) return { ...missing, because: "no-values" };
  const rankSum = ranks.slice(n1).reduce((sum, rank) => sum + rank, 0);
  const u = rankSum - (n2 * (n2 + 1)) / 2;
  if (n1 === 1 && n2 === 1) return { ...missing, u, because: "one-value" };
  const smallestP = Math.min(1, 2 / arrangements(n1, n2));
  const known = { u, smallestP, isExact, ties };
  if (tieSizes[0] === n1 + n2) return { ...known, p: null, normalP: null, because: "no-scatter" };
  const normalP = normalApproximation(u, n1, n2, tieSizes);
  const p = isExact ? exactP(ranks, n2, rankSum, ties) : normalP;
  return { ...known, p, normalP, because: null };
}

/** Counts of the latest numbers of runs without ties: hundreds of pairs ask for the same ones. */
let latest: { readonly all: number; readonly size: number; readonly counts: Float64Array } | null = null;

function untiedCounts(all: number, size: number): Float64Array {
  if (latest?.all !== all || latest.size !== size) {
    const ranks = Array.from({ length: all }, (_, place) => place + 1);
    latest = { all, size, counts: rankSumCounts(ranks, size) };
  }
  return latest.counts;
}

function exactP(ranks: readonly number[], size: number, rankSum: number, ties: number): number {
  // Shared ranks may end in a half.
  const unit = ranks.every(Number.isInteger) ? 1 : 2;
  const counts =
    ties === 0
      ? untiedCounts(ranks.length, size)
      : rankSumCounts(
          ranks.map((rank) => unit * rank),
          size,
        );
  const observed = unit * rankSum;
  let [below, above, all] = [0, 0, 0];
  counts.forEach((count, sum) => {
    all += count;
    if (sum <= observed) below += count;
    if (sum >= observed) above += count;
  });
  return Math.min(1, (2 * Math.min(below, above)) / all);
}

function normalApproximation(u: number, n1: number, n2: number, tieSizes: readonly number[]): number {
  const all = n1 + n2;
  const tied = tieSizes.reduce((sum, size) => sum + (size ** 3 - size), 0);
  const variance = ((n1 * n2) / 12) * (all + 1 - tied / (all * (all - 1)));
  const away = Math.max(0, Math.abs(u - (n1 * n2) / 2) - 0.5);
  return Math.min(1, 2 * normalUpperTail(away / Math.sqrt(variance)));
}

/** C(n1 + n2, n1). */
function arrangements(n1: number, n2: number): number {
  let count = 1;
  for (let taken = 1; taken <= n1; taken += 1) count = (count * (n2 + taken)) / taken;
  return count;
}
