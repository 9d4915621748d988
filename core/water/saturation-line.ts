import type { Arithmetic } from "../numeric/arithmetic.ts";

/**
 * Coefficients n1 to n10 of the saturation line, dimensionless for pressure in MPa and temperature in K.
 * Source: IAPWS R7-97(2012), IAPWS-IF97, region 4, Table 34.
 */
export const SATURATION_LINE = {
  n1: 0.11670521452767e4,
  n2: -0.72421316703206e6,
  n3: -0.17073846940092e2,
  n4: 0.1202082470247e5,
  n5: -0.32325550322333e7,
  n6: 0.1491510861353e2,
  n7: -0.48232657361591e4,
  n8: 0.40511340542057e6,
  n9: -0.23855557567849,
  n10: 0.65017534844798e3,
} as const;

/** Lowest pressure of the saturation line, kPa: saturation at 0 degrees Celsius (IAPWS-IF97, region 4). */
export const LOWEST_SATURATION_PRESSURE_KILOPASCAL = 0.611213;

/** Highest pressure of the saturation line, kPa: the critical pressure (IAPWS-IF97). */
export const HIGHEST_SATURATION_PRESSURE_KILOPASCAL = 22_064;

/** Lowest temperature of the saturation line, degrees Celsius (273.15 K; IAPWS-IF97, region 4). */
export const LOWEST_SATURATION_TEMPERATURE_CELSIUS = 0;

/** Highest temperature of the saturation line, degrees Celsius: the critical temperature, 647.096 K (IAPWS-IF97). */
export const HIGHEST_SATURATION_TEMPERATURE_CELSIUS = 373.946;

/** second * x^2 + first * x + zeroth, in any arithmetic. */
export function quadratic<N>(a: Arithmetic<N>, second: number, first: number, zeroth: number, x: N): N {
  const inner = a.add(a.multiply(a.constant(second), x), a.constant(first));
  return a.add(a.multiply(inner, x), a.constant(zeroth));
}

/** sqrt(middle^2 - 4 * outer * last): the root of a discriminant, in any arithmetic. */
export function discriminantRoot<N>(a: Arithmetic<N>, outer: N, middle: N, last: N): N {
  const fourProducts = a.multiply(a.constant(4), a.multiply(outer, last));
  return a.power(a.subtract(a.multiply(middle, middle), fourProducts), 0.5);
}
