import { betaStep } from "./beta-step.ts";
import { lowerIncompleteBeta, upperIncompleteBeta } from "./incomplete-beta.ts";
import { normalLowerTail, normalUpperTail } from "./normal.ts";

/** Largest noncentrality answered, either sign: far beyond any power that differs from 1. */
export const LARGEST_NONCENTRALITY = 1000;

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
  requireDomain(t, degreesOfFreedom, noncentrality);
  return t >= 0
    ? clamp(normalUpperTail(noncentrality) + halfSeries(t, degreesOfFreedom, noncentrality, false))
    : clamp(halfSeries(-t, degreesOfFreedom, -noncentrality, true));
}

/** P(T > t): the complement of `noncentralTLowerTail`, summed by itself; domain and errors the same. */
export function noncentralTUpperTail(t: number, degreesOfFreedom: number, noncentrality: number): number {
  requireDomain(t, degreesOfFreedom, noncentrality);
  return t >= 0
    ? clamp(halfSeries(t, degreesOfFreedom, noncentrality, true))
    : clamp(normalLowerTail(noncentrality) + halfSeries(-t, degreesOfFreedom, -noncentrality, false));
}

/** Half the sum of the weighted incomplete beta functions, or (`upper`) of their complements. */
function halfSeries(t: number, degreesOfFreedom: number, noncentrality: number, upper: boolean): number {
  const square = t * t;
  const place = { x: square / (degreesOfFreedom + square), complement: degreesOfFreedom / (degreesOfFreedom + square) };
  const beta = { ...place, b: degreesOfFreedom / 2, upper };
  const lambda = (noncentrality * noncentrality) / 2;
  const even = weightedMean(lambda, 0, beta);
  const oddTotal = Math.sign(noncentrality) * (1 - 2 * normalUpperTail(Math.abs(noncentrality)));
  const odd = oddTotal === 0 ? 0 : oddTotal * weightedMean(lambda, 0.5, beta);
  return (even + odd) / 2;
}

/** The incomplete beta function of x and b, or its complement, as a function of its first argument. */
interface Beta {
  readonly x: number;
  /** 1 - x, by itself. */
  readonly complement: number;
  readonly b: number;
  readonly upper: boolean;
}

function betaAt({ x, complement, b, upper }: Beta, a: number): number {
  // The smaller of x and its complement is the one with the digits.
  if (x > 0.5) return upper ? lowerIncompleteBeta(complement, b, a) : upperIncompleteBeta(complement, b, a);
  return upper ? upperIncompleteBeta(x, a, b) : lowerIncompleteBeta(x, a, b);
}

/**
 * Mean of the beta function at j + 1/2 + shift over j = 0, 1, 2, ... with weights in proportion to lambda^j/Gamma(j + 1 + shift). It is computed
 * at the largest weight; its neighbours follow from it by I(a + 1) = I(a) - step(a) and step(a + 1) = step(a) x (a + b)/(a + 1).
 */
function weightedMean(lambda: number, shift: number, beta: Beta): number {
  const { x, b, upper } = beta;
  const peak = Math.floor(lambda);
  const a = peak + 0.5 + shift;
  const atPeak = betaAt(beta, a);
  const stepAtPeak = betaStep(x, beta.complement, a, b);
  const sign = upper ? -1 : 1;
  let weights = 1;
  let total = atPeak;
  for (let j = peak + 1, weight = lambda / (j + shift), value = atPeak, step = stepAtPeak; ; j += 1) {
    value -= sign * step;
    weights += weight;
    total += weight * value;
    if (weight <= NEGLIGIBLE) break;
    step *= (x * (j - 0.5 + shift + b)) / (j + 0.5 + shift);
    weight *= lambda / (j + 1 + shift);
  }
  for (let j = peak - 1, weight = 1, value = atPeak, step = stepAtPeak; j >= 0 && x > 0; j -= 1) {
    weight *= (j + 1 + shift) / lambda;
    if (step > 0) step *= (j + 1.5 + shift) / (x * (j + 0.5 + shift + b));
    value += sign * step;
    weights += weight;
    total += weight * value;
    if (weight <= NEGLIGIBLE) break;
  }
  return total / weights;
}

function clamp(probability: number): number {
  return Math.min(1, Math.max(0, probability));
}

function requireDomain(t: number, degreesOfFreedom: number, noncentrality: number): void {
  if (!Number.isFinite(t)) throw new RangeError(`t is ${t}: it must be finite.`);
  if (!(degreesOfFreedom > 0 && degreesOfFreedom < Number.POSITIVE_INFINITY)) {
    throw new RangeError(`Degrees of freedom are ${degreesOfFreedom}: they must be above 0 and finite.`);
  }
  if (!(Math.abs(noncentrality) <= LARGEST_NONCENTRALITY)) {
    throw new RangeError(`Noncentrality is ${noncentrality}: it must be within ${LARGEST_NONCENTRALITY} of 0.`);
  }
}
