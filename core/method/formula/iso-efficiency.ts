import type { Arithmetic } from "../../numeric/arithmetic.ts";

/**
 * Efficiency without char credit: useful energy over the energy of all fuel fed.
 *
 *   efficiency = Q1 / sum(fm LHVar)
 *
 * @param usefulEnergy Q1, J
 * @param fuelEnergy sum over the entries of consumed mass times net calorific value as received, J, > 0
 * @returns fraction
 * Source: ISO 19867-1:2018.
 */
export function isoEfficiencyWithoutChar<N>(arithmetic: Arithmetic<N>, usefulEnergy: N, fuelEnergy: N): N {
  return arithmetic.divide(usefulEnergy, fuelEnergy);
}

/**
 * Efficiency with char credit: useful energy over the energy of the fuel less that of the char left.
 *
 *   efficiency = Q1 / (sum(fm LHVar) - dC LHVc)
 *
 * @param usefulEnergy Q1, J
 * @param fuelEnergy as above, J
 * @param charFormed dC, g
 * @param charNetCalorific LHVc, kJ/kg
 * @returns fraction
 * Source: ISO 19867-1:2018.
 */
export function isoEfficiencyWithChar<N>(
  arithmetic: Arithmetic<N>,
  usefulEnergy: N,
  fuelEnergy: N,
  charFormed: N,
  charNetCalorific: N,
): N {
  const charEnergy = arithmetic.multiply(charFormed, charNetCalorific);
  return arithmetic.divide(usefulEnergy, arithmetic.subtract(fuelEnergy, charEnergy));
}
