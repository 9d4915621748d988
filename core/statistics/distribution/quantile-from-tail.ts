import { requireProbability } from "../argument.ts";

/** Many more steps than any continuous tail needs; a bracket halves at worst every second step. */
const MOST_STEPS = 400;

/**
 * The x above which a share `tail` of a continuous distribution on the positive numbers lies: where `upperTail(x)` is `tail`.
 *
 * Solved for ln x, in the logarithm of the smaller of the two tails, in which distributions are nearly straight. The bracket is
 * widened until it holds the answer, then narrowed by inverse quadratic interpolation or halving, whichever is safe.
 *
 * @param upperTail decreasing from 1 to 0 as x goes from 0 to infinity
 * @param tail between 0 and 1; a RangeError otherwise
 * @param lower, upper where the answer is expected, above 0; they need not hold it
 *
 * Source of the narrowing: T. R. Chandrupatla, Adv. Eng. Softw. 28, 145 (1997).
 */
export function quantileFromTail(
  upperTail: (x: number) => number,
  tail: number,
  { lower, upper }: { readonly lower: number; readonly upper: number },
): number {
  requireProbability("Tail", tail);
  const excess = (logarithm: number) => {
    const here = upperTail(Math.exp(logarithm));
    return tail < 0.5 ? Math.log(here) - Math.log(tail) : Math.log1p(-tail) - Math.log1p(-here);
  };
  const bracket = widen(excess, Math.log(lower), Math.log(upper));
  return Math.exp(narrow(excess, bracket));
}

interface Bracket {
  readonly low: number;
  readonly atLow: number;
  readonly high: number;
  readonly atHigh: number;
}

/** A bracket with a value not below zero at its low end and not above zero at its high end. */
function widen(excess: (x: number) => number, lower: number, upper: number): Bracket {
  let [low, high] = [lower, upper];
  let [atLow, atHigh] = [excess(low), excess(high)];
  for (let stride = 0.1; atLow < 0; stride *= 2) {
    [high, atHigh] = [low, atLow];
    low -= stride;
    atLow = excess(low);
  }
  for (let stride = 0.1; atHigh > 0; stride *= 2) {
    [low, atLow] = [high, atHigh];
    high += stride;
    atHigh = excess(high);
  }
  return { low, atLow, high, atHigh };
}

function narrow(excess: (x: number) => number, { low, atLow, high, atHigh }: Bracket): number {
  // One end of the bracket is the latest point, the other has the opposite sign, the third is the one before.
  let [latest, other, third] = [high, low, low];
  let [atLatest, atOther, atThird] = [atHigh, atLow, atLow];
  let fraction = 0.5;
  for (let step = 0; step < MOST_STEPS; step += 1) {
    const best = Math.abs(atLatest) < Math.abs(atOther) ? latest : other;
    // A tail that has run out of range gives infinite values: only halving is of use there.
    const width = Math.abs(other - latest);
    const tolerance = Number.EPSILON * Math.max(1, Math.abs(best));
    if (atLatest === 0 || atOther === 0 || width <= 2 * tolerance) return best;
    const least = Math.min(0.5, tolerance / width);
    const next = latest + Math.min(1 - least, Math.max(least, fraction)) * (other - latest);
    const atNext = excess(next);
    if (Math.sign(atNext) === Math.sign(atLatest)) [third, atThird] = [latest, atLatest];
    else [third, atThird, other, atOther] = [other, atOther, latest, atLatest];
    [latest, atLatest] = [next, atNext];
    fraction = interpolated(latest, atLatest, other, atOther, third, atThird);
  }
  return Math.abs(atLatest) < Math.abs(atOther) ? latest : other;
}

/** Where between a and b the inverse parabola through the three points is zero, as a fraction; a half where it is not safe. */
function interpolated(a: number, atA: number, b: number, atB: number, c: number, atC: number): number {
  const place = (a - b) / (c - b);
  const height = (atA - atB) / (atC - atB);
  if (!(height ** 2 < place && (1 - height) ** 2 < 1 - place)) return 0.5;
  const first = (atA / (atB - atA)) * (atC / (atB - atC));
  const second = (((c - a) / (b - a)) * (atA / (atC - atA)) * atB) / (atC - atB);
  const fraction = first + second;
  return Number.isFinite(fraction) ? fraction : 0.5;
}
