import type { Arithmetic } from "../numeric/arithmetic.ts";

/** Lowest altitude this program accepts, m: below any place where people cook. */
export const LOWEST_ALTITUDE_METRES = -500;

/** Highest altitude, m: the top of the layer with the constant lapse rate of 6.5 K/km (ISO 2533:1975). */
export const HIGHEST_ALTITUDE_METRES = 11_000;

/**
 * Pressure of the standard atmosphere at an altitude: what a barometer would show on an average day.
 *
 *     p = 101.325 (1 - 2.25577e-5 z)^5.25588 kPa
 *
 * The factors are the standard's lapse rate over its sea-level temperature, 0.0065/288.15, and g M/(R * 0.0065), rounded to
 * six figures, which moves the result by less than 0.1 Pa anywhere in the domain.
 *
 * @param altitudeMetres geopotential altitude above sea level, m (below 5000 m a map's height differs from it by less than
 *   4 m); domain -500 to 11 000 m. Outside it the result has no meaning: the caller checks (see `waterAtAltitude`).
 * @returns kPa
 *
 * Source: ISO 2533:1975, Standard atmosphere, the troposphere's barometric formula (form and rounded factors from memory).
 */
export function standardAtmospherePressure<N>(a: Arithmetic<N>, altitudeMetres: N): N {
  const base = a.subtract(a.constant(1), a.multiply(a.constant(2.25577e-5), altitudeMetres));
  return a.multiply(a.constant(101.325), a.power(base, 5.25588));
}
