/** Ranks from 1, equal values sharing the mean of theirs; and how many share each shared rank. */
export function midranks(values: readonly number[]): {
  readonly ranks: readonly number[];
  readonly tieSizes: readonly number[];
} {
  const order = values.map((_, index) => index).sort((one, other) => (values[one] ?? 0) - (values[other] ?? 0));
  const ranks = values.map(() => 0);
  const tieSizes: number[] = [];
  for (let start = 0; start < order.length; ) {
    let end = start + 1;
    while (end < order.length && values[order[end] ?? 0] === values[order[start] ?? 0]) end += 1;
    for (let place = start; place < end; place += 1) ranks[order[place] ?? 0] = (start + end + 1) / 2;
    if (end - start > 1) tieSizes.push(end - start);
    start = end;
  }
  return { ranks, tieSizes };
}

/**
 * How many subsets of `size` of the ranks have each sum, by the sum.
 *
 *     count(k ranks, size, sum) = count(k - 1 ranks, size, sum) + count(k - 1 ranks, size - 1, sum - rank k)
 *
 * Counts are whole numbers, exact up to 2^53 and to about 15 digits beyond. Time is about the number of ranks times size times
 * the largest sum.
 *
 * @param ranks whole numbers above 0: midranks that end in a half are given doubled
 *
 * Source: the recurrence of H. B. Mann and D. R. Whitney (1947), here over ranks as they are, ties included.
 */
export function rankSumCounts(ranks: readonly number[], size: number): Float64Array {
  const falling = ranks.toSorted((one, other) => other - one);
  const largest = falling.slice(0, size).reduce((sum, rank) => sum + rank, 0);
  const width = largest + 1;
  const counts = new Float64Array((size + 1) * width);
  counts[0] = 1;
  // The small ranks first: the sums reached so far stay small.
  let reach = 0;
  let taken = 0;
  for (const rank of falling.reverse()) {
    taken += 1;
    reach = Math.min(largest, reach + rank);
    for (let chosen = Math.min(size, taken); chosen >= 1; chosen -= 1) {
      const row = chosen * width;
      const before = row - width - rank;
      for (let sum = reach; sum >= rank; sum -= 1) {
        counts[row + sum] = (counts[row + sum] ?? 0) + (counts[before + sum] ?? 0);
      }
    }
  }
  return counts.subarray(size * width);
}
