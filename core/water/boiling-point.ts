import type { Arithmetic } from "../numeric/arithmetic.ts";
import { saturationTemperature } from "./saturation-temperature.ts";
import { standardAtmospherePressure } from "./standard-atmosphere.ts";

/**
 * Local boiling point from a barometer's reading: the temperature of the water line in a pot that boils there.
 *
 * @param pressureKilopascal absolute air pressure at the place of the test (not reduced to sea level), kPa; domain as for
 *   `saturationTemperature`
 * @returns degrees Celsius
 *
 * Source: IAPWS-IF97, region 4, backward equation.
 */
export function boilingPointAtPressure<N>(a: Arithmetic<N>, pressureKilopascal: N): N {
  return saturationTemperature(a, pressureKilopascal);
}

/**
 * Local boiling point where only the altitude is known: through the standard atmosphere. Weather moves the real one by
 * some tenths of a kelvin.
 *
 * @param altitudeMetres geopotential altitude, m; domain -500 to 11 000 m
 * @returns degrees Celsius
 *
 * Source: ISO 2533:1975 and IAPWS-IF97, region 4.
 */
export function boilingPointAtAltitude<N>(a: Arithmetic<N>, altitudeMetres: N): N {
  return boilingPointAtPressure(a, standardAtmospherePressure(a, altitudeMetres));
}
