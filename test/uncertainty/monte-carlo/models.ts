import type { Arithmetic } from "../../../core/numeric/arithmetic.ts";
import type { Distribution, ErrorSource, UncertainInput } from "../../../core/uncertainty/error-source.ts";
import { type Model, modelOf } from "../../../core/uncertainty/model.ts";

/** An input as a worked example states it: best estimate, standard uncertainty (the scale, for a t) and distribution. */
export interface StatedInput {
  readonly value: number;
  readonly size: number;
  readonly distribution: Distribution;
  readonly degreesOfFreedom?: number;
}

export function errorSource(
  key: string,
  distribution: Distribution,
  degreesOfFreedom = distribution.kind === "t" ? distribution.degreesOfFreedom : Number.POSITIVE_INFINITY,
): ErrorSource {
  return {
    key,
    distribution,
    degreesOfFreedom,
    isShared: false,
    owner: { kind: "setting", setting: key },
    component: key,
  };
}

/** A model of independent inputs. */
export function independentModel(
  stated: readonly StatedInput[],
  formulas: <N>(arithmetic: Arithmetic<N>, inputs: readonly N[]) => readonly N[],
): Model {
  const inputs = stated.map(({ value, size }, source): UncertainInput => ({ value, errors: [{ source, size }] }));
  const sources = stated.map((one, index) => errorSource(`input ${index}`, one.distribution, one.degreesOfFreedom));
  return modelOf(inputs, sources, formulas);
}

/** Standard uncertainty of a rectangle from `lower` to `upper`. */
export const rectangle = (lower: number, upper: number): StatedInput => ({
  value: (lower + upper) / 2,
  size: (upper - lower) / 2 / Math.sqrt(3),
  distribution: { kind: "rectangular" },
});

export const normal = (value: number, size: number): StatedInput => ({ value, size, distribution: { kind: "normal" } });

export const scaledT = (value: number, size: number, degreesOfFreedom: number): StatedInput => ({
  value,
  size,
  distribution: { kind: "t", degreesOfFreedom },
});
