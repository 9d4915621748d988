import type { Arithmetic } from "../numeric/arithmetic.ts";
import { powerSum, powerSumDerivative } from "../numeric/power-sum.ts";
import { evaluateSlope, GAS_CONSTANT, temperatureSlope } from "./gibbs-energy.ts";
import {
  REGION_2_IDEAL_GAS,
  REGION_2_PRESSURE_KILOPASCAL,
  REGION_2_RESIDUAL,
  REGION_2_TEMPERATURE_KELVIN,
  REGION_2_TEMPERATURE_SHIFT,
} from "./if97-region-2.ts";
import { toKelvin } from "./kelvin.ts";

const IDEAL_GAS_SLOPE = powerSumDerivative(REGION_2_IDEAL_GAS);
const RESIDUAL_SLOPE = temperatureSlope(REGION_2_RESIDUAL);

/**
 * Specific enthalpy of steam, counted from the liquid at the triple point (whose internal energy is zero).
 *
 *     h = R T tau (dgamma0/dtau + dgammar/dtau) = R T* (dgamma0/dtau + dgammar/dtau),   tau = T* / T,   pi = p / p*
 *
 * @param temperatureCelsius degrees Celsius (ITS-90); domain 0 to 800
 * @param pressureKilopascal absolute pressure, kPa; domain above 0, up to saturation below 350 degrees Celsius and to the
 *   boundary of region 3 above. Outside the domain the result has no meaning: the caller checks.
 * @returns kJ/kg
 *
 * Source: IAPWS R7-97(2012), IAPWS-IF97, region 2, equations 15 to 17 and Table 12.
 */
export function vapourEnthalpy<N>(a: Arithmetic<N>, temperatureCelsius: N, pressureKilopascal: N): N {
  const tau = a.divide(a.constant(REGION_2_TEMPERATURE_KELVIN), toKelvin(a, temperatureCelsius));
  const pi = a.divide(pressureKilopascal, a.constant(REGION_2_PRESSURE_KILOPASCAL));
  const idealGas = powerSum(a, IDEAL_GAS_SLOPE, tau);
  const residual = evaluateSlope(a, RESIDUAL_SLOPE, pi, a.subtract(tau, a.constant(REGION_2_TEMPERATURE_SHIFT)));
  return a.multiply(a.constant(GAS_CONSTANT * REGION_2_TEMPERATURE_KELVIN), a.add(idealGas, residual));
}
