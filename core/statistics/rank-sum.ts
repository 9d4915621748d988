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
 * How many subsets of `size` of the ranks have each sum; the index is twice the sum, for midranks may end in a half.
 *
 *     count(k ranks, size, sum) = count(k - 1 ranks, size, sum) + count(k - 1 ranks, size - 1, sum - rank k)
 *
 * Counts are whole numbers, exact up to 2^53 and to about 15 digits beyond. Time and memory are size times the square of the
 * number of ranks and less.
 *
 * Source: the recurrence of H. B. Mann and D. R. Whitney (1947), here over ranks as they are, ties included.
 */
export function rankSumCounts(ranks: readonly number[], size: number): Float64Array {
  const doubled = ranks.map((rank) => Math.round(2 * rank)).sort((one, other) => other - one);
  const largest = doubled.slice(0, size).reduce((sum, rank) => sum + rank, 0);
  const width = largest + 1;
  const counts = new Float64Array((size + 1) * width);
  counts[0] = 1;
  let reach = 0;
  doubled.forEach((rank, taken) => {
    reach = Math.min(largest, reach + rank);
    for (let chosen = Math.min(size, taken + 1); chosen >= 1; chosen -= 1) {
      const [row, before] = [chosen * width, (chosen - 1) * width];
      for (let sum = reach; sum >= rank; sum -= 1) {
        counts[row + sum] = (counts[row + sum] ?? 0) + (counts[before + sum - rank] ?? 0);
      }
    }
  });
  return counts.subarray(size * width);
}
