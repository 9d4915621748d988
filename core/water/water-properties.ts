import { plainNumbers } from "../numeric/arithmetic.ts";
import { boilingPointAtPressure } from "./boiling-point.ts";
import { latentHeat } from "./latent-heat.ts";
import { HIGHEST_ALTITUDE_METRES, LOWEST_ALTITUDE_METRES, standardAtmospherePressure } from "./standard-atmosphere.ts";

/** Lowest pressure answered, kPa: just above water's triple point, so that boiling point and latent heat both exist. */
export const LOWEST_PRESSURE_KILOPASCAL = 0.7;

/** Highest pressure answered, kPa: saturation just below 350 degrees Celsius, up to where latent heat is computed. */
export const HIGHEST_PRESSURE_KILOPASCAL = 16_529;

/** Boiling water at one place. */
export interface WaterAtBoiling {
  readonly ok: true;
  /** Absolute pressure, kPa. */
  readonly pressure: number;
  /** Boiling point, degrees Celsius. */
  readonly boilingPoint: number;
  /** Latent heat of vaporization at that boiling point, kJ/kg. */
  readonly latentHeat: number;
}

/** Why there is no answer. NaN counts as outside the range. */
export interface NoWaterProperties {
  readonly ok: false;
  readonly because: "pressure-outside-range" | "altitude-outside-range";
  /** The range that is answered, in the argument's unit, both ends included. */
  readonly lowest: number;
  readonly highest: number;
}

export type WaterProperties = WaterAtBoiling | NoWaterProperties;

/**
 * Boiling point and latent heat of pure water under a pressure.
 *
 * @param pressureKilopascal absolute pressure, kPa; answered from 0.7 to 16 529
 */
export function waterAtPressure(pressureKilopascal: number): WaterProperties {
  if (!(pressureKilopascal >= LOWEST_PRESSURE_KILOPASCAL && pressureKilopascal <= HIGHEST_PRESSURE_KILOPASCAL)) {
    return {
      ok: false,
      because: "pressure-outside-range",
      lowest: LOWEST_PRESSURE_KILOPASCAL,
      highest: HIGHEST_PRESSURE_KILOPASCAL,
    };
  }
  const boilingPoint = boilingPointAtPressure(plainNumbers, pressureKilopascal);
  return { ok: true, pressure: pressureKilopascal, boilingPoint, latentHeat: latentHeat(plainNumbers, boilingPoint) };
}

/**
 * Pressure, boiling point and latent heat at an altitude, through the standard atmosphere of ISO 2533.
 *
 * @param altitudeMetres geopotential altitude, m; answered from -500 to 11 000
 */
export function waterAtAltitude(altitudeMetres: number): WaterProperties {
  if (!(altitudeMetres >= LOWEST_ALTITUDE_METRES && altitudeMetres <= HIGHEST_ALTITUDE_METRES)) {
    return {
      ok: false,
      because: "altitude-outside-range",
      lowest: LOWEST_ALTITUDE_METRES,
      highest: HIGHEST_ALTITUDE_METRES,
    };
  }
  return waterAtPressure(standardAtmospherePressure(plainNumbers, altitudeMetres));
}
