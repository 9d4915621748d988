import type { Arithmetic } from "../numeric/arithmetic.ts";

/** The two masses of an oven-dried specimen, g, each with the dish in which it lay; `dish` is 0 where it lay in none. */
export interface DriedSpecimen<N> {
  readonly before: N;
  readonly after: N;
  readonly dish: N;
}

/**
 * Moisture on the wet basis of a specimen weighed in its dish: m = (before − after) / (before − dish).
 *
 * @param specimen 0 <= dish < after <= before
 * @returns water over mass as fired, fraction, 0 <= m < 1
 * Source: ISO 18134-1:2022, calculation of total moisture (clause from memory).
 */
export function wetMoistureFromOven<N>(arithmetic: Arithmetic<N>, { before, after, dish }: DriedSpecimen<N>): N {
  const { subtract, divide } = arithmetic;
  return divide(subtract(before, after), subtract(before, dish));
}

/**
 * Moisture on the dry basis of the same specimen: d = (before − after) / (after − dish).
 *
 * @param specimen 0 <= dish < after <= before
 * @returns water over dry mass, fraction, d >= 0
 * Source: as {@link wetMoistureFromOven}; both bases follow from the same weighings.
 */
export function dryMoistureFromOven<N>(arithmetic: Arithmetic<N>, { before, after, dish }: DriedSpecimen<N>): N {
  const { subtract, divide } = arithmetic;
  return divide(subtract(before, after), subtract(after, dish));
}
