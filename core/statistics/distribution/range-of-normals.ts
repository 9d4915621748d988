import { normalLowerTail } from "./normal.ts";

/** Beyond this many standard deviations from where the integrand is greatest, nothing of it is left. */
const REACH_BELOW = 7;
const REACH_ABOVE = 9;

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
  const step = Math.min(0.25, 0.46 / Math.sqrt(2 * Math.log(draws)));
  const scale = (draws * step) / Math.sqrt(2 * Math.PI);
  const start = Math.floor(-REACH_BELOW / step);
  // By number of steps from the start: Phi(z), and r h phi(z) Phi(z)^(r - 1).
  const belows: number[] = [];
  const weights: number[] = [];
  const growTo = (count: number) => {
    for (let index = belows.length; index < count; index += 1) {
      const z = (start + index) * step;
      const below = normalLowerTail(z);
      belows.push(below);
      weights.push(scale * Math.exp((-z * z) / 2 + others * Math.log(below)));
    }
  };
  return (w) => {
    const first = Math.floor((w / 2 - REACH_BELOW) / step) - start;
    const end = Math.ceil((w / 2 + REACH_ABOVE) / step) - start + 1;
    growTo(end);
    let tail = 0;
    for (let index = first; index < end; index += 1) {
      const weight = weights[index] as number;
      if (weight === 0) continue;
      const share = normalLowerTail((start + index) * step - w) / (belows[index] as number);
      tail -= weight * Math.expm1(others * Math.log1p(-share));
    }
    return Math.min(1, tail);
  };
}
