import type { Arithmetic, FormulaOfOne } from "./arithmetic.ts";

/** A number that depends on one variable, and its derivative by it. */
export interface SlopeNumber {
  readonly value: number;
  readonly slope: number;
}

/** Numbers with their derivative by one variable, by the rules of calculus (forward-mode automatic differentiation). */
export const slopeNumbers: Arithmetic<SlopeNumber> = {
  constant: (value) => ({ value, slope: 0 }),
  add: (left, right) => ({ value: left.value + right.value, slope: left.slope + right.slope }),
  subtract: (left, right) => ({ value: left.value - right.value, slope: left.slope - right.slope }),
  multiply: (left, right) => ({
    value: left.value * right.value,
    slope: left.slope * right.value + left.value * right.slope,
  }),
  divide: (left, right) => {
    const value = left.value / right.value;
    return { value, slope: (left.slope - value * right.slope) / right.value };
  },
  power: (base, exponent) => ({
    value: base.value ** exponent,
    slope: base.slope === 0 ? 0 : exponent * base.value ** (exponent - 1) * base.slope,
  }),
  exponential: (argument) => {
    const value = Math.exp(argument.value);
    return { value, slope: value * argument.slope };
  },
  through: (formula, argument) => formula(slopeNumbers, argument),
  nominal: ({ value }) => value,
};

/** A function of one number and its derivative there. */
export function slopeAt(formula: FormulaOfOne, argument: number): SlopeNumber {
  return formula(slopeNumbers, { value: argument, slope: 1 });
}
