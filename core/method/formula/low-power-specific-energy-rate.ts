import type { Arithmetic } from "../../numeric/arithmetic.ts";

/**
 * Low-power specific energy rate: what it takes to keep a litre hot for a minute.
 *
 *   rate = fd LHV / (1000 wr t), with fd and wr in g
 *
 * @param fuelConsumed fd, g
 * @param netCalorific LHV of the first fuel, kJ/kg dry
 * @param water wr, water remaining, g, > 0
 * @param duration t, min, > 0
 * @returns MJ/(min L)
 * Source: Water Boiling Test protocol, version 4.2.3 (2014), simmer.
 */
export function lowPowerSpecificEnergyRate<N>(
  arithmetic: Arithmetic<N>,
  fuelConsumed: N,
  netCalorific: N,
  water: N,
  duration: N,
): N {
  const { constant, divide, multiply } = arithmetic;
  return divide(multiply(fuelConsumed, netCalorific), multiply(multiply(constant(1000), water), duration));
}
