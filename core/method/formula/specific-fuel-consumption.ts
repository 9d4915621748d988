import type { Arithmetic } from "../../numeric/arithmetic.ts";

/**
 * Specific fuel consumption: equivalent dry fuel per litre of water boiled (or, at a simmer, remaining).
 *
 *   SC = 1000 fd / wr, with 1 g of water counted as 1 mL
 *
 * @param fuelConsumed fd, g
 * @param water wr, g, > 0
 * @returns g/L
 * Source: Water Boiling Test protocol, version 4.2.3 (2014).
 */
export function specificFuelConsumption<N>(arithmetic: Arithmetic<N>, fuelConsumed: N, water: N): N {
  return arithmetic.divide(arithmetic.multiply(arithmetic.constant(1000), fuelConsumed), water);
}
