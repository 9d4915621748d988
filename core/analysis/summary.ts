import type { QuantityKey } from "../quantity/quantity-key.ts";
import { coefficientOfVariation } from "../statistics/coefficient-of-variation.ts";
import { type MeanInterval, meanInterval } from "../statistics/mean-interval.ts";
import { type RunResults, resultOf } from "./run-results.ts";

/** One quantity of one variant: its runs that count, mean, scatter and interval. */
export interface Summary extends MeanInterval {
  readonly values: readonly number[];
  /** s over the mean; null where there is no scatter to speak of or the mean is not positive. */
  readonly coefficientOfVariation: number | null;
}

/** Summary of values, in the order of the runs. */
export function summarise(values: readonly number[], confidence: number): Summary {
  const variation = coefficientOfVariation(values);
  return { ...meanInterval(values, confidence), values, coefficientOfVariation: variation.value };
}

/** The values of a quantity in those runs that have it and were not left out. */
export function countedValues(runs: readonly RunResults[], key: QuantityKey): number[] {
  return runs.flatMap((results) => {
    const value = results.run.leftOut === null ? resultOf(results, key) : undefined;
    return value === undefined ? [] : [value];
  });
}
