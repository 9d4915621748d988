import { type Arithmetic, plainNumbers } from "../../core/numeric/arithmetic.ts";

/** The three trials that every list in these tests has. */
const TRIALS = [0, 1, 2];

function each(operation: (trial: number) => number): number[] {
  return TRIALS.map(operation);
}

function at(list: readonly number[], trial: number): number {
  const value = list[trial];
  if (value === undefined) throw new RangeError(`no trial ${trial}`);
  return value;
}

/** Arithmetic on lists of three trials, element by element: a second number type to try a generic formula with. */
export const inTrials: Arithmetic<number[]> = {
  constant: (value) => each(() => value),
  add: (left, right) => each((trial) => plainNumbers.add(at(left, trial), at(right, trial))),
  subtract: (left, right) => each((trial) => plainNumbers.subtract(at(left, trial), at(right, trial))),
  multiply: (left, right) => each((trial) => plainNumbers.multiply(at(left, trial), at(right, trial))),
  divide: (left, right) => each((trial) => plainNumbers.divide(at(left, trial), at(right, trial))),
  power: (base, exponent) => each((trial) => plainNumbers.power(at(base, trial), exponent)),
  exponential: (argument) => each((trial) => plainNumbers.exponential(at(argument, trial))),
  through: (formula, argument) => formula(inTrials, argument),
  nominal: (list) => at(list, 0),
};
