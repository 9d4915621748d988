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

/** The z below which a share `probability` of the standard normal distribution lies; a RangeError unless between 0 and 1. */
export function normalQuantile(probability: number): number {
  requireProbability("Probability", probability);
  return quantile(probability, 0, 1);
}
