/**
 * The value in the middle of the order, for an even number the mean of the two in the middle. NaN is not dealt with.
 *
 * A RangeError for an empty list: there is no middle.
 */
export function median(values: readonly number[]): number {
  const ascending = [...values].sort((one, other) => one - other);
  const half = Math.floor(ascending.length / 2);
  const upper = ascending[half];
  if (upper === undefined) throw new RangeError("No values: there is no median.");
  const lower = ascending[half - 1];
  // Halved before the sum, so that it cannot overflow.
  return ascending.length % 2 === 1 || lower === undefined ? upper : lower / 2 + upper / 2;
}
