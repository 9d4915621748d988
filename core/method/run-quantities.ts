import type { Arithmetic } from "../numeric/arithmetic.ts";
import type { PhaseName } from "../readings/phase.ts";
import type { Settings } from "../readings/settings.ts";
import type { Run } from "../readings/study.ts";
import { emissionsOfPhase, emissionsOfRun } from "./emissions.ts";
import { isoPhase, isoRun } from "./iso.ts";
import { type InputValues, phaseInputs } from "./phase-inputs.ts";
import { type PhaseOutcomes, type RunOutcomes, wbtPhase, wbtRun } from "./wbt.ts";

/** Every quantity of a run: of each of its phases, and of the run as a whole. */
export interface RunQuantities<N> {
  readonly phases: ReadonlyMap<PhaseName, PhaseOutcomes<N>>;
  readonly run: RunOutcomes<N>;
}

/**
 * Computes everything that one run's readings give, by both methods' phase formulas and its own method's run formulas. The
 * same text serves plain numbers and numbers that carry errors (see {@link Arithmetic}).
 */
export function runQuantities<N>(
  arithmetic: Arithmetic<N>,
  run: Run,
  settings: Settings,
  values: InputValues<N>,
): RunQuantities<N> {
  const phases = new Map<PhaseName, PhaseOutcomes<N>>();
  for (const phase of run.phases) {
    const inputs = phaseInputs(arithmetic, run, phase, settings, values);
    const outcomes = wbtPhase(arithmetic, phase.phase, inputs);
    for (const [name, outcome] of isoPhase(arithmetic, phase.phase, inputs)) outcomes.set(name, outcome);
    for (const [name, outcome] of emissionsOfPhase(arithmetic, run.method, inputs, outcomes)) {
      outcomes.set(name, outcome);
    }
    phases.set(phase.phase, outcomes);
  }
  const ofMethod = run.method === "wbt" ? wbtRun(arithmetic, phases) : isoRun(arithmetic, phases);
  for (const [name, outcome] of emissionsOfRun(arithmetic, run.method, phases)) ofMethod.set(name, outcome);
  return { phases, run: ofMethod };
}
