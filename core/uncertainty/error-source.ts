import type { InstrumentRole } from "../readings/reading.ts";

/**
 * The distribution of an error with mean 0, its size set apart. A scaled t has the first-order standard uncertainty 1 where it is
 * drawn as t itself, whose standard deviation is larger (JCGM 101:2008, 6.4.9.4); all others have the standard deviation 1.
 */
export type Distribution =
  | { readonly kind: "normal" | "rectangular" | "triangular" | "arcsine" }
  | { readonly kind: "t"; readonly degreesOfFreedom: number }
  /** A rectangle whose half-width is itself known only within +- `inexactness`, a fraction of the half-width, 0 to 1. */
  | { readonly kind: "curvilinearTrapezoid"; readonly inexactness: number };

/** Whose error it is: of an instrument of the study, or of a value in its settings ("char", "fuel:dry eucalyptus"). */
export type ErrorOwner =
  | { readonly kind: "instrument"; readonly role: InstrumentRole }
  | { readonly kind: "setting"; readonly setting: string };

/** One random error: one draw in each trial, however many readings it enters. */
export interface ErrorSource {
  /** Equal keys are one error: in another run of the study too. */
  readonly key: string;
  readonly distribution: Distribution;
  /** How well its size is known (JCGM 100:2008, annex G); Infinity where it is taken as exactly known. */
  readonly degreesOfFreedom: number;
  /** One draw for the whole study, rather than one for each reading. */
  readonly isShared: boolean;
  readonly owner: ErrorOwner;
  /** What the settings call this component. */
  readonly component: string;
}

/** How far one error moves one input: the input is its value plus the sum of size times error. */
export interface InputError {
  /** Position in the model's sources. */
  readonly source: number;
  /** Standard uncertainty that this error alone gives the input, with the sign of its effect; in the input's unit. */
  readonly size: number;
}

/** An input of a model: its best estimate, and the errors that it may have. Inputs that share a source are correlated. */
export interface UncertainInput {
  readonly value: number;
  readonly errors: readonly InputError[];
}
