import { type Arithmetic, sum } from "../../numeric/arithmetic.ts";
import type { FuelInputs } from "../phase-inputs.ts";

/**
 * Energy that all fuel entries of a phase brought.
 *
 *   sum(fm CV)
 *
 * @param fuels consumed mass in g
 * @param calorificValues one for each entry, kJ/kg as fired (effective value under the Water Boiling Test, net value as received under ISO)
 * @returns J
 * Source: Water Boiling Test protocol, version 4.2.3 (2014); ISO 19867-1:2018.
 */
export function fuelEnergy<N>(
  arithmetic: Arithmetic<N>,
  fuels: readonly FuelInputs<N>[],
  calorificValues: readonly N[],
): N {
  return sum(
    arithmetic,
    calorificValues.map((value, index) => arithmetic.multiply(fuels[index]?.consumed ?? arithmetic.constant(0), value)),
  );
}
