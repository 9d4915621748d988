/**
 * Where a continuous function crosses zero between two arguments at which its signs differ.
 *
 * Each step halves the bracket and improves on the middle by an exponential fit, so the bracket at least halves; it ends when
 * the bracket is `tolerance` wide or the crossing is met exactly. A RangeError where both ends have the same sign or a value is
 * not a number.
 *
 * @param tolerance width, in units of the argument, within which the crossing is wanted
 *
 * Source: C. J. F. Ridders, A new algorithm for computing a single root of a real continuous function, IEEE Trans. Circuits
 * Syst. 26, 979 (1979).
 */
export function bracketedRoot(
  evaluate: (argument: number) => number,
  lower: number,
  upper: number,
  tolerance: number,
): number {
  let [left, right] = [lower, upper];
  let [atLeft, atRight] = [evaluate(left), evaluate(right)];
  if (atLeft === 0) return left;
  if (atRight === 0) return right;
  if (!(atLeft < 0 !== atRight < 0) || Number.isNaN(atLeft) || Number.isNaN(atRight)) {
    throw new RangeError(`No change of sign between ${lower} and ${upper}.`);
  }
  while (Math.abs(right - left) > tolerance) {
    const middle = left + (right - left) / 2;
    if (middle === left || middle === right) break;
    const atMiddle = evaluate(middle);
    if (atMiddle === 0) return middle;
    const direction = atLeft > atRight ? 1 : -1;
    const fit = (direction * (middle - left) * atMiddle) / Math.sqrt(atMiddle * atMiddle - atLeft * atRight);
    // The fit is not a number where the squares underflow.
    const estimate = Number.isNaN(fit) ? middle : middle + fit;
    const atEstimate = evaluate(estimate);
    if (atEstimate === 0) return estimate;
    // Keep the narrowest pair of points with opposite signs.
    const points: (readonly [number, number])[] = [
      [left, atLeft],
      [middle, atMiddle],
      [estimate, atEstimate],
      [right, atRight],
    ];
    points.sort(([first], [second]) => first - second);
    for (let index = 1; index < points.length; index += 1) {
      const [before, after] = [points[index - 1], points[index]];
      if (before === undefined || after === undefined || before[1] < 0 === after[1] < 0) continue;
      [left, atLeft] = before;
      [right, atRight] = after;
      break;
    }
  }
  return left + (right - left) / 2;
}
