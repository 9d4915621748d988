import { betaStep } from "./beta-step.ts";
import { lowerIncompleteBeta, upperIncompleteBeta } from "./incomplete-beta.ts";
import { normalLowerTail, normalUpperTail } from "./normal.ts";

/** Largest noncentrality answered, either sign: far beyond any power that differs from 1. */
export const LARGEST_NONCENTRALITY = 1000;

/** Below this a number has lost digits, or has become 0. */
const LEAST_STEP = 1e-290;

/** Weights below this, relative to the largest, do not reach the last digit of a probability near 1. */
const NEGLIGIBLE = 1e-19;

/**
 * P(T <= t) for the noncentral t distribution of (Z + delta)/sqrt(chi2(nu)/nu): what the power of a t-test is computed from.
 *
 *     P(T <= t) = Phi(-delta) + sum over j of [p(j) I(x; j + 1/2, nu/2) + q(j) I(x; j + 1, nu/2)]/2   for t >= 0
 *     x = t^2/(nu + t^2),  lambda = delta^2/2
 *     p(j) = exp(-lambda) lambda^j/j!,  q(j) = delta/sqrt(2) exp(-lambda) lambda^j/Gamma(j + 3/2)
 *
 * and P(T <= t; delta) = P(T >= -t; -delta) for t < 0. The p sum to 1 and the q to sign(delta) (1 - 2 Phi(-|delta|)), so each sum is
 * taken as that total times a weighted mean, with weights relative to the largest and summed from there both ways: nothing
 * underflows however large delta is. Accurate to about 1e-13 in absolute terms: meant for power, not for far tails.
 *
 * @param degreesOfFreedom above 0, finite
 * @param noncentrality -1000 to 1000
 * A RangeError outside these, or where t is not finite.
 *
 * Sources: R. V. Lenth, Algorithm AS 243, Applied Statistics 38, 185 (1989), for the series; D. Benton and K. Krishnamoorthy,
 * Comput. Stat. Data Anal. 43, 249 (2003), for summing from the largest weight.
 */
export function noncentralTLowerTail(t: number, degreesOfFreedom: number, noncentrality: number): number {
  return noncentralT(t, degreesOfFreedom).lowerTail(noncentrality);
}

/** P(T > t): the complement of `noncentralTLowerTail`, summed by itself; domain and errors the same. */
export function noncentralTUpperTail(t: number, degreesOfFreedom: number, noncentrality: number): number {
  return noncentralT(t, degreesOfFreedom).upperTail(noncentrality);
}

/** Both tails at one t, as functions of the noncentrality. */
export interface NoncentralT {
  lowerTail(noncentrality: number): number;
  upperTail(noncentrality: number): number;
}

/** The same for many noncentralities at one t, whose incomplete beta functions are then computed once. */
export function noncentralT(t: number, degreesOfFreedom: number): NoncentralT {
  requireDomain(t, degreesOfFreedom);
  const square = t * t;
  const place = {
    x: square / (degreesOfFreedom + square),
    complement: degreesOfFreedom / (degreesOfFreedom + square),
    b: degreesOfFreedom / 2,
  };
  const lower = halfSeries({ ...place, upper: false });
  const upper = halfSeries({ ...place, upper: true });
  const lowerTail = (noncentrality: number) => {
    requireNoncentrality(noncentrality);
    return clamp(t >= 0 ? normalUpperTail(noncentrality) + lower(noncentrality) : upper(-noncentrality));
  };
  const upperTail = (noncentrality: number) => {
    requireNoncentrality(noncentrality);
    return clamp(t >= 0 ? upper(noncentrality) : normalLowerTail(noncentrality) + lower(-noncentrality));
  };
  return { lowerTail, upperTail };
}

/** The incomplete beta function of x and b, or (`upper`) its complement, as a function of its first argument. */
interface Beta {
  readonly x: number;
  /** 1 - x, by itself. */
  readonly complement: number;
  readonly b: number;
  readonly upper: boolean;
}

/** Half the sum of the weighted incomplete beta functions, or of their complements, by the noncentrality. */
function halfSeries(beta: Beta): (noncentrality: number) => number {
  const even = betaSequence(beta, 0.5);
  const odd = betaSequence(beta, 1);
  return (noncentrality) => {
    const lambda = (noncentrality * noncentrality) / 2;
    const oddTotal = Math.sign(noncentrality) * (1 - 2 * normalUpperTail(Math.abs(noncentrality)));
    const oddPart = oddTotal === 0 ? 0 : oddTotal * weightedMean(lambda, 0.5, odd);
    return (weightedMean(lambda, 0, even) + oddPart) / 2;
  };
}

