import type { Arithmetic } from "../numeric/arithmetic.ts";
import { liquidEnthalpy } from "./liquid-enthalpy.ts";
import { saturationPressure } from "./saturation-pressure.ts";
import { vapourEnthalpy } from "./vapour-enthalpy.ts";

/** Lowest temperature, degrees Celsius: the triple point, 273.16 K, below which ice is what melts or sublimes. */
export const LOWEST_LATENT_HEAT_TEMPERATURE_CELSIUS = 0.01;

/** Highest temperature, degrees Celsius: 623.15 K, where regions 1 and 2 of IAPWS-IF97 end on the saturation line. */
export const HIGHEST_LATENT_HEAT_TEMPERATURE_CELSIUS = 350;

/**
 * Latent heat of vaporization of pure water at saturation, h'' - h': the energy that a gram of water lost as steam carried
 * away. Both enthalpies are taken at the saturation pressure of the temperature, so that boiling point and latent heat come
 * from one formulation.
 *
 * @param temperatureCelsius degrees Celsius (ITS-90); domain 0.01 to 350. Outside it the result has no meaning: the caller
 *   checks (see `waterAtPressure`).
 * @returns kJ/kg
 *
 * Source: IAPWS R7-97(2012), IAPWS-IF97, regions 1 (h'), 2 (h'') and 4 (saturation pressure).
 */
export function latentHeat<N>(a: Arithmetic<N>, temperatureCelsius: N): N {
  const pressure = saturationPressure(a, temperatureCelsius);
  return a.subtract(vapourEnthalpy(a, temperatureCelsius, pressure), liquidEnthalpy(a, temperatureCelsius, pressure));
}
