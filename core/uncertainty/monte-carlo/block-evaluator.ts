import type { ErrorSource, InputError } from "../error-source.ts";
import { firstOrder } from "../first-order.ts";
import type { Model } from "../model.ts";
import { type Node, step } from "../tape.ts";
import { blockSize } from "./block-size.ts";
import { drawsOf } from "./draws.ts";
import { type Interpolant, interpolantOf, through } from "./interpolant.ts";
import * as kernels from "./kernels.ts";
import { RandomStream } from "./random-stream.ts";
import { streamKey } from "./stream-key.ts";
import { type OutputPlaces, operandsOf, outputPlaces, type UsedSteps, usedSteps } from "./used-steps.ts";

/** Works a model out for one block of trials after another. */
export interface BlockEvaluator extends OutputPlaces {
  /** Works out block `block`. What is handed to `take` holds good until it returns. */
  evaluate(block: number, take: (place: number, values: Float64Array) => void): void;
}

/** Beyond this many standard uncertainties from the estimate a smooth function is computed itself rather than interpolated. */
const interpolatedRange = 8;

/**
 * Makes a model ready for trials: input i of a trial is value_i plus the sum over its errors of size times draw, and the tape's steps are
 * taken on arrays of trials. A block's numbers depend on model, seed and block number alone.
 */
export function blockEvaluator(model: Model, seed: number): BlockEvaluator {
  const used = usedSteps(model);
  const maker = new ProgrammeMaker(model, used, seed);
  for (const node of used.order) maker.step(node);
  const { programme, taking } = maker;
  return {
    ...maker.outputs,
    evaluate(block, take) {
      taking.block = block;
      taking.take = take;
      for (const instruction of programme) instruction();
    },
  };
}

interface Taking {
  block: number;
  take: (place: number, values: Float64Array) => void;
}

/** Turns steps into instructions, each with the arrays that it reads and writes. An array is free again after its last use. */
class ProgrammeMaker {
  readonly programme: (() => void)[] = [];
  readonly taking: Taking = { block: 0, take: () => {} };
  readonly outputs: OutputPlaces;
  readonly #model: Model;
  readonly #used: UsedSteps;
  readonly #seed: number;
  readonly #stream = new RandomStream();
  readonly #words = new Int32Array(2 * blockSize);
  readonly #free: Float64Array[] = [];
  readonly #arrays = new Map<number, Float64Array>();
  readonly #drawn = new Map<number, Float64Array>();
  readonly #usesLeft: Int32Array;
  readonly #drawsLeft: Int32Array;
  readonly #places = new Map<number, number>();
  readonly #interpolants: ReadonlyMap<number, Interpolant | null>;

