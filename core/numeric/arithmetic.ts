/**
 * The operations that the formulas of this program are written in.
 *
 * A formula takes an `Arithmetic<N>` as its first argument, so that one text of the formula serves plain numbers, numbers
 * that carry derivatives (first-order uncertainty) and whole arrays of trials (Monte Carlo): there is never a second copy.
 */
export interface Arithmetic<N> {
  /** A number that carries no uncertainty: a constant of nature, a definition, a default. */
  constant(value: number): N;
  add(left: N, right: N): N;
  subtract(left: N, right: N): N;
  multiply(left: N, right: N): N;
  divide(left: N, right: N): N;
  /** `base` to a fixed real power. */
  power(base: N, exponent: number): N;
  exponential(argument: N): N;
  /**
   * The value of a smooth function of one number, written for any arithmetic. Long functions are put through this rather than
   * called, so that an arithmetic can take their slope, or a table of them, instead of each of their steps.
   */
  through(formula: FormulaOfOne, argument: N): N;
  /** The best estimate as a plain number: for deciding whether a formula applies, never for computing on. */
  nominal(value: N): number;
}

/** A function of one number, in any arithmetic. Smooth over the whole range of its arguments. */
export type FormulaOfOne = <M>(arithmetic: Arithmetic<M>, argument: M) => M;

/** The plain numbers. */
export const plainNumbers: Arithmetic<number> = {
  constant: (value) => value,
  add: (left, right) => left + right,
  subtract: (left, right) => left - right,
  multiply: (left, right) => left * right,
  divide: (left, right) => left / right,
  power: (base, exponent) => base ** exponent,
  exponential: (argument) => Math.exp(argument),
  through: (formula, argument) => formula(plainNumbers, argument),
  nominal: (value) => value,
};

/** Sum of a list, zero for an empty one. */
export function sum<N>(arithmetic: Arithmetic<N>, terms: readonly N[]): N {
  const [first, ...rest] = terms;
  if (first === undefined) return arithmetic.constant(0);
  return rest.reduce((total, term) => arithmetic.add(total, term), first);
}

/** Arithmetic mean of a list of at least one. */
export function mean<N>(arithmetic: Arithmetic<N>, values: readonly N[]): N {
  return arithmetic.divide(sum(arithmetic, values), arithmetic.constant(values.length));
}
