import { type Arithmetic, sum } from "../../numeric/arithmetic.ts";
import { constants } from "../../quantity/constants.ts";
import type { PotInputs } from "../phase-inputs.ts";
import { waterTimesRise } from "./heat-gained-by-water.ts";

/**
 * Useful energy delivered: what warmed the water and what boiled part of it away at the local boiling point.
 *
 *   Q1 = sum(4.18 water (Tend - Tstart) + L lost)
 *
 * @param pots water at the start and lost in g, temperatures in °C
 * @param latentHeat L at the local boiling point, kJ/kg
 * @returns J
 * Source: ISO 19867-1:2018 (from memory of the clause; the specific heat is named in the report).
 */
export function isoUsefulEnergy<N>(arithmetic: Arithmetic<N>, pots: readonly PotInputs<N>[], latentHeat: N): N {
  const { add, constant, multiply } = arithmetic;
  const sensible = multiply(constant(constants.specificHeatOfWaterIso.value), waterTimesRise(arithmetic, pots));
  const lost = sum(
    arithmetic,
    pots.map((pot) => pot.waterLost),
  );
  return add(sensible, multiply(latentHeat, lost));
}
