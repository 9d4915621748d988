import type { Arithmetic } from "../../core/numeric/arithmetic.ts";

/** A number and its derivatives by the readings it depends on, by their ids. */
export interface Dual {
  readonly value: number;
  readonly slopes: ReadonlyMap<string, number>;
}

/** The reading itself: its derivative by itself is one. */
export function variable(id: string, value: number): Dual {
  return { value, slopes: new Map([[id, 1]]) };
}

function combined(value: number, parts: readonly (readonly [Dual, number])[]): Dual {
  const slopes = new Map<string, number>();
  for (const [part, weight] of parts) {
    for (const [id, slope] of part.slopes) slopes.set(id, (slopes.get(id) ?? 0) + weight * slope);
  }
  return { value, slopes };
}

/** Forward-mode differentiation by the rules of calculus, in test code: the program's own is not used. */
export const dualNumbers: Arithmetic<Dual> = {
  constant: (value) => ({ value, slopes: new Map() }),
  add: (left, right) =>
    combined(left.value + right.value, [
      [left, 1],
      [right, 1],
    ]),
  subtract: (left, right) =>
    combined(left.value - right.value, [
      [left, 1],
      [right, -1],
    ]),
  multiply: (left, right) =>
    combined(left.value * right.value, [
      [left, right.value],
      [right, left.value],
    ]),
  divide: (left, right) =>
    combined(left.value / right.value, [
      [left, 1 / right.value],
      [right, -left.value / right.value ** 2],
    ]),
  power: (base, exponent) => combined(base.value ** exponent, [[base, exponent * base.value ** (exponent - 1)]]),
  exponential: (argument) => combined(Math.exp(argument.value), [[argument, Math.exp(argument.value)]]),
  through: (formula, argument) => formula(dualNumbers, argument),
  nominal: ({ value }) => value,
};
