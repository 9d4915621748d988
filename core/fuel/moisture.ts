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
