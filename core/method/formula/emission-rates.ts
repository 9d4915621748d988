import type { Arithmetic } from "../../numeric/arithmetic.ts";

/**
 * Emission per energy delivered to the water.
 *
 *   emitted / (Q / 10^6)
 *
 * @param emitted g or mg
 * @param energyDelivered Q for a Water Boiling Test, Q1 for an ISO run, J, > 0
 * @returns per MJ
 * Source: Water Boiling Test protocol, version 4.2.3 (2014); ISO 19867-1:2018.
 */
export function emissionPerEnergyDelivered<N>(arithmetic: Arithmetic<N>, emitted: N, energyDelivered: N): N {
  return arithmetic.divide(emitted, arithmetic.divide(energyDelivered, arithmetic.constant(1e6)));
}

/** Emission per minute: emitted / t, with t in min. Source: Water Boiling Test protocol, version 4.2.3 (2014). */
export function emissionRate<N>(arithmetic: Arithmetic<N>, emitted: N, duration: N): N {
  return arithmetic.divide(emitted, duration);
}

/**
 * Emission per minute and litre of water remaining: emitted / (t wr / 1000), with t in min and wr in g.
 * Source: Water Boiling Test protocol, version 4.2.3 (2014), low power.
 */
export function emissionRatePerLitre<N>(arithmetic: Arithmetic<N>, emitted: N, duration: N, water: N): N {
  const litres = arithmetic.divide(water, arithmetic.constant(1000));
  return arithmetic.divide(emitted, arithmetic.multiply(duration, litres));
}

/**
 * Emission per kg of equivalent dry fuel: emitted / (fd / 1000), with fd in g.
 * Source: Water Boiling Test protocol, version 4.2.3 (2014).
 */
export function emissionPerDryFuel<N>(arithmetic: Arithmetic<N>, emitted: N, fuelConsumed: N): N {
  return arithmetic.divide(emitted, arithmetic.divide(fuelConsumed, arithmetic.constant(1000)));
}
