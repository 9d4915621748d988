/** Terms below this, relative to the sum, are left out. */
export const NEGLIGIBLE = 1e-17;
/** -ln of that, and something more. */
const DEPTH = 42;

/** Values of s = chi/sqrt(nu) in descending order, evenly spaced in ln s, with their weights. */
export interface ScaleWeights {
  readonly scales: readonly number[];
  readonly weights: readonly number[];
  /** Index of s = 1. */
  readonly top: number;
  /** How many of them are not negligible beside P(Q > q). */
  readonly count: number;
  /** Sum of all weights. */
  readonly total: number;
}

/** The values of one number of degrees of freedom, which grow downwards as far as they are asked for. */
interface Kept extends Omit<ScaleWeights, "count"> {
  readonly step: number;
  readonly degreesOfFreedom: number;
  readonly scales: number[];
  readonly weights: number[];
}

/** Those that were asked for last: a quantile asks for the same ones at every step, and a tail and a quantile follow each other. */
let latest: Kept | null = null;

/**
 * What the trapezoidal rule for the studentized range sums over: s for the estimated standard deviation over the true one, with s^2
 * chi-squared over its degrees of freedom nu, down to where what is left out is nothing beside P(Q > q).
 */
export function scaleWeights(q: number, groups: number, degreesOfFreedom: number): ScaleWeights {
  const step = stepFor(groups, degreesOfFreedom);
  const kept =
    latest !== null && latest.degreesOfFreedom === degreesOfFreedom && latest.step === step
      ? latest
      : firstWeights(step, degreesOfFreedom);
  latest = kept;
  const { scales, weights, top, total } = kept;
  // For two draws the range's tail is about exp(-(q s)^2/4), so the terms are largest where s^2 = nu/(nu + q^2/2); for more, further up.
  const largest = Math.log1p((q / degreesOfFreedom) * (q / 2)) / 2;
  const count = top + 1 + Math.ceil((largest + reach(degreesOfFreedom)) / step);
  for (let index = scales.length; index < count && weights[index - 1] !== 0; index += 1) {
    const x = (top - index) * step;
    scales.push(Math.exp(x));
    weights.push(weightAt(x, degreesOfFreedom));
  }
  return { scales, weights, top, total, count: Math.min(count, weights.length) };
}

/**
 * Step in ln s. The weight is about 1/sqrt(2 nu) wide and analytic to pi/4 beside the real line; the range of many draws is the
 * more sharply defined the more they are. Halving the step changes no P by more than 1e-11 in relative terms up to 100 groups, 1e-9 up to
 * 300.
 */
function stepFor(groups: number, degreesOfFreedom: number): number {
  return Math.min(0.53 / Math.sqrt(degreesOfFreedom + 16), 0.37 / Math.log(groups));
}

/** How far below the largest term, in ln s, a term is negligible: d where nu [d - (1 - exp(-2 d))/2] is DEPTH or more. */
function reach(degreesOfFreedom: number): number {
  const depth = DEPTH / degreesOfFreedom;
  // The bracket is above 0.73 d^2 up to d = 1/2, and above d - 1/2 everywhere.
  const short = Math.sqrt(depth / 0.73);
  return short < 0.5 ? short : depth + 0.5;
}

function firstWeights(step: number, degreesOfFreedom: number): Kept {
  let top = 0;
  while (weightAt(top * step, degreesOfFreedom) > NEGLIGIBLE) top += 1;
  const scales: number[] = [];
  const weights: number[] = [];
  let total = 0;
  for (let index = 0; ; index += 1) {
    const x = (top - index) * step;
    const weight = weightAt(x, degreesOfFreedom);
    scales.push(Math.exp(x));
    weights.push(weight);
    total += weight;
    if (index > top && weight < NEGLIGIBLE * Math.min(1, degreesOfFreedom)) break;
  }
  return { degreesOfFreedom, step, scales, weights, top, total };
}

/** Density of x = ln s, relative to its value at 0. */
function weightAt(x: number, degreesOfFreedom: number): number {
  return Math.exp(degreesOfFreedom * (x - Math.expm1(2 * x) / 2));
}
