/** Number, mean and sum of squared deviations from the mean. */
export interface Moments {
  count: number;
  mean: number;
  squares: number;
}

/** Of values[from] to values[to - 1], put into `into`: in two passes, exact to rounding wherever the values lie. */
export function momentsOf(values: Float64Array, from: number, to: number, into: Moments): void {
  const count = to - from;
  // Four sums at once: a processor adds them side by side.
  let [one, two, three, four] = [0, 0, 0, 0];
  let at = from;
  for (; at + 3 < to; at += 4) {
    one += values[at] as number;
    two += values[at + 1] as number;
    three += values[at + 2] as number;
    four += values[at + 3] as number;
  }
  for (; at < to; at += 1) one += values[at] as number;
  const mean = (one + two + (three + four)) / count;
  [one, two] = [0, 0];
  at = from;
  for (; at + 1 < to; at += 2) {
    const first = (values[at] as number) - mean;
    const second = (values[at + 1] as number) - mean;
    one += first * first;
    two += second * second;
  }
  if (at < to) one += ((values[at] as number) - mean) ** 2;
  into.count = count;
  into.mean = mean;
  into.squares = one + two;
}

/**
 * Adds a piece's moments to those of the pieces before it.
 *
 * Source: T. F. Chan, G. H. Golub and R. J. LeVeque, Algorithms for computing the sample variance, Am. Stat. 37, 242, 1983.
 */
export function addMoments(total: Moments, count: number, mean: number, squares: number): void {
  if (count === 0) return;
  const sum = total.count + count;
  const apart = mean - total.mean;
  total.squares += squares + (apart * apart * total.count * count) / sum;
  total.mean += (apart * count) / sum;
  total.count = sum;
}
