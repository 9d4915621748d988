import type { Arithmetic } from "../numeric/arithmetic.ts";
import { toCelsius } from "./kelvin.ts";
import { discriminantRoot, SATURATION_LINE as n, quadratic } from "./saturation-line.ts";

/**
 * Temperature at which pure water boils under a pressure.
 *
 *     beta = (p / MPa)^(1/4)
 *     E = beta^2 + n3 beta + n6,  F = n1 beta^2 + n4 beta + n7,  G = n2 beta^2 + n5 beta + n8
 *     D = 2 G / (-F - sqrt(F^2 - 4 E G))
 *     T = [n10 + D - sqrt((n10 + D)^2 - 4 (n9 + n10 D))] / 2
 *
 * @param pressureKilopascal absolute pressure, kPa; domain 0.611213 to 22 064 kPa. Outside it the result has no meaning: the
 *   caller checks (see `waterAtPressure`).
 * @returns degrees Celsius (ITS-90)
 *
 * Source: IAPWS R7-97(2012), IAPWS-IF97, section 8.2, the backward equation of region 4 (equation 31).
 */
export function saturationTemperature<N>(a: Arithmetic<N>, pressureKilopascal: N): N {
  const beta = a.power(a.divide(pressureKilopascal, a.constant(1000)), 0.25);
  const e = quadratic(a, 1, n.n3, n.n6, beta);
  const f = quadratic(a, n.n1, n.n4, n.n7, beta);
  const g = quadratic(a, n.n2, n.n5, n.n8, beta);
  const negative = a.subtract(a.constant(0), a.add(f, discriminantRoot(a, e, f, g)));
  const d = a.divide(a.multiply(a.constant(2), g), negative);
  const middle = a.add(a.constant(n.n10), d);
  const last = a.add(a.constant(n.n9), a.multiply(a.constant(n.n10), d));
  const kelvin = a.divide(a.subtract(middle, discriminantRoot(a, a.constant(1), middle, last)), a.constant(2));
  return toCelsius(a, kelvin);
}
