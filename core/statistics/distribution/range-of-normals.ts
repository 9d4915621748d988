import { normalLowerTail } from "./normal.ts";

/** Beyond this many standard deviations from where the integrand is greatest, nothing of it is left. */
const REACH_BELOW = 7;
const REACH_ABOVE = 9;

/** The table of ln P(W > w) has this many values to the unit of w. */
const TO_THE_UNIT = 16;
/** Where the table ends; beyond it P(W > w) is below 1e-290. */
const TABLE_END = 52;
/** Neighbouring values that one in between is interpolated from. */
const NEIGHBOURS = 14;
/** Weights of Lagrange's interpolation between evenly spaced values: binomial coefficients with alternating sign. */
const LAGRANGE = Array.from({ length: NEIGHBOURS }, (_, index) => {
  let weight = index % 2 === 0 ? 1 : -1;
  for (let factor = 1; factor <= index; factor += 1) weight *= (NEIGHBOURS - factor) / factor;
  return weight;
});

/** Distribution of the range of independent draws of the standard normal distribution: greatest minus least. */
export interface NormalRange {
  /** P(W > w), accurate in relative terms however small it is; w not below 0. */
  readonly tail: (w: number) => number;
  /** ln P(W > w) from a table, to 1e-12; minus infinity from w = 52 on, where P is below 1e-290. */
  readonly logTail: (w: number) => number;
}

/**
 * The range of r normal draws.
 *
 *     P(W > w) = r integral of phi(z) {Phi(z)^(r - 1) - [Phi(z) - Phi(z - w)]^(r - 1)} dz,   z the greatest of r
 *
 * The braces are taken as Phi^(r - 1) times -expm1((r - 1) log1p(-Phi(z - w)/Phi(z))), so nothing cancels. The integrand is analytic and falls
 * off like a normal density on both sides, so the trapezoidal rule converges faster than any power of its step; the step follows
 * the width of the distribution of the greatest, about 1/sqrt(2 ln r). It is a multiple of the table's, so that Phi is needed at
 * the table's places only.
 *
 * @param draws r, a whole number from 2
 *
 * Source: the distribution of the range, H. O. Hartley, Biometrika 32, 334 (1942), written for the upper tail.
 */
export function normalRange(draws: number): NormalRange {
  const others = draws - 1;
  const widest = Math.min(0.25, 0.47 / Math.sqrt(2 * Math.log(draws)));
  const stride = Math.max(1, Math.floor(widest * TO_THE_UNIT));
  const step = stride / TO_THE_UNIT;
  const start = Math.floor(-REACH_BELOW / step);
  // By number of steps from the start: Phi(z), and r h phi(z) Phi(z)^(r - 1).
  const belows: number[] = [];
  const weights: number[] = [];
  const scale = (draws * step) / Math.sqrt(2 * Math.PI);

  const tailBy = (w: number, shifted: (index: number) => number): number => {
    const first = Math.floor((w / 2 - REACH_BELOW) / step) - start;
    const end = Math.ceil((w / 2 + REACH_ABOVE) / step) - start + 1;
    for (let index = belows.length; index < end; index += 1) {
      const z = (start + index) * step;
      const below = normalLowerTail(z);
      belows.push(below);
      weights.push(scale * Math.exp((-z * z) / 2 + others * Math.log(below)));
    }
    let tail = 0;
    for (let index = first; index < end; index += 1) {
      const share = shifted(start + index) / (belows[index] as number);
      tail -= (weights[index] as number) * Math.expm1(others * Math.log1p(-share));
    }
    return Math.min(1, tail);
  };

  // Phi from 0 downwards and upwards, at the table's places.
  const lower: number[] = [];
  const upper: number[] = [];
  const phi = (place: number): number => {
    const side = place < 0 ? lower : upper;
    const distance = Math.abs(place);
    for (let next = side.length; next <= distance; next += 1) {
      side.push(normalLowerTail((place < 0 ? -next : next) / TO_THE_UNIT));
    }
    return side[distance] as number;
  };
  const table: number[] = [];
  const logTail = (w: number): number => {
    if (w >= TABLE_END) return Number.NEGATIVE_INFINITY;
    const place = w * TO_THE_UNIT;
    const from = Math.max(0, Math.floor(place) - NEIGHBOURS / 2 + 1);
    for (let next = table.length; next < from + NEIGHBOURS; next += 1) {
      table.push(Math.log(tailBy(next / TO_THE_UNIT, (index) => phi(index * stride - next))));
    }
    let numerator = 0;
    let denominator = 0;
    for (let neighbour = 0; neighbour < NEIGHBOURS; neighbour += 1) {
      const distance = place - from - neighbour;
      if (distance === 0) return table[from + neighbour] as number;
      const weight = (LAGRANGE[neighbour] as number) / distance;
      numerator += weight * (table[from + neighbour] as number);
      denominator += weight;
    }
    return numerator / denominator;
  };
  return { tail: (w) => tailBy(w, (index) => normalLowerTail(index * step - w)), logTail };
}
