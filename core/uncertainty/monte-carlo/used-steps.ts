import type { Model } from "../model.ts";
import { step, type Tape } from "../tape.ts";

/** Which steps of a tape the trials need. */
export interface UsedSteps {
  /** In the tape's order: those that vary and that an output depends on. */
  readonly order: readonly number[];
  /** For each step the first one that does the same, itself where there is none before it. */
  readonly same: Int32Array;
  /** 1 for a step that no error moves: its value is that at the best estimates. */
  readonly isFixed: Uint8Array;
}

/** Leaves out what no output needs, what does not vary, and what was worked out before. */
export function usedSteps({ tape, inputs, outputs }: Model): UsedSteps {
  const { length, steps, left, right } = tape;
  const isFixed = new Uint8Array(length);
  const same = new Int32Array(length);
  const known = new Map<string, number>();
  for (let node = 0; node < length; node += 1) {
    const kind = steps[node];
    const first = left[node] as number;
    if (kind === step.constant) isFixed[node] = 1;
    else if (kind === step.input) isFixed[node] = (inputs[first]?.errors ?? []).some(({ size }) => size !== 0) ? 0 : 1;
    else isFixed[node] = operandsOf(tape, node).every((operand) => isFixed[operand] === 1) ? 1 : 0;
    const text = textOf(tape, node, same);
    const before = known.get(text);
    same[node] = before ?? node;
    if (before === undefined) known.set(text, node);
  }
  const isNeeded = new Uint8Array(length);
  for (const output of outputs) isNeeded[same[output] as number] = 1;
  const order: number[] = [];
  for (let node = length - 1; node >= 0; node -= 1) {
    if (isNeeded[node] === 0 || isFixed[node] === 1) continue;
    order.push(node);
    for (const operand of operandsOf({ steps, left, right }, node)) isNeeded[same[operand] as number] = 1;
  }
  return { order: order.reverse(), same, isFixed };
}

/** Where the outputs of a model stand among those that vary and differ from each other. */
export interface OutputPlaces {
  /** For each output its place, in the order of first appearance; -1 where no error moves it. */
  readonly places: readonly number[];
  /** How many vary and differ. */
  readonly varying: number;
}

export function outputPlaces(model: Model, { same, isFixed }: UsedSteps = usedSteps(model)): OutputPlaces {
  const known = new Map<number, number>();
  const places = model.outputs.map((output) => {
    const node = same[output] as number;
    if (isFixed[node] === 1) return -1;
    if (!known.has(node)) known.set(node, known.size);
    return known.get(node) as number;
  });
  return { places, varying: known.size };
}

/** The earlier steps that a step uses. */
export function operandsOf({ steps, left, right }: Pick<Tape, "steps" | "left" | "right">, node: number): number[] {
  const first = left[node] as number;
  switch (steps[node]) {
    case step.constant:
    case step.input:
      return [];
    case step.power:
    case step.exponential:
    case step.through:
      return [first];
    default:
      return first === right[node] ? [first] : [first, right[node] as number];
  }
}

/** Equal texts are equal steps. Sums and products do not depend on their operands' order, to the last bit. */
function textOf({ steps, left, right, numbers }: Tape, node: number, same: Int32Array): string {
  const kind = steps[node] as number;
  const first = left[node] as number;
  const second = right[node] as number;
  switch (kind) {
    case step.constant:
      return `${kind} ${Object.is(numbers[node], -0) ? "-0" : numbers[node]}`;
    case step.input:
      return `${kind} ${first}`;
    case step.power:
    case step.exponential:
      return `${kind} ${same[first]} ${numbers[node]}`;
    case step.through:
      return `${kind} ${same[first]} ${second}`;
    default: {
      const [one, other] = [same[first] as number, same[second] as number];
      const inOrder = kind === step.add || kind === step.multiply ? one <= other : true;
      return inOrder ? `${kind} ${one} ${other}` : `${kind} ${other} ${one}`;
    }
  }
}
