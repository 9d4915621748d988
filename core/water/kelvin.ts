import type { Arithmetic } from "../numeric/arithmetic.ts";

/** Zero of the Celsius scale in kelvin; exact (SI brochure, 9th edition, 2.3.1). */
export const ZERO_CELSIUS_KELVIN = 273.15;

/** Degrees Celsius to kelvin. */
export function toKelvin<N>(a: Arithmetic<N>, temperatureCelsius: N): N {
  return a.add(temperatureCelsius, a.constant(ZERO_CELSIUS_KELVIN));
}

/** Kelvin to degrees Celsius. */
export function toCelsius<N>(a: Arithmetic<N>, temperatureKelvin: N): N {
  return a.subtract(temperatureKelvin, a.constant(ZERO_CELSIUS_KELVIN));
}
