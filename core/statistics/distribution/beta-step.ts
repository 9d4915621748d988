/** Above this the series below has all digits. */
const SERIES_FROM = 15;

/**
 * What the incomplete beta function loses from one first argument to the next: I(x; a, b) - I(x; a + 1, b).
 *
 *     x^a (1 - x)^b / (a B(a, b)) = b/n sqrt(n/(2 pi a b)) exp(s(n) - s(a) - s(b) - D(a, n x) - D(b, n (1 - x))),  n = a + b
 *
 * with s the error of Stirling's formula and D the deviance k ln(k/m) + m - k: written so, no large logarithms cancel, and the
 * result has about 14 digits for all a and b.
 *
 * @param x from 0 to 1
 * @param complement 1 - x, given by itself, for it has digits that 1 - x has lost
 * @param a above 0
 * @param b above 0
 *
 * Source: C. Loader, Fast and accurate computation of binomial probabilities (2000), for this form (from memory); the relation, Abramowitz
 * and Stegun 26.5.15 (from memory).
 */
export function betaStep(x: number, complement: number, a: number, b: number): number {
  if (x <= 0 || complement <= 0) return 0;
  const n = a + b;
  const stirling = stirlingError(n) - stirlingError(a) - stirlingError(b);
  const exponent = stirling - deviance(a, n * x) - deviance(b, n * complement);
  return (b / n) * Math.sqrt(n / (2 * Math.PI * a * b)) * Math.exp(exponent);
}

/** ln Gamma(z + 1) - [(z + 1/2) ln z - z + ln(2 pi)/2], z above 0. */
function stirlingError(z: number): number {
  let [shifted, steps] = [z, 0];
  for (; shifted < SERIES_FROM; shifted += 1) steps += (shifted + 0.5) * Math.log1p(1 / shifted) - 1;
  const square = shifted * shifted;
  const inner = 1 / 1260 - (1 / 1680 - 1 / 1188 / square) / square;
  return steps + (1 / 12 - (1 / 360 - inner / square) / square) / shifted;
}

/** k ln(k/m) + m - k, for k and m above 0, without cancellation where they are close. */
function deviance(k: number, m: number): number {
  const difference = k - m;
  if (Math.abs(difference) >= 0.1 * (k + m)) return k * Math.log(k / m) - difference;
  // ln(k/m) = 2 artanh(v), of which the first term joins m - k.
  const v = difference / (k + m);
  let total = difference * v;
  let power = 2 * k * v;
  for (let j = 3; ; j += 2) {
    power *= v * v;
    const next = total + power / j;
    if (next === total) return total;
    total = next;
  }
}
