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
  /** How many steps there are; the arrays may be longer. */
  readonly length: number;
  readonly steps: Uint8Array;
  /** Left (or only) operand; for an input, its position among the model's inputs. */
  readonly left: Int32Array;
  /** Right operand of add, subtract, multiply and divide; for `through`, position in `formulas`. */
  readonly right: Int32Array;
  /** Value of a constant; exponent of a power. */
  readonly numbers: Float64Array;
  /** Value of each step at the best estimates. */
  readonly values: Float64Array;
  /** Derivative of each step by its left and by its right operand, at the best estimates. */
  readonly leftSlopes: Float64Array;
  readonly rightSlopes: Float64Array;
  readonly formulas: readonly FormulaOfOne[];
}

/** Takes down a model's steps. */
export interface TapeRecorder {
  readonly arithmetic: Arithmetic<Node>;
  /** An input whose error matters; `position` is its place among the model's inputs. One that is exact is a constant. */
  input(position: number, value: number): Node;
  /** What was recorded so far. */
  tape(): Tape;
  /** Begins anew in the same room: for one who records very many and keeps none, as the tape before is gone then. */
  restart(): void;
}

/** Where a tape is written. */
interface TapeRoom {
  steps: Uint8Array;
  left: Int32Array;
  right: Int32Array;
  numbers: Float64Array;
  values: Float64Array;
  leftSlopes: Float64Array;
  rightSlopes: Float64Array;
}

/** Steps of a run of three phases with all that can be measured, and some. */
const usualSteps = 512;

function tapeRoom(capacity: number = usualSteps): TapeRoom {
  return {
    steps: new Uint8Array(capacity),
    left: new Int32Array(capacity),
    right: new Int32Array(capacity),
    numbers: new Float64Array(capacity),
    values: new Float64Array(capacity),
    leftSlopes: new Float64Array(capacity),
    rightSlopes: new Float64Array(capacity),
  };
}

function enlarge(room: TapeRoom): void {
  const larger = tapeRoom(room.steps.length * 2);
  larger.steps.set(room.steps);
  larger.left.set(room.left);
  larger.right.set(room.right);
  larger.numbers.set(room.numbers);
  larger.values.set(room.values);
  larger.leftSlopes.set(room.leftSlopes);
  larger.rightSlopes.set(room.rightSlopes);
  Object.assign(room, larger);
}

/** Begins an empty tape. Steps with constants alone are worked out at once and leave no trace. */
export function recordTape(): TapeRecorder {
  const room = tapeRoom();
  let length = 0;
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
    if (length === room.steps.length) enlarge(room);
    const node = length;
    room.steps[node] = kind;
    room.values[node] = value;
    room.left[node] = first;
    room.right[node] = second;
    room.numbers[node] = number;
    room.leftSlopes[node] = byLeft;
    room.rightSlopes[node] = byRight;
    length += 1;
    return node as Node;
  }

  function constant(value: number): Node {
    const known = constants.get(value);
    // A Map takes 0 and -0 for one: they are kept apart.
    if (known !== undefined && Object.is(room.values[known], value)) return known;
    const node = push(step.constant, value, -1, -1, value, 0, 0);
    constants.set(value, node);
    return node;
  }

  const estimate = (node: Node) => room.values[node] as number;
  const isConstant = (node: Node) => room.steps[node] === step.constant;

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
    tape: () => ({ length, ...room, formulas }),
    restart() {
      length = 0;
      formulas.length = 0;
      constants.clear();
    },
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
