import type { InSteps } from "../../numeric/in-steps.ts";
import type { Model } from "../model.ts";
import { type AdaptiveRequest, AdaptiveTrials } from "./adaptive.ts";
import { runTrials, type TrialsRequest, usualMargin } from "./run-trials.ts";
import { type OutputTrials, summarise } from "./summarise.ts";

/** What a Monte Carlo run of a model gave. */
export interface MonteCarloResults {
  readonly trials: number;
  readonly seed: number;
  /** In the order of the model's outputs. */
  readonly outputs: readonly OutputTrials[];
}

export interface AdaptiveResults extends MonteCarloResults {
  /** For each output: its figures are stable to the digits asked for. */
  readonly isStable: readonly boolean[];
}

/** Propagates the distributions of a model's inputs by a fixed number of trials (JCGM 101:2008, clause 7), pausing between blocks. */
export function* monteCarlo(model: Model, request: TrialsRequest): InSteps<MonteCarloResults> {
  const { trials, seed } = request;
  for (let margin = usualMargin; ; margin *= 4) {
    const part = yield* runTrials(model, request, { from: 0, to: trials, margin });
    const outputs = allOf(summarise(model, request, [part]));
    if (outputs !== null) return { trials, seed, outputs };
  }
}

/**
 * Propagates them by as many trials as it takes until the results are stable (JCGM 101:2008, 7.9.4), or the most that are allowed. Two
 * sequences that do not fit in those are a fixed number of trials, of which nothing is called stable.
 */
export function* adaptiveMonteCarlo(model: Model, request: AdaptiveRequest): InSteps<AdaptiveResults> {
  const adaptive = new AdaptiveTrials(model, request);
  if (adaptive.mostSequences < 2) {
    return { ...(yield* monteCarlo(model, request)), isStable: model.outputs.map(() => false) };
  }
  for (let sequence = 0; sequence < adaptive.mostSequences && !adaptive.mayStop(); sequence += 1) {
    const stretch = adaptive.stretch(sequence);
    if (adaptive.add(yield* runTrials(model, request, stretch))) continue;
    const { from, to } = stretch;
    adaptive.add(yield* runTrials(model, request, { from, to, margin: Number.POSITIVE_INFINITY }));
  }
  const ofAll = { ...request, trials: adaptive.parts.length * adaptive.perSequence };
  const outputs = allOf(summarise(model, ofAll, adaptive.parts));
  const isStable = adaptive.isStable();
  if (outputs === null) return { ...(yield* monteCarlo(model, ofAll)), isStable };
  return { trials: ofAll.trials, seed: request.seed, outputs, isStable };
}

/** Null where one is to be run again. */
export function allOf(outputs: readonly (OutputTrials | null)[]): OutputTrials[] | null {
  return outputs.every((output) => output !== null) ? [...outputs] : null;
}
