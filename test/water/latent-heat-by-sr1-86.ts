import { ZERO_CELSIUS_KELVIN } from "../../core/water/kelvin.ts";

/**
 * Latent heat by other equations than the program's: IAPWS SR1-86(1992), Revised Supplementary Release on Saturation
 * Properties of Ordinary Water Substance, equations 1, 2, 3, 6 and 7 (Wagner and Pruss, J. Phys. Chem. Ref. Data 22, 783, 1993).
 * They give the saturation pressure and the two densities, and the latent heat by the Clapeyron equation:
 *
 *     L = T (1/rho'' - 1/rho') dp/dT
 *     tau = 1 - T/Tc
 *     ln(p/pc) = (Tc/T) A(tau),   T dp/dT = -p [ln(p/pc) + A'(tau)]
 *     rho'/rhoc = 1 + B(tau),     ln(rho''/rhoc) = C(tau)
 */

type Term = readonly [coefficient: number, exponent: number];

const CRITICAL_TEMPERATURE_KELVIN = 647.096;
const CRITICAL_PRESSURE_KILOPASCAL = 22_064;
const CRITICAL_DENSITY = 322;

const PRESSURE: readonly Term[] = [
  [-7.85951783, 1],
  [1.84408259, 1.5],
  [-11.7866497, 3],
  [22.6807411, 3.5],
  [-15.9618719, 4],
  [1.80122502, 7.5],
];

const LIQUID_DENSITY: readonly Term[] = [
  [1.99274064, 1 / 3],
  [1.09965342, 2 / 3],
  [-0.510839303, 5 / 3],
  [-1.75493479, 16 / 3],
  [-45.5170352, 43 / 3],
  [-6.7469445e5, 110 / 3],
];

const VAPOUR_DENSITY: readonly Term[] = [
  [-2.0315024, 2 / 6],
  [-2.6830294, 4 / 6],
  [-5.38626492, 8 / 6],
  [-17.2991605, 18 / 6],
  [-44.7586581, 37 / 6],
  [-63.9201063, 71 / 6],
];

const sumOf = (terms: readonly Term[], x: number) =>
  terms.reduce((total, [n, exponent]) => total + n * x ** exponent, 0);
const slopeOf = (terms: readonly Term[], x: number) =>
  terms.reduce((total, [n, exponent]) => total + n * exponent * x ** (exponent - 1), 0);

/** kJ/kg at a temperature in degrees Celsius, 0.01 up to, not including, 373.946. */
export function latentHeatBySr186(celsius: number): number {
  const kelvin = celsius + ZERO_CELSIUS_KELVIN;
  const tau = 1 - kelvin / CRITICAL_TEMPERATURE_KELVIN;
  const logPressure = (CRITICAL_TEMPERATURE_KELVIN / kelvin) * sumOf(PRESSURE, tau);
  const pressure = CRITICAL_PRESSURE_KILOPASCAL * Math.exp(logPressure);
  const temperatureTimesSlope = -pressure * (logPressure + slopeOf(PRESSURE, tau));
  const liquid = CRITICAL_DENSITY * (1 + sumOf(LIQUID_DENSITY, tau));
  const vapour = CRITICAL_DENSITY * Math.exp(sumOf(VAPOUR_DENSITY, tau));
  return temperatureTimesSlope * (1 / vapour - 1 / liquid);
}
