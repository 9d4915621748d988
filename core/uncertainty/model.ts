import type { Arithmetic } from "../numeric/arithmetic.ts";
import type { ErrorSource, UncertainInput } from "./error-source.ts";
import { type Node, recordTape, type Tape } from "./tape.ts";

/** A measurement model with its inputs' errors: outputs = f(inputs), each input a value and a sum of errors. */
export interface Model {
  readonly tape: Tape;
  readonly inputs: readonly UncertainInput[];
  readonly sources: readonly ErrorSource[];
  /** The steps whose values are wanted. */
  readonly outputs: readonly Node[];
}

/**
 * A model from its formulas.
 *
 * @param formulas written for any arithmetic; given the inputs in their order, they return the outputs
 */
export function modelOf(
  inputs: readonly UncertainInput[],
  sources: readonly ErrorSource[],
  formulas: <N>(arithmetic: Arithmetic<N>, inputs: readonly N[]) => readonly N[],
): Model {
  const recorder = recordTape();
  const nodes = inputs.map(({ value, errors }, position) =>
    errors.length === 0 ? recorder.arithmetic.constant(value) : recorder.input(position, value),
  );
  const outputs = formulas(recorder.arithmetic, nodes);
  return { tape: recorder.tape(), inputs, sources, outputs };
}

/** The outputs at the best estimates. */
export function estimatesOf({ tape, outputs }: Model): number[] {
  return outputs.map((output) => tape.values[output] as number);
}