  constructor(model: Model, used: UsedSteps, seed: number) {
    this.#model = model;
    this.#used = used;
    this.#seed = seed;
    this.#usesLeft = new Int32Array(model.tape.length);
    this.#drawsLeft = new Int32Array(model.sources.length);
    for (const node of used.order) {
      for (const operand of this.#operands(node)) this.#usesLeft[operand] = (this.#usesLeft[operand] as number) + 1;
      for (const { source } of this.#errors(node)) this.#drawsLeft[source] = (this.#drawsLeft[source] as number) + 1;
    }
    this.outputs = outputPlaces(model, used);
    this.outputs.places.forEach((place, position) => {
      if (place >= 0) this.#places.set(used.same[model.outputs[position] as number] as number, place);
    });
    this.#interpolants = interpolantsOf(model, used);
  }

  step(node: number): void {
    const operands = this.#operands(node);
    const isInput = this.#model.tape.steps[node] === step.input;
    const draws = this.#errors(node).map(({ source, size }) => ({ source, size, draws: this.#draw(source) }));
    const inputs = operands.map((operand) => this.#arrays.get(operand) as Float64Array);
    operands.forEach((operand, index) => {
      this.#usesLeft[operand] = (this.#usesLeft[operand] as number) - 1;
      if (this.#usesLeft[operand] === 0) this.#free.push(inputs[index] as Float64Array);
    });
    const out = this.#take();
    if (isInput) {
      this.programme.push(this.#input(out, node, draws));
      // After `out` is chosen: an input of three errors or more reads draws after it has begun to write.
      for (const { source, draws: array } of draws) {
        this.#drawsLeft[source] = (this.#drawsLeft[source] as number) - 1;
        if (this.#drawsLeft[source] === 0) this.#free.push(array);
      }
    } else this.programme.push(this.#instruction(out, node));
    this.#arrays.set(node, out);
    const place = this.#places.get(node);
    if (place !== undefined) {
      const { taking } = this;
      this.programme.push(() => taking.take(place, out));
      if (this.#usesLeft[node] === 0) this.#free.push(out);
    }
  }

  #take(): Float64Array {
    return this.#free.pop() ?? new Float64Array(blockSize);
  }

  #operands(node: number): number[] {
    const { same, isFixed } = this.#used;
    const varying = operandsOf(this.#model.tape, node).map((operand) => same[operand] as number);
    return [...new Set(varying.filter((operand) => isFixed[operand] !== 1))];
  }

  #errors(node: number): readonly InputError[] {
    const { tape, inputs } = this.#model;
    if (tape.steps[node] !== step.input) return [];
    return (inputs[tape.left[node] as number]?.errors ?? []).filter(({ size }) => size !== 0);
  }

  #draw(source: number): Float64Array {
    const known = this.#drawn.get(source);
    if (known !== undefined) return known;
    const out = this.#take();
    this.#drawn.set(source, out);
    const { key, distribution } = this.#model.sources[source] as ErrorSource;
    const ofStream = streamKey(this.#seed, key);
    const fill = drawsOf(distribution);
    const [stream, words, taking] = [this.#stream, this.#words, this.taking];
    this.programme.push(() => {
      stream.start(ofStream, taking.block);
      fill(stream, out, words);
    });
    return out;
  }

  #input(out: Float64Array, node: number, errors: readonly { size: number; draws: Float64Array }[]): () => void {
    const value = this.#model.tape.values[node] as number;
    const [first, second, ...others] = errors;
    if (first === undefined) throw new RangeError(`step ${node} has no error`);
    if (second === undefined) return () => kernels.moved(out, value, first.size, first.draws);
    return () => {
      kernels.movedByTwo(out, value, first.size, first.draws, second.size, second.draws);
      for (const { size, draws } of others) kernels.movedFurther(out, size, draws);
    };
  }

  /** An operand's array, or its value where it does not vary. */
  #operand(node: number): Float64Array | number {
    const at = this.#used.same[node] as number;
    return this.#used.isFixed[at] === 1
      ? (this.#model.tape.values[at] as number)
      : (this.#arrays.get(at) as Float64Array);
  }

  #instruction(out: Float64Array, node: number): () => void {
    const { steps, left, right, numbers, formulas } = this.#model.tape;
    const a = this.#operand(left[node] as number);
    switch (steps[node]) {
      case step.power:
        return powerOf(out, a as Float64Array, numbers[node] as number);
      case step.exponential:
        return () => kernels.exponential(out, a as Float64Array);
      case step.through: {
        const formula = formulas[right[node] as number];
        if (formula === undefined) throw new RangeError(`step ${node} has no formula`);
        const interpolant = this.#interpolants.get(node) ?? null;
        return () => through(out, formula, interpolant, a as Float64Array);
      }
    }
    const b = this.#operand(right[node] as number);
    switch (steps[node]) {
      case step.add:
        if (typeof a === "number") return () => kernels.addNumber(out, b as Float64Array, a);
        return typeof b === "number" ? () => kernels.addNumber(out, a, b) : () => kernels.addBoth(out, a, b);
      case step.subtract:
        if (typeof a === "number") return () => kernels.subtractFrom(out, a, b as Float64Array);
        return typeof b === "number" ? () => kernels.addNumber(out, a, -b) : () => kernels.subtractBoth(out, a, b);
      case step.multiply:
        if (typeof a === "number") return () => kernels.multiplyNumber(out, b as Float64Array, a);
        return typeof b === "number" ? () => kernels.multiplyNumber(out, a, b) : () => kernels.multiplyBoth(out, a, b);
      case step.divide:
        if (typeof a === "number") return () => kernels.divideNumber(out, a, b as Float64Array);
        return typeof b === "number" ? () => kernels.divideByNumber(out, a, b) : () => kernels.divideBoth(out, a, b);
    }
    throw new RangeError(`step ${node} is of an unknown kind`);
  }
}

function powerOf(out: Float64Array, base: Float64Array, exponent: number): () => void {
  switch (exponent) {
    case 1:
      return () => kernels.addNumber(out, base, 0);
    case 2:
      return () => kernels.multiplyBoth(out, base, base);
    case 0.5:
      return () => kernels.squareRoot(out, base);
    case -1:
      return () => kernels.divideNumber(out, 1, base);
    default:
      return () => kernels.power(out, base, exponent);
  }
}

/** For each step that goes through a formula its polynomial, over the widest range around the estimate that one follows it in. */
function interpolantsOf(model: Model, { order, same }: UsedSteps): Map<number, Interpolant | null> {
  const { tape } = model;
  const nodes = order.filter((node) => tape.steps[node] === step.through);
  const found = new Map<number, Interpolant | null>();
  if (nodes.length === 0) return found;
  const operands = nodes.map((node) => same[tape.left[node] as number] as Node);
  const arguments_ = firstOrder({ ...model, outputs: operands });
  nodes.forEach((node, index) => {
    const formula = tape.formulas[tape.right[node] as number];
    const argument = arguments_[index];
    if (formula === undefined || argument === undefined) return;
    let width = interpolatedRange * argument.standardUncertainty;
    let interpolant = interpolantOf(formula, argument.value, width);
    for (let round = 0; interpolant === null && round < 3; round += 1) {
      width /= 2;
      interpolant = interpolantOf(formula, argument.value, width);
    }
    found.set(node, interpolant);
  });
  return found;
}
