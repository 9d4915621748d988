import type { Arithmetic } from "../../numeric/arithmetic.ts";

/**
 * Equivalent dry fuel consumed: the mass of dry fuel that would have released the energy that the fire released. Energy
 * that went into heating and drying moist wood, and energy that is still there as char, is not counted as used.
 *
 *   fd = (sum(fm EHV) - dC LHVc) / LHV, in terms of the first fuel's LHV
 *
 * @param fuelEnergy sum over the fuel entries of consumed mass times effective calorific value, J
 * @param charFormed dC, g; negative where char was burnt
 * @param charNetCalorific LHVc, kJ/kg
 * @param netCalorific LHV of the first fuel, kJ/kg dry, > 0
 * @returns g
 * Source: Water Boiling Test protocol, version 4.2.3 (2014).
 */
export function equivalentDryFuel<N>(
  arithmetic: Arithmetic<N>,
  fuelEnergy: N,
  charFormed: N,
  charNetCalorific: N,
  netCalorific: N,
): N {
  const charEnergy = arithmetic.multiply(charFormed, charNetCalorific);
  return arithmetic.divide(arithmetic.subtract(fuelEnergy, charEnergy), netCalorific);
}
