import { normalLowerTail } from "./normal.ts";

/** Beyond this many standard deviations from where the integrand is greatest, nothing of it is left. */
const REACH_BELOW = 7;
const REACH_ABOVE = 9;

/** One place of the greatest draw. */
interface Place {
  readonly z: number;
  /** Phi(z). */
  readonly below: number;
  /** r h phi(z) Phi(z)^(r - 1). */
  readonly weight: number;
}

/**
 * P(greatest - least > w) for that many independent draws of the standard normal distribution, accurate in relative terms however
 * small it is. Gives the function of w, so that what does not depend on w is computed once.
 *
 *     P(W > w) = r integral of phi(z) {Phi(z)^(r - 1) - [Phi(z) - Phi(z - w)]^(r - 1)} dz,   z the greatest of r
 *
 * The braces are taken as Phi^(r - 1) times -expm1((r - 1) log1p(-Phi(z - w)/Phi(z))), so nothing cancels. The integrand is analytic and falls
 * off like a normal density on both sides, so the trapezoidal rule converges faster than any power of its step; the step follows
 * the width of the distribution of the greatest, about 1/sqrt(2 ln r).
 *
 * @param draws r, a whole number from 2. w is not below 0.
 *
 * Source: the distribution of the range, H. O. Hartley, Biometrika 32, 334 (1942), written for the upper tail.
 */
export function normalRangeTail(draws: number): (w: number) => number {
  const others = draws - 1;
  const step = Math.min(0.25, 0.48 / Math.sqrt(2 * Math.log(draws)));
  const scale = (draws * step) / Math.sqrt(2 * Math.PI);
  const places = new Map<number, Place>();
  const placeAt = (index: number): Place => {
    const known = places.get(index);
    if (known !== undefined) return known;
    const z = index * step;
    const below = normalLowerTail(z);
    const place = { z, below, weight: scale * Math.exp((-z * z) / 2 + others * Math.log(below)) };
    places.set(index, place);
    return place;
  };
  return (w) => {
    const first = Math.floor((w / 2 - REACH_BELOW) / step);
    const last = Math.ceil((w / 2 + REACH_ABOVE) / step);
    let tail = 0;
    for (let index = first; index <= last; index += 1) {
      const { z, below, weight } = placeAt(index);
      // What weighs nothing beside the rest is passed over; far out, every weight is small, so zero alone is.
      if (weight === 0) continue;
      tail -= weight * Math.expm1(others * Math.log1p(-normalLowerTail(z - w) / below));
    }
    return Math.min(1, tail);
  };
}
