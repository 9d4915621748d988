import type { Arithmetic } from "../../numeric/arithmetic.ts";

/**
 * Mean power of an energy released or gained over a phase: firepower from the fuel's energy (fd LHV under the Water Boiling
 * Test; the fuel's energy as received without char credit under ISO), cooking power from the heat that the water gained.
 *
 *   power = energy / (60 t)
 *
 * @param energy J
 * @param duration t, min, > 0
 * @returns W
 * Source: Water Boiling Test protocol, version 4.2.3 (2014); ISO 19867-1:2018.
 */
export function meanPower<N>(arithmetic: Arithmetic<N>, energy: N, duration: N): N {
  return arithmetic.divide(energy, arithmetic.multiply(arithmetic.constant(60), duration));
}
