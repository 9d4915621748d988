import type { Arithmetic } from "../../numeric/arithmetic.ts";

/**
 * Burning rate: equivalent dry fuel per minute.
 *
 *   rate = fd / t
 *
 * @param fuelConsumed fd, g
 * @param duration t, min, > 0
 * @returns g/min
 * Source: Water Boiling Test protocol, version 4.2.3 (2014).
 */
export function burningRate<N>(arithmetic: Arithmetic<N>, fuelConsumed: N, duration: N): N {
  return arithmetic.divide(fuelConsumed, duration);
}
