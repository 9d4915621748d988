import { type Arithmetic, sum } from "../../numeric/arithmetic.ts";
import type { PotInputs } from "../phase-inputs.ts";

/**
 * Effective mass of water boiled: the water left in the pots, scaled by how far each came towards boiling.
 *
 *   wr = sum over pots of (end - empty) (Tend - Tstart) / (Tb - Tstart)
 *
 * @param pots water at the end in g, temperatures in °C, each pot's Tstart < Tb
 * @param boilingPoint Tb, °C
 * @returns g
 * Source: Water Boiling Test protocol, version 4.2.3 (2014), cold and hot start.
 */
export function effectiveWaterBoiled<N>(arithmetic: Arithmetic<N>, pots: readonly PotInputs<N>[], boilingPoint: N): N {
  const { divide, multiply, subtract } = arithmetic;
  return sum(
    arithmetic,
    pots.map((pot) => {
      const reached = subtract(pot.temperatureEnd, pot.temperatureStart);
      const needed = subtract(boilingPoint, pot.temperatureStart);
      return divide(multiply(pot.waterEnd, reached), needed);
    }),
  );
}
