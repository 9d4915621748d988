/** Number, mean and sum of squared deviations from the mean. */
export interface Moments {
  count: number;
  mean: number;
  squares: number;
}

/** Of values[from] to values[to - 1], put into `into`: in two passes, exact to rounding wherever the values lie. */
export function momentsOf(values: Float64Array, from: number, to: number, into: Moments): void {
  const mean = sumOf(values, from, to) / (to - from);
  into.count = to - from;
  into.mean = mean;
  into.squares = squaresOf(values, from, to, mean);
}

function sumOf(values: Float64Array, from: number, to: number): number {
  let sum = 0;
  for (let at = from; at < to; at += 1) sum += values[at] as number;
  return sum;
}

function squaresOf(values: Float64Array, from: number, to: number, mean: number): number {
  let squares = 0;
  for (let at = from; at < to; at += 1) {
    const apart = (values[at] as number) - mean;
    squares += apart * apart;
  }
  return squares;
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