/** The beta function at j + shift for the whole j from `low` to `high`, which widens as more are asked for. */
interface BetaSequence {
  readonly beta: Beta;
  readonly shift: number;
  low: number;
  high: number;
  /** By j - low. */
  values: Float64Array;
  stepAtLow: number;
  stepAtHigh: number;
}

function betaSequence(beta: Beta, shift: number): BetaSequence {
  return { beta, shift, low: 0, high: -1, values: new Float64Array(0), stepAtLow: 0, stepAtHigh: 0 };
}

/**
 * Computes what is missing from `low` to `high`: the beta function once, at the first j of all; its neighbours follow by
 *
 *     I(a + 1) = I(a) - step(a),  step(a + 1) = step(a) x (a + b)/(a + 1)
 */
function widen(sequence: BetaSequence, first: number, low: number, high: number): void {
  const { beta, shift } = sequence;
  const { x, b } = beta;
  const sign = beta.upper ? -1 : 1;
  // Far up the steps have run out of digits, and nothing below follows from them: begun anew where it is asked for now.
  const isSpent = low < sequence.low && sequence.stepAtLow < LEAST_STEP;
  const isNew = sequence.high < 0 || isSpent;
  if (isNew) {
    sequence.low = first;
    sequence.high = first;
    sequence.values = Float64Array.of(betaAt(beta, first + shift));
    sequence.stepAtLow = betaStep(x, beta.complement, first + shift, b);
    sequence.stepAtHigh = sequence.stepAtLow;
  }
  if (low >= sequence.low && high <= sequence.high) return;
  const [from, to] = [Math.min(low, sequence.low), Math.max(high, sequence.high)];
  const values = new Float64Array(to - from + 1);
  values.set(sequence.values, sequence.low - from);
  let [value, step] = [values[sequence.high - from] ?? 0, sequence.stepAtHigh];
  for (let j = sequence.high + 1; j <= to; j += 1) {
    const a = j - 1 + shift;
    value -= sign * step;
    step *= (x * (a + b)) / (a + 1);
    values[j - from] = value;
  }
  sequence.stepAtHigh = step;
  [value, step] = [values[sequence.low - from] ?? 0, sequence.stepAtLow];
  for (let j = sequence.low - 1; j >= from; j -= 1) {
    const a = j + shift;
    if (step > 0) step *= (a + 1) / (x * (a + b));
    value += sign * step;
    values[j - from] = value;
  }
  sequence.stepAtLow = step;
  [sequence.low, sequence.high, sequence.values] = [from, to, values];
}

function betaAt({ x, complement, b, upper }: Beta, a: number): number {
  // The smaller of x and its complement is the one with the digits.
  if (x > 0.5) return upper ? lowerIncompleteBeta(complement, b, a) : upperIncompleteBeta(complement, b, a);
  return upper ? upperIncompleteBeta(x, a, b) : lowerIncompleteBeta(x, a, b);
}

/** Mean of a sequence over j = 0, 1, 2, ... with weights in proportion to lambda^j/Gamma(j + 1 + shift). */
function weightedMean(lambda: number, shift: number, sequence: BetaSequence): number {
  const peak = Math.floor(lambda);
  // Beyond these the weights, nearly Poisson's, are negligible.
  const spread = 9.5 * Math.sqrt(lambda);
  const least = Math.max(0, Math.floor(lambda - spread));
  const most = Math.ceil(lambda + spread) + 30;
  widen(sequence, peak, least, most);
  const { values, low } = sequence;
  let weights = 1;
  let total = values[peak - low] ?? 0;
  for (let j = peak + 1, weight = 1; j <= most && weight > NEGLIGIBLE; j += 1) {
    weight *= lambda / (j + shift);
    weights += weight;
    total += weight * (values[j - low] ?? 0);
  }
  for (let j = peak - 1, weight = 1; j >= least && weight > NEGLIGIBLE; j -= 1) {
    weight *= (j + 1 + shift) / lambda;
    weights += weight;
    total += weight * (values[j - low] ?? 0);
  }
  return total / weights;
}

function clamp(probability: number): number {
  return Math.min(1, Math.max(0, probability));
}

function requireDomain(t: number, degreesOfFreedom: number): void {
  if (!Number.isFinite(t)) throw new RangeError(`t is ${t}: it must be finite.`);
  if (!(degreesOfFreedom > 0 && degreesOfFreedom < Number.POSITIVE_INFINITY)) {
    throw new RangeError(`Degrees of freedom are ${degreesOfFreedom}: they must be above 0 and finite.`);
  }
}

function requireNoncentrality(noncentrality: number): void {
  if (!(Math.abs(noncentrality) <= LARGEST_NONCENTRALITY)) {
    throw new RangeError(`Noncentrality is ${noncentrality}: it must be within ${LARGEST_NONCENTRALITY} of 0.`);
  }
}
