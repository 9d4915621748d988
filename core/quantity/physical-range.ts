import type { QuantityName } from "./quantity-name.ts";

/** Where a quantity can lie at all, in its own unit; null: it has no such bound. */
export interface QuantityRange {
  readonly lower: number | null;
  readonly upper: number | null;
}

/**
 * These may well be below zero: a simmer burns up char that lay in the bed, water may cool while it is held, and wood wet enough takes more
 * heat to dry than it gives.
 */
const ofEitherSign: ReadonlySet<QuantityName> = new Set<QuantityName>([
  "charFormed",
  "effectiveCalorificValue",
  "heatGainedByWater",
  "isoUsefulEnergy",
  "cookingPower",
  "isoCookingPower",
]);

/** Parts of a whole: no more than 1. */
const shares: ReadonlySet<QuantityName> = new Set<QuantityName>([
  "thermalEfficiency",
  "highPowerThermalEfficiency",
  "isoEfficiencyWithoutChar",
  "isoEfficiencyWithChar",
  "meanIsoEfficiencyWithoutChar",
  "meanIsoEfficiencyWithChar",
]);

/** The physical range of a quantity: efficiencies from 0 to 1; masses, times, powers and what is told per one of these from 0 on. */
export function physicalRange(name: QuantityName): QuantityRange {
  if (ofEitherSign.has(name)) return { lower: null, upper: null };
  return { lower: 0, upper: shares.has(name) ? 1 : null };
}
