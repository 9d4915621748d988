import { type Arithmetic, type FormulaOfOne, plainNumbers } from "../numeric/arithmetic.ts";
import { slopeAt } from "../numeric/slope-numbers.ts";

/** What a step of a tape does. */
export const step = {
  constant: 0,
  input: 1,
  add: 2,
  subtract: 3,
  multiply: 4,
  divide: 5,
  power: 6,
  exponential: 7,
  through: 8,
} as const;
export type Step = (typeof step)[keyof typeof step];

/** Position of a step on its tape. A type of its own, so that no plain number is taken for one. */
export type Node = number & { readonly isNode: true };

/**
 * The formulas of one model as the steps that they took: recorded once at the best estimates, then read as often as needed, backwards
 * for derivatives, forwards for trials. A step uses earlier steps only.
 */
export interface Tape {
  /** How many steps there are: the length of each array. */
  readonly length: number;
  readonly steps: readonly number[];
  /** Left (or only) operand; for an input, its position among the model's inputs. */
  readonly left: readonly number[];
  /** Right operand of add, subtract, multiply and divide; for `through`, position in `formulas`. */
  readonly right: readonly number[];
  /** Value of a constant; exponent of a power. */
  readonly numbers: readonly number[];
  /** Value of each step at the best estimates. */
  readonly values: readonly number[];
  /** Derivative of each step by its left and by its right operand, at the best estimates. */
  readonly leftSlopes: readonly number[];
  readonly rightSlopes: readonly number[];
  readonly formulas: readonly FormulaOfOne[];
}

/** Takes down a model's steps. */
export interface TapeRecorder {
  readonly arithmetic: Arithmetic<Node>;
  /** An input whose error matters; `position` is its place among the model's inputs. One that is exact is a constant. */
  input(position: number, value: number): Node;
  /** What was recorded so far. */
  tape(): Tape;
}

/** Begins an empty tape. Steps with constants alone are worked out at once and leave no trace. */
export function recordTape(): TapeRecorder {
  const steps: number[] = [];
  const left: number[] = [];
  const right: number[] = [];
  const numbers: number[] = [];
  const values: number[] = [];
  const leftSlopes: number[] = [];
  const rightSlopes: number[] = [];
  const formulas: FormulaOfOne[] = [];
  const constants = new Map<number, Node>();

  function push(
    kind: Step,
    value: number,
    first: number,
    second: number,
    number: number,
    byLeft: number,
    byRight: number,
  ) {
    values.push(value);
    left.push(first);
    right.push(second);
    numbers.push(number);
    leftSlopes.push(byLeft);
    rightSlopes.push(byRight);
    return (steps.push(kind) - 1) as Node;
  }

  function constant(value: number): Node {
    const known = constants.get(value);
    // A Map takes 0 and -0 for one: they are kept apart.
    if (known !== undefined && Object.is(values[known], value)) return known;
    const node = push(step.constant, value, -1, -1, value, 0, 0);
    constants.set(value, node);
    return node;
  }

  const estimate = (node: Node) => values[node] as number;
  const isConstant = (node: Node) => steps[node] === step.constant;

  function binary(kind: Step, a: Node, b: Node, value: number, leftSlope: number, rightSlope: number): Node {
    if (isConstant(a) && isConstant(b)) return constant(value);
    return push(kind, value, a, b, 0, leftSlope, rightSlope);
  }

  function unary(kind: Step, a: Node, second: number, number: number, value: number, slope: number): Node {
    return push(kind, value, a, second, number, slope, 0);
  }

  const arithmetic: Arithmetic<Node> = {
    constant,
    add: (a, b) => binary(step.add, a, b, estimate(a) + estimate(b), 1, 1),
    subtract: (a, b) => binary(step.subtract, a, b, estimate(a) - estimate(b), 1, -1),
    multiply: (a, b) => binary(step.multiply, a, b, estimate(a) * estimate(b), estimate(b), estimate(a)),
    divide: (a, b) => {
      const ratio = estimate(a) / estimate(b);
      return binary(step.divide, a, b, ratio, 1 / estimate(b), -ratio / estimate(b));
    },
    power: (a, exponent) => {
      const base = estimate(a);
      if (isConstant(a)) return constant(base ** exponent);
      return unary(step.power, a, -1, exponent, base ** exponent, exponent * base ** (exponent - 1));
    },
    exponential: (a) => {
      const value = Math.exp(estimate(a));
      return isConstant(a) ? constant(value) : unary(step.exponential, a, -1, 0, value, value);
    },
    through: (formula, a) => {
      if (isConstant(a)) return constant(formula(plainNumbers, estimate(a)));
      const { value, slope } = knownSlope(formula, estimate(a));
      const known = formulas.indexOf(formula);
      const at = known < 0 ? formulas.push(formula) - 1 : known;
      return unary(step.through, a, at, 0, value, slope);
    },
    nominal: estimate,
  };

  return {
    arithmetic,
    input: (position, value) => push(step.input, value, position, -1, 0, 0, 0),
    tape: () => ({ length: steps.length, steps, left, right, numbers, values, leftSlopes, rightSlopes, formulas }),
  };
}

const mostKnown = 512;
const slopes = new WeakMap<FormulaOfOne, Map<number, ReturnType<typeof slopeAt>>>();

/** Many runs are made at one boiling point: what was worked out there is kept for a while. */
function knownSlope(formula: FormulaOfOne, argument: number): ReturnType<typeof slopeAt> {
  const ofFormula = slopes.get(formula) ?? new Map<number, ReturnType<typeof slopeAt>>();
  slopes.set(formula, ofFormula);
  const known = ofFormula.get(argument) ?? slopeAt(formula, argument);
  if (ofFormula.size >= mostKnown) ofFormula.clear();
  ofFormula.set(argument, known);
  return known;
}
