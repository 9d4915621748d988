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
    const contributions = table.subarray(index * width, (index + 1) * width);
    const { standardUncertainty, degreesOfFreedom } = combineRow(contributions, freedoms);
    return {
      value: tape.values[output] as number,
      standardUncertainty,
      degreesOfFreedom,
      contributions,
    };
  });
}

/** Each source's contribution to each output, a row an output. */
function contributionTable(model: Model): Float64Array {
  const { outputs, sources } = model;
  const width = sources.length;
  const { rows, columns, reach } = contributionsOfSteps(model);
  const table = new Float64Array(outputs.length * width);
  outputs.forEach((output, index) => {
    for (let source = 0; source < width; source += 1) {
      const column = columns[source] as number;
      if (column < (reach[output] as number)) table[index * width + source] = rows[output * width + column] as number;
    }
  });
  return table;
}

/** Each source's contribution to each step of a tape. */
export interface StepContributions {
  /** A row a step, a column a source: those that the study shares first, then the run's own as its inputs come up. */
  readonly rows: Float64Array;
  /** The column of each source. */
  readonly columns: Int32Array;
  readonly sharedWidth: number;
  /** For each step how many columns its row has: all others are 0, and what stands there has no meaning. */
  readonly reach: Int32Array;
}

/** Filled anew by each call: runs are many, and their rows of one size. */
let rowsRoom = new Float64Array(0);
let reachRoom = new Int32Array(0);

/**
 * For each step of the tape a row with each source's contribution to it, by the chain rule from the inputs on (forward-mode automatic
 * differentiation along all sources at once). Good until the next call.
 */
export function contributionsOfSteps({ tape, inputs, sources }: Model): StepContributions {
  const { length, steps, left, right, leftSlopes, rightSlopes } = tape;
  const width = sources.length;
  if (rowsRoom.length < length * width) rowsRoom = new Float64Array(length * width);
  if (reachRoom.length < length) reachRoom = new Int32Array(length);
  const rows = rowsRoom;
  const reach = reachRoom;
  const { columns, sharedWidth } = columnsOf(sources);
  for (let node = 0; node < length; node += 1) {
    const kind = steps[node];
    if (kind === step.constant) {
      reach[node] = 0;
      continue;
    }
    const row = node * width;
    const first = left[node] as number;
    if (kind === step.input) {
      let end = 0;
      const errors = inputs[first]?.errors ?? [];
      for (const { source } of errors) end = Math.max(end, (columns[source] as number) + 1);
      for (let at = 0; at < end; at += 1) rows[row + at] = 0;
      for (const { source, size } of errors) {
        const at = row + (columns[source] as number);
        rows[at] = size + (rows[at] as number);
      }
      reach[node] = end;
      continue;
    }
    const byFirst = leftSlopes[node] as number;
    const firstRow = first * width;
    const firstReach = reach[first] as number;
    if (kind === step.power || kind === step.exponential || kind === step.through) {
      for (let at = 0; at < firstReach; at += 1) rows[row + at] = byFirst * (rows[firstRow + at] as number);
      reach[node] = firstReach;
      continue;
    }
    const bySecond = rightSlopes[node] as number;
    const second = right[node] as number;
    const secondRow = second * width;
    const secondReach = reach[second] as number;
    const both = Math.min(firstReach, secondReach);
    for (let at = 0; at < both; at += 1) {
      rows[row + at] = byFirst * (rows[firstRow + at] as number) + bySecond * (rows[secondRow + at] as number);
    }
    for (let at = both; at < firstReach; at += 1) rows[row + at] = byFirst * (rows[firstRow + at] as number);
    for (let at = both; at < secondReach; at += 1) rows[row + at] = bySecond * (rows[secondRow + at] as number);
    reach[node] = Math.max(firstReach, secondReach);
  }
  return { rows, columns, sharedWidth, reach };
}

/** Shared sources first, each kind in its order. */
function columnsOf(sources: readonly ErrorSource[]): Pick<StepContributions, "columns" | "sharedWidth"> {
  const columns = new Int32Array(sources.length);
  let sharedWidth = 0;
  for (let source = 0; source < columns.length; source += 1) {
    if (sources[source]?.isShared !== true) continue;
    columns[source] = sharedWidth;
    sharedWidth += 1;
  }
  let own = sharedWidth;
  for (let source = 0; source < columns.length; source += 1) {
    if (sources[source]?.isShared === true) continue;
    columns[source] = own;
    own += 1;
  }
  return { columns, sharedWidth };
}

interface Combined {
  readonly standardUncertainty: number;
  readonly degreesOfFreedom: number;
}

/**
 * One over each source's degrees of freedom: 0 where its size is exactly known. Null where all are.
 *
 * @param columns where each source's stands; without them as the sources are
 */
export function inverseFreedoms(sources: readonly ErrorSource[], columns?: Int32Array): Float64Array | null {
  if (sources.every(({ degreesOfFreedom }) => degreesOfFreedom === Number.POSITIVE_INFINITY)) return null;
  const inverse = new Float64Array(sources.length);
  sources.forEach(({ degreesOfFreedom }, source) => {
    inverse[columns?.[source] ?? source] = 1 / degreesOfFreedom;
  });
  return inverse;
}

/** Whether a sum of squares is one in which nothing vanished and nothing overflowed. */
export function isSafe(squares: number): boolean {
  return squares > 1e-140 && squares < 1e150;
}

/** Combined standard uncertainty and its effective degrees of freedom (JCGM 100:2008, equation G.2b) from a row of contributions. */
export function combineRow(row: Float64Array, freedoms: Float64Array | null): Combined {
  const width = row.length;
  let squares = 0;
  for (let index = 0; index < width; index += 1) squares += (row[index] as number) * (row[index] as number);
  let scale = 1;
  if (!isSafe(squares)) {
    scale = 0;
    for (let index = 0; index < width; index += 1) scale = Math.max(scale, Math.abs(row[index] as number));
    if (scale === 0) return { standardUncertainty: 0, degreesOfFreedom: Number.POSITIVE_INFINITY };
    squares = 0;
    for (let index = 0; index < width; index += 1) squares += ((row[index] as number) / scale) ** 2;
  }
  let fourths = 0;
  if (freedoms !== null) {
    for (let index = 0; index < width; index += 1) {
      const share = ((row[index] as number) / scale) ** 2 / squares;
      fourths += share * share * (freedoms[index] as number);
    }
  }
  return { standardUncertainty: scale * Math.sqrt(squares), degreesOfFreedom: freedomOf(fourths) };
}
