import type { Arithmetic } from "./arithmetic.ts";

/** One term, `coefficient * x ** exponent`, of a correlation equation. */
export type PowerTerm = readonly [coefficient: number, exponent: number];

/**
 * Sum of coefficient * x^exponent over the terms: the form in which equations of state and other fitted correlations are
 * published. Exponents may be fractions. Domain: x > 0 unless every exponent is a whole number.
 */
export function powerSum<N>(a: Arithmetic<N>, terms: readonly PowerTerm[], x: N): N {
  return terms.reduce<N>(
    (total, [coefficient, exponent]) => a.add(total, a.multiply(a.constant(coefficient), a.power(x, exponent))),
    a.constant(0),
  );
}

/** The terms of the derivative with respect to x. */
export function powerSumDerivative(terms: readonly PowerTerm[]): readonly PowerTerm[] {
  return terms.map(([coefficient, exponent]) => [coefficient * exponent, exponent - 1] as const);
}
