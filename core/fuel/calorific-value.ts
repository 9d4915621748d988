import type { Arithmetic } from "../numeric/arithmetic.ts";
import { constants } from "../quantity/constants.ts";

/**
 * Net calorific value of the dry fuel from its gross value, constant pressure: what is left when the water that the hydrogen
 * burns to leaves as steam.
 *
 *   LHV = HHV - 2442 * 8.936 * H
 *
 * @param gross HHV, kJ/kg dry, > 0
 * @param hydrogen H, mass fraction of the dry fuel, 0 <= H < 0.2
 * @returns kJ/kg dry
 * Source: enthalpy balance at 25 °C. ISO 18125:2017's own form, HHV - 212.2 H% - 0.8 (O% + N%) J/g, starts from the value at
 * constant volume and differs by under 0.3 % for wood.
 */
export function netFromGross<N>(arithmetic: Arithmetic<N>, gross: N, hydrogen: N): N {
  const perHydrogen = constants.latentHeatAt25C.value * constants.waterFromHydrogen.value;
  return arithmetic.subtract(gross, arithmetic.multiply(arithmetic.constant(perHydrogen), hydrogen));
}

/**
 * Net calorific value of the fuel as received: dry wood diluted by its water, which leaves as steam.
 *
 *   LHVar = LHV (1 - m) - 2443 m
 *
 * @param net LHV, kJ/kg dry
 * @param moisture m, wet basis, fraction, 0 <= m < 1
 * @returns kJ/kg as received
 * Source: ISO 18125:2017, conversion to the as-received basis (from memory).
 */
export function netAsReceived<N>(arithmetic: Arithmetic<N>, net: N, moisture: N): N {
  const { constant, multiply, subtract } = arithmetic;
  const dryPart = multiply(net, subtract(constant(1), moisture));
  return subtract(dryPart, multiply(constant(constants.latentHeatAsReceived.value), moisture));
}

/**
 * Effective calorific value: the energy that a kilogram of moist wood brings to the fire after its own water has been
 * heated from the air's temperature to boiling and boiled off.
 *
 *   EHV = LHV (1 - m) - m [4.186 (Tb - Ta) + 2257]
 *
 * @param net LHV, kJ/kg dry
 * @param moisture m, wet basis, fraction, 0 <= m < 1
 * @param boilingPoint Tb, °C
 * @param airTemperature Ta, °C
 * @returns kJ/kg as fired
 * Source: Water Boiling Test protocol, version 4.2.3 (2014), variables constant throughout the phases.
 */
export function effectiveCalorificValue<N>(
  arithmetic: Arithmetic<N>,
  net: N,
  moisture: N,
  boilingPoint: N,
  airTemperature: N,
): N {
  const { add, constant, multiply, subtract } = arithmetic;
  const heating = multiply(constant(constants.specificHeatOfWaterWbt.value), subtract(boilingPoint, airTemperature));
  const perWater = add(heating, constant(constants.latentHeatInFuelMoisture.value));
  return subtract(multiply(net, subtract(constant(1), moisture)), multiply(moisture, perWater));
}
