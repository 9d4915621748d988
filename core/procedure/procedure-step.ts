import type { IsoPhaseName, PhaseName } from "../readings/phase.ts";
import type { ProcedureField } from "./procedure-field.ts";

type BoilingPhase = "cold-start" | "hot-start";

/** Names of all steps; kept in study files and links, so never renamed. */
export type ProcedureStepId =
  | "before-the-fire"
  | `${BoilingPhase}.${"weigh" | "light" | "boils" | "weigh-after"}`
  | `simmer.${"begin" | "over" | "weigh-after"}`
  | `${IsoPhaseName}.${"weigh" | "light" | "boils" | "over" | "weigh-after"}`
  | "anything-unusual";

/**
 * What a step does to the run clock; the time is written into the column of that name, in the step's phase.
 * `starts`: the phase begins, and its clock counts up, or `countDownMinutes` down. `boils`: the moment at which the water
 * boiled, which ends a cold or hot start. `ends`: the phase is over.
 */
export type ClockAct =
  | { readonly act: "starts"; readonly column: "start"; readonly countDownMinutes: number | null }
  | { readonly act: "boils"; readonly column: "end" | "boiled_at" }
  | { readonly act: "ends"; readonly column: "end" };

/** One thing to do in a run, and what is written down in doing it. */
export interface ProcedureStep {
  readonly id: ProcedureStepId;
  /** Null: the whole run. Fields of such a step may still stand in a phase's row. */
  readonly phase: PhaseName | null;
  /** In the order in which they are taken. */
  readonly fields: readonly ProcedureField[];
  readonly clock: ClockAct | null;
}

/** What differs from study to study. */
export interface ProcedureOptions {
  /** Pots on the stove. */
  readonly pots: 1 | 2 | 3 | 4;
  /** WBT: the hot start's char is taken out and weighed, and put back for the simmer. Usually it is not (from memory). */
  readonly charAtHotStart: boolean;
  /** Carbon monoxide and fine particles are measured. */
  readonly emissions: boolean;
}
