import type { PhaseName } from "../readings/phase.ts";

/** Why a quantity cannot be given. Words for it: core/words. */
export type MissingReason =
  | { readonly code: "noPhase"; readonly phase: PhaseName }
  | { readonly code: "noChar" }
  | { readonly code: "noMoisture"; readonly fuel: string | null }
  | { readonly code: "noCalorific"; readonly fuel: string | null }
  | { readonly code: "noAirTemperature" }
  | { readonly code: "noBoilingPoint" }
  | { readonly code: "pressureOutOfRange" }
  | { readonly code: "noWaterLeft" }
  | { readonly code: "startedAtBoiling" }
  | { readonly code: "noTemperatureRise" }
  | { readonly code: "noFuelEnergy" }
  | { readonly code: "noEnergyFromFuel" }
  | { readonly code: "noHeatGained" }
  | { readonly code: "noFirepower" }
  | { readonly code: "noBoiledAt" }
  | { readonly code: "noStartTime" }
  | { readonly code: "notRecorded" }
  | { readonly code: "tooLarge" }
  | { readonly code: "notMeasured"; readonly what: "carbonMonoxide" | "particulateMatter" };

/** A quantity's value, or why there is none; `phase` says where the reason lies when it is another phase than the asker's. */
export type Outcome<N> =
  | { readonly given: true; readonly value: N }
  | { readonly given: false; readonly because: MissingReason; readonly phase: PhaseName | null };

/** A value that is there. */
export function given<N>(value: N): Outcome<N> {
  return { given: true, value };
}

/** A value that is not there, and why. */
export function missing(because: MissingReason, phase: PhaseName | null = null): Outcome<never> {
  return { given: false, because, phase };
}

type Values<T extends readonly Outcome<unknown>[]> = { [K in keyof T]: T[K] extends Outcome<infer V> ? V : never };

/** Computes from several outcomes; the first that is missing is the reason why the result is. */
export function from<const T extends readonly Outcome<unknown>[], R>(
  inputs: T,
  compute: (...values: Values<T>) => R,
): Outcome<R> {
  const values: unknown[] = [];
  for (const input of inputs) {
    if (!input.given) return input;
    values.push(input.value);
  }
  return given(compute(...(values as Values<T>)));
}

/** Passes an outcome on only where a condition on it holds. */
export function provided<N>(outcome: Outcome<N>, holds: (value: N) => boolean, because: MissingReason): Outcome<N> {
  return outcome.given && !holds(outcome.value) ? missing(because) : outcome;
}

/** All of several outcomes as one list; the first that is missing is the reason. */
export function all<N>(outcomes: readonly Outcome<N>[]): Outcome<readonly N[]> {
  const values: N[] = [];
  for (const outcome of outcomes) {
    if (!outcome.given) return outcome;
    values.push(outcome.value);
  }
  return given(values);
}
