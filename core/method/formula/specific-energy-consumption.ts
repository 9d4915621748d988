import type { Arithmetic } from "../../numeric/arithmetic.ts";

/**
 * Specific energy consumption: the energy of the specific fuel consumption.
 *
 *   SE = SC LHV / 1000
 *
 * @param specificFuel SC, g/L
 * @param netCalorific LHV of the first fuel, kJ/kg dry
 * @returns kJ/L
 * Source: Water Boiling Test protocol, version 4.2.3 (2014).
 */
export function specificEnergyConsumption<N>(arithmetic: Arithmetic<N>, specificFuel: N, netCalorific: N): N {
  return arithmetic.divide(arithmetic.multiply(specificFuel, netCalorific), arithmetic.constant(1000));
}
