/** Number, mean and sum of squared deviations from the mean. */
export interface Moments {
  count: number;
  mean: number;
  squares: number;
}

/** How far a piece's mean may lie from the estimate, as a square in units of its spread, for one pass to do. */
const nearEstimate = 100;

/**
 * Of values[from] to values[to - 1], put into `into`. In one pass, as deviations from an estimate; in two where the estimate is far off
 * (or not finite), so that what is lost to rounding is little in any case.
 */
export function momentsOf(values: Float64Array, from: number, to: number, estimate: number, into: Moments): void {
  const count = to - from;
  let sum = 0;
  let squares = 0;
  for (let at = from; at < to; at += 1) {
    const apart = (values[at] as number) - estimate;
    sum += apart;
    squares += apart * apart;
  }
  const ofMean = (sum * sum) / count;
  into.count = count;
  into.mean = estimate + sum / count;
  into.squares = squares - ofMean;
  if (ofMean <= nearEstimate * into.squares) return;
  into.mean = sumOf(values, from, to) / count;
  into.squares = squaresOf(values, from, to, into.mean);
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
