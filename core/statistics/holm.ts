/**
 * P-values adjusted for their number, by Holm's step-down method: of m values the smallest is multiplied by m, the next by m - 1, and so
 * on, none becoming smaller than the one before, nor greater than 1. In the order given.
 *
 * A null stays null and does not count. A RangeError for a number that is not between 0 and 1, both included.
 *
 * Source: S. Holm, A simple sequentially rejective multiple test procedure, Scand. J. Statist. 6, 65 (1979).
 */
export function holm(pValues: readonly (number | null)[]): (number | null)[] {
  const known = pValues.flatMap((p, index) => (p === null ? [] : [{ p, index }]));
  for (const { p, index } of known) {
    if (!(p >= 0 && p <= 1)) throw new RangeError(`Value ${index} is ${p}: a p-value lies between 0 and 1.`);
  }
  known.sort((one, other) => one.p - other.p);
  const adjusted = pValues.map((): number | null => null);
  let greatest = 0;
  known.forEach(({ p, index }, place) => {
    greatest = Math.max(greatest, Math.min(1, (known.length - place) * p));
    adjusted[index] = greatest;
  });
  return adjusted;
}
