import type { Arithmetic } from "../numeric/arithmetic.ts";
import { evaluateSlope, GAS_CONSTANT, temperatureSlope } from "./gibbs-energy.ts";
import {
  REGION_1,
  REGION_1_PRESSURE_KILOPASCAL,
  REGION_1_PRESSURE_SHIFT,
  REGION_1_TEMPERATURE_KELVIN,
  REGION_1_TEMPERATURE_SHIFT,
} from "./if97-region-1.ts";
import { toKelvin } from "./kelvin.ts";

const SLOPE = temperatureSlope(REGION_1);

/**
 * Specific enthalpy of liquid water, counted from the liquid at the triple point (whose internal energy is zero).
 *
 *     h = R T tau dgamma/dtau = R T* dgamma/dtau,   tau = T* / T,   pi = p / p*
 *
 * @param temperatureCelsius degrees Celsius (ITS-90); domain 0 to 350
 * @param pressureKilopascal absolute pressure, kPa; domain from saturation to 100 000. Outside the domain the result has no
 *   meaning: the caller checks.
 * @returns kJ/kg
 *
 * Source: IAPWS R7-97(2012), IAPWS-IF97, region 1, equation 7 and Table 3.
 */
export function liquidEnthalpy<N>(a: Arithmetic<N>, temperatureCelsius: N, pressureKilopascal: N): N {
  const tau = a.divide(a.constant(REGION_1_TEMPERATURE_KELVIN), toKelvin(a, temperatureCelsius));
  const pi = a.divide(pressureKilopascal, a.constant(REGION_1_PRESSURE_KILOPASCAL));
  const byPressure = a.subtract(a.constant(REGION_1_PRESSURE_SHIFT), pi);
  const byTemperature = a.subtract(tau, a.constant(REGION_1_TEMPERATURE_SHIFT));
  const slope = evaluateSlope(a, SLOPE, byPressure, byTemperature);
  return a.multiply(a.constant(GAS_CONSTANT * REGION_1_TEMPERATURE_KELVIN), slope);
}
