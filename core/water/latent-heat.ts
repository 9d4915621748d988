import type { Arithmetic } from "../numeric/arithmetic.ts";
import { type PowerTerm, powerSum, powerSumDerivative } from "../numeric/power-sum.ts";
import { toKelvin } from "./kelvin.ts";

/** Lowest temperature of the equations, degrees Celsius: the triple point, 273.16 K (IAPWS SR1-86(1992), section 6). */
export const LOWEST_LATENT_HEAT_TEMPERATURE_CELSIUS = 0.01;

/** Highest temperature, degrees Celsius, not itself included: the critical point, 647.096 K, where latent heat vanishes. */
export const HIGHEST_LATENT_HEAT_TEMPERATURE_CELSIUS = 373.946;

const CRITICAL_TEMPERATURE_KELVIN = 647.096;
const CRITICAL_PRESSURE_PASCAL = 22.064e6;
const CRITICAL_DENSITY_KILOGRAM_PER_CUBIC_METRE = 322;

/** Equation 1, coefficients a1 to a6 and the exponents of tau. */
const VAPOUR_PRESSURE: readonly PowerTerm[] = [
  [-7.85951783, 1],
  [1.84408259, 1.5],
  [-11.7866497, 3],
  [22.6807411, 3.5],
  [-15.9618719, 4],
  [1.80122502, 7.5],
];

/** Equation 2, coefficients b1 to b6 and the exponents of tau. */
const LIQUID_DENSITY: readonly PowerTerm[] = [
  [1.99274064, 1 / 3],
  [1.09965342, 2 / 3],
  [-0.510839303, 5 / 3],
  [-1.75493479, 16 / 3],
  [-45.5170352, 43 / 3],
  [-6.7469445e5, 110 / 3],
];

/** Equation 3, coefficients c1 to c6 and the exponents of tau. */
const VAPOUR_DENSITY: readonly PowerTerm[] = [
  [-2.0315024, 2 / 6],
  [-2.6830294, 4 / 6],
  [-5.38626492, 8 / 6],
  [-17.2991605, 18 / 6],
  [-44.7586581, 37 / 6],
  [-63.9201063, 71 / 6],
];

const VAPOUR_PRESSURE_SLOPE = powerSumDerivative(VAPOUR_PRESSURE);

/**
 * Latent heat of vaporization of pure water at saturation, h'' - h': the energy that a gram of water lost as steam carried
 * away. The enthalpies of the source are h' = alpha + (T/rho') dp/dT and h'' = alpha + (T/rho'') dp/dT, so alpha drops out:
 *
 *     L = T (1/rho'' - 1/rho') dp/dT
 *     tau = 1 - T/Tc
 *     ln(p/pc) = (Tc/T) A(tau),   dp/dT = -(p/T) [ln(p/pc) + A'(tau)]
 *     rho'/rhoc = 1 + B(tau),     ln(rho''/rhoc) = C(tau)
 *
 * @param temperatureCelsius degrees Celsius (ITS-90); domain 0.01 up to, not including, 373.946. Outside it the result has no
 *   meaning: the caller checks (see `waterAtPressure`).
 * @returns kJ/kg
 *
 * Source: IAPWS SR1-86(1992), Revised Supplementary Release on Saturation Properties of Ordinary Water Substance,
 * equations 1, 2, 3, 6 and 7 (Wagner and Pruss, J. Phys. Chem. Ref. Data 22, 783, 1993).
 */
export function latentHeat<N>(a: Arithmetic<N>, temperatureCelsius: N): N {
  const kelvin = toKelvin(a, temperatureCelsius);
  const reduced = a.divide(kelvin, a.constant(CRITICAL_TEMPERATURE_KELVIN));
  const tau = a.subtract(a.constant(1), reduced);
  const logPressure = a.divide(powerSum(a, VAPOUR_PRESSURE, tau), reduced);
  const pressure = a.multiply(a.constant(CRITICAL_PRESSURE_PASCAL), a.exponential(logPressure));
  // T dp/dT, in Pa; the sign of the bracket is taken in by subtracting from zero.
  const bracket = a.add(logPressure, powerSum(a, VAPOUR_PRESSURE_SLOPE, tau));
  const temperatureTimesSlope = a.subtract(a.constant(0), a.multiply(pressure, bracket));
  const criticalDensity = a.constant(CRITICAL_DENSITY_KILOGRAM_PER_CUBIC_METRE);
  const liquid = a.multiply(criticalDensity, a.add(a.constant(1), powerSum(a, LIQUID_DENSITY, tau)));
  const vapour = a.multiply(criticalDensity, a.exponential(powerSum(a, VAPOUR_DENSITY, tau)));
  const volumeGained = a.subtract(a.divide(a.constant(1), vapour), a.divide(a.constant(1), liquid));
  return a.divide(a.multiply(temperatureTimesSlope, volumeGained), a.constant(1000));
}
