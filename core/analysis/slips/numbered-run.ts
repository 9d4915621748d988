import type { PhaseName } from "../../readings/phase.ts";
import type { RunFacts } from "../run-facts.ts";
import { type BoilingPoints, type PhaseNumbers, unpackRun } from "../run-numbers.ts";

/** A run with its numbers by name, for as long as questions are looked for. */
export interface NumberedRun {
  readonly facts: RunFacts;
  readonly phases: readonly PhaseNumbers[];
  /** It was not left out: other runs are compared with it. */
  readonly isCounted: boolean;
}

export function numberedRun(facts: RunFacts, boilingPoints: BoilingPoints): NumberedRun {
  return { facts, phases: unpackRun(facts.numbers, boilingPoints), isCounted: facts.leftOut === null };
}

export function phaseOf(run: NumberedRun, name: PhaseName): PhaseNumbers | undefined {
  return run.phases.find(({ phase }) => phase === name);
}

/** Something odd that one rule saw, with the readings that it rests on: where two rest on one reading, one is asked. */
export interface Suspicion {
  readonly rule: string;
  readonly phase: PhaseName | null;
  readonly column: string | null;
  readonly message: string;
  /** The part of the message that says what may have been meant. */
  readonly hint?: string | null;
  /** "hot-start/fuel_end_g"; "hot-start/*" is every reading of the phase, "date" and "variant" are the run's own. */
  readonly touches: readonly string[];
}

export const touch = (phase: PhaseName, ...columns: readonly string[]) => columns.map((column) => `${phase}/${column}`);
