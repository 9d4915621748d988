import { type Arithmetic, sum } from "../../numeric/arithmetic.ts";
import { constants } from "../../quantity/constants.ts";
import type { PotInputs } from "../phase-inputs.ts";

/**
 * Heat gained by the water: what warmed it and what turned part of it into steam.
 *
 *   Q = 4.186 sum((start - empty) (Tend - Tstart)) + 2260 wv
 *
 * @param pots water at the start and lost in g, temperatures in °C
 * @returns J
 * Source: Water Boiling Test protocol, version 4.2.3 (2014), numerator of the thermal efficiency.
 */
export function heatGainedByWater<N>(arithmetic: Arithmetic<N>, pots: readonly PotInputs<N>[]): N {
  const { add, constant, multiply } = arithmetic;
  const sensible = multiply(constant(constants.specificHeatOfWaterWbt.value), waterTimesRise(arithmetic, pots));
  const evaporated = sum(
    arithmetic,
    pots.map((pot) => pot.waterLost),
  );
  return add(sensible, multiply(constant(constants.latentHeatOfEvaporatedWater.value), evaporated));
}

/** Sum over pots of water at the start times its rise in temperature, g·K. */
export function waterTimesRise<N>(arithmetic: Arithmetic<N>, pots: readonly PotInputs<N>[]): N {
  const { multiply, subtract } = arithmetic;
  return sum(
    arithmetic,
    pots.map((pot) => multiply(pot.waterStart, subtract(pot.temperatureEnd, pot.temperatureStart))),
  );
}
