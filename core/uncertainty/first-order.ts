import type { ErrorSource } from "./error-source.ts";
import { freedomOf } from "./freedom-of.ts";
import type { Model } from "./model.ts";
import { step } from "./tape.ts";

/** What first order tells of one output. */
export interface FirstOrder {
  readonly value: number;
  /** u_c, in the output's unit. */
  readonly standardUncertainty: number;
  /** Effective degrees of freedom; Infinity where every error's size is taken as exactly known. */
  readonly degreesOfFreedom: number;
  /** For each source of the model: how far one standard uncertainty of it alone moves the output, with its sign. */
  readonly contributions: Float64Array;
}

/**
 * The law of propagation of uncertainty: each source's contribution is the sum, over the inputs that it enters, of the output's
 * derivative by the input times the size there; their squares add up. Inputs that share a source are thereby correlated.
 *
 *   u_c^2 = sum_j (sum_i df/dx_i size_ij)^2
 *
 * Source: JCGM 100:2008, 5.1.2 (equation 10), 5.2.2 (equation 13; for correlation through common sources see F.1.2.3), G.4.1.
 */
export function firstOrder(model: Model): FirstOrder[] {
  const { tape, sources, outputs } = model;
  const width = sources.length;
  const table = contributionTable(model);
  const freedoms = inverseFreedoms(sources);
  return outputs.map((output, index): FirstOrder => {
    const [from, to] = [index * width, (index + 1) * width];
    const { standardUncertainty, degreesOfFreedom } = combineRow(table, from, to, freedoms);
    return {
      value: tape.values[output] as number,
      standardUncertainty,
      degreesOfFreedom,
      get contributions() {
        return table.subarray(from, to);
      },
    };
  });
}

/** Each source's contribution to each output, a row an output. */
function contributionTable(model: Model): Float64Array {
  const { outputs, sources } = model;
  const width = sources.length;
  const rows = contributionsOfSteps(model);
  const table = new Float64Array(outputs.length * width);
  let at = 0;
  for (const output of outputs) {
    const from = output * width;
    for (let column = 0; column < width; column += 1, at += 1) table[at] = rows[from + column] as number;
  }
  return table;
}

/** Filled anew by each call: runs are many, and their rows of one size. */
let rowsRoom = new Float64Array(0);
let reachRoom = new Int32Array(0);

/**
 * For each step of the tape a row with each source's contribution to it, by the chain rule from the inputs on (forward-mode automatic
 * differentiation along all sources at once). Good until the next call.
 */
export function contributionsOfSteps({ tape, inputs, sources }: Model): Float64Array {
  const { length, steps, left, right, leftSlopes, rightSlopes } = tape;
  const width = sources.length;
  if (rowsRoom.length < length * width) rowsRoom = new Float64Array(length * width);
  if (reachRoom.length < length) reachRoom = new Int32Array(length);
  const rows = rowsRoom;
  // Sources are numbered as inputs come up: behind the last one that a step depends on its row is all zeros.
  const reach = reachRoom;
  rows.fill(0, 0, length * width);
  for (let node = 0; node < length; node += 1) {
    const kind = steps[node];
    reach[node] = 0;
    if (kind === step.constant) continue;
    const row = node * width;
    const first = left[node] as number;
    if (kind === step.input) {
      for (const { source, size } of inputs[first]?.errors ?? []) {
        rows[row + source] = size + (rows[row + source] as number);
        reach[node] = Math.max(reach[node] as number, source + 1);
      }
      continue;
    }
    const byFirst = leftSlopes[node] as number;
    const firstRow = first * width;
    const firstReach = reach[first] as number;
    for (let at = 0; at < firstReach; at += 1) rows[row + at] = byFirst * (rows[firstRow + at] as number);
    reach[node] = firstReach;
    if (kind === step.power || kind === step.exponential || kind === step.through) continue;
    const bySecond = rightSlopes[node] as number;
    const second = right[node] as number;
    const secondRow = second * width;
    const secondReach = reach[second] as number;
    for (let at = 0; at < secondReach; at += 1) {
      rows[row + at] = (rows[row + at] as number) + bySecond * (rows[secondRow + at] as number);
    }
    if (secondReach > firstReach) reach[node] = secondReach;
  }
  return rows;
}

interface Combined {
  readonly standardUncertainty: number;
  readonly degreesOfFreedom: number;
}

/** One over each source's degrees of freedom: 0 where its size is exactly known. Null where all are. */
export function inverseFreedoms(sources: readonly ErrorSource[]): Float64Array | null {
  if (sources.every(({ degreesOfFreedom }) => degreesOfFreedom === Number.POSITIVE_INFINITY)) return null;
  return Float64Array.from(sources, ({ degreesOfFreedom }) => 1 / degreesOfFreedom);
}

/** Whether a sum of squares is one in which nothing vanished and nothing overflowed. */
export function isSafe(squares: number): boolean {
  return squares > 1e-140 && squares < 1e150;
}

/** Combined standard uncertainty and its effective degrees of freedom (JCGM 100:2008, equation G.2b) from a row of contributions. */
export function combineRow(table: Float64Array, from: number, to: number, freedoms: Float64Array | null): Combined {
  let squares = 0;
  for (let index = from; index < to; index += 1) squares += (table[index] as number) * (table[index] as number);
  let scale = 1;
  if (!isSafe(squares)) {
    scale = 0;
    for (let index = from; index < to; index += 1) scale = Math.max(scale, Math.abs(table[index] as number));
    if (scale === 0) return { standardUncertainty: 0, degreesOfFreedom: Number.POSITIVE_INFINITY };
    squares = 0;
    for (let index = from; index < to; index += 1) squares += ((table[index] as number) / scale) ** 2;
  }
  let fourths = 0;
  if (freedoms !== null) {
    for (let index = from; index < to; index += 1) {
      const share = ((table[index] as number) / scale) ** 2 / squares;
      fourths += share * share * (freedoms[index - from] as number);
    }
  }
  return { standardUncertainty: scale * Math.sqrt(squares), degreesOfFreedom: freedomOf(fourths) };
}
