import type { Arithmetic } from "../../numeric/arithmetic.ts";

/**
 * Thermal efficiency: the share of the released energy that the water gained. At a simmer it says little (steam counts as
 * gain), so it is given "not for ranking".
 *
 *   efficiency = Q / (fd LHV)
 *
 * @param heatGained Q, J
 * @param fuelConsumed fd, equivalent dry fuel, g, > 0
 * @param netCalorific LHV of the first fuel, kJ/kg dry
 * @returns fraction
 * Source: Water Boiling Test protocol, version 4.2.3 (2014).
 */
export function thermalEfficiency<N>(arithmetic: Arithmetic<N>, heatGained: N, fuelConsumed: N, netCalorific: N): N {
  return arithmetic.divide(heatGained, arithmetic.multiply(fuelConsumed, netCalorific));
}
