import type { Arithmetic } from "../numeric/arithmetic.ts";
import { toKelvin } from "./kelvin.ts";
import { discriminantRoot, SATURATION_LINE as n, quadratic } from "./saturation-line.ts";

/**
 * Pressure under which pure water boils at a temperature.
 *
 *     theta = T + n9 / (T - n10)
 *     A = theta^2 + n1 theta + n2,  B = n3 theta^2 + n4 theta + n5,  C = n6 theta^2 + n7 theta + n8
 *     p = [2 C / (-B + sqrt(B^2 - 4 A C))]^4 MPa
 *
 * @param temperatureCelsius degrees Celsius (ITS-90); domain 0 to 373.946. Outside it the result has no meaning: the caller
 *   checks.
 * @returns absolute pressure, kPa
 *
 * Source: IAPWS R7-97(2012), IAPWS-IF97, section 8.1, the basic equation of region 4 (equation 30).
 */
export function saturationPressure<N>(a: Arithmetic<N>, temperatureCelsius: N): N {
  const kelvin = toKelvin(a, temperatureCelsius);
  const theta = a.add(kelvin, a.divide(a.constant(n.n9), a.subtract(kelvin, a.constant(n.n10))));
  const first = quadratic(a, 1, n.n1, n.n2, theta);
  const second = quadratic(a, n.n3, n.n4, n.n5, theta);
  const third = quadratic(a, n.n6, n.n7, n.n8, theta);
  const denominator = a.subtract(discriminantRoot(a, first, second, third), second);
  const megapascal = a.power(a.divide(a.multiply(a.constant(2), third), denominator), 4);
  return a.multiply(a.constant(1000), megapascal);
}
