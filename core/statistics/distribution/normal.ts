import cdf from "@stdlib/stats-base-dists-normal-cdf";
import quantile from "@stdlib/stats-base-dists-normal-quantile";
import { requireProbability } from "../argument.ts";

/** P(Z <= z) for the standard normal distribution, accurate in relative terms in the lower tail. */
export function normalLowerTail(z: number): number {
  return cdf(z, 0, 1);
}

/** P(Z > z) for the standard normal distribution, accurate in relative terms in the upper tail: never 1 minus a number near 1. */
export function normalUpperTail(z: number): number {
  return cdf(-z, 0, 1);
}

/**
 * The z below which a share `probability` of the standard normal distribution lies; a RangeError unless between 0 and 1.
 *
 * The library's value (good to some 1e-7 far out, and none beyond 1e-80 or so) is refined by Newton's steps on the logarithm of the tail.
 */
export function normalQuantile(probability: number): number {
  requireProbability("Probability", probability);
  if (probability > 0.5) return -normalQuantile(1 - probability);
  const first = quantile(probability, 0, 1);
  let z = Number.isFinite(first) ? first : -Math.sqrt(-2 * Math.log(probability));
  for (let step = 0; step < mostSteps; step += 1) {
    const tail = normalLowerTail(z);
    const density = Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);
    if (!(tail > 0 && density > 0)) return z;
    const change = (Math.log(tail / probability) * tail) / density;
    z -= change;
    if (Math.abs(change) <= 1e-15 * Math.abs(z)) return z;
  }
  return z;
}

/** From the crude start far out four are enough. */
const mostSteps = 12;
