/** How many significant digits of a standard uncertainty are meant to hold. */
export type SignificantDigits = 1 | 2;

/**
 * Half of the last of a standard uncertainty's significant digits: it is written as c x 10^l, where c is a whole number of that many digits;
 * the tolerance is 10^l / 2. Null where the uncertainty is 0 or not finite, and so has no digits.
 *
 * Source: JCGM 101:2008, 7.9.2.
 */
export function numericalTolerance(standardUncertainty: number, digits: SignificantDigits): number | null {
  if (!(standardUncertainty > 0) || !Number.isFinite(standardUncertainty)) return null;
  // Rounded to those digits in decimal: "9.97e-2" to one digit is 1e-1.
  const exponent = Number(standardUncertainty.toExponential(digits - 1).split("e")[1]);
  return Number(`5e${exponent - digits}`);
}
