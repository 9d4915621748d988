import type { Arithmetic } from "../numeric/arithmetic.ts";

/**
 * Moisture on the wet basis from moisture on the dry basis. Pin meters read the dry basis; all formulas need the wet one.
 *
 *   m = d / (1 + d)
 *
 * @param dryBasis water over dry mass, fraction, d >= 0
 * @returns water over mass as fired, fraction, 0 <= m < 1
 * Source: definitions in ISO 18134-1:2022 (both bases follow from the same two weighings).
 */
export function moistureWetFromDry<N>(arithmetic: Arithmetic<N>, dryBasis: N): N {
  return arithmetic.divide(dryBasis, arithmetic.add(arithmetic.constant(1), dryBasis));
}

/**
 * Moisture on the dry basis from moisture on the wet basis: d = m / (1 - m).
 *
 * @param wetBasis water over mass as fired, fraction, 0 <= m < 1
 * @returns water over dry mass, fraction
 * Source: as {@link moistureWetFromDry}.
 */
export function moistureDryFromWet<N>(arithmetic: Arithmetic<N>, wetBasis: N): N {
  return arithmetic.divide(wetBasis, arithmetic.subtract(arithmetic.constant(1), wetBasis));
}

/**
 * Moisture on the wet basis from an oven-dried specimen: m = (wet - dry) / wet.
 *
 * @param wetMass specimen as fired, g, > 0
 * @param dryMass the same specimen oven-dried, g, 0 < dry <= wet
 * @returns fraction, 0 <= m < 1
 * Source: ISO 18134-1:2022, calculation of total moisture.
 */
export function moistureFromDrying<N>(arithmetic: Arithmetic<N>, wetMass: N, dryMass: N): N {
  return arithmetic.divide(arithmetic.subtract(wetMass, dryMass), wetMass);
}
