import regularizedIncompleteBeta from "@stdlib/math-base-special-betainc";

/**
 * I(x; a, b), the regularized incomplete beta function; x from 0 to 1, a and b above 0.
 *
 * Source: @stdlib.
 */
export function lowerIncompleteBeta(x: number, a: number, b: number): number {
  return regularizedIncompleteBeta(x, a, b);
}

/**
 * 1 - I(x; a, b), accurate in relative terms where it is small.
 *
 * Where it is not small it is taken as the difference: the library's own complement (0.2.3) gives exactly 1 for a = b = 1/2 and
 * x below 1e-17, where it should differ from 1 by up to 2e-9.
 */
export function upperIncompleteBeta(x: number, a: number, b: number): number {
  const lower = lowerIncompleteBeta(x, a, b);
  return lower < 0.9 ? 1 - lower : regularizedIncompleteBeta(x, a, b, true, true);
}
