import type { InSteps } from "../../numeric/in-steps.ts";
import type { Model } from "../model.ts";
import { type AdaptiveRequest, AdaptiveTrials } from "./adaptive.ts";
import { ofOutputs, outputGroups } from "./output-groups.ts";
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

/**
 * Propagates the distributions of a model's inputs by a fixed number of trials (JCGM 101:2008, clause 7), pausing between blocks: once
 * through the trials for each of the {@link outputGroups}.
 */
export function* monteCarlo(model: Model, request: TrialsRequest): InSteps<MonteCarloResults> {
  const outputs: OutputTrials[] = [];
  for (const positions of outputGroups(model, request)) {
    const found = yield* ofGroup(ofOutputs(model, request, positions));
    for (const [index, position] of positions.entries()) outputs[position] = found[index] as OutputTrials;
  }
  return { trials: request.trials, seed: request.seed, outputs };
}

function* ofGroup({ model, request }: ReturnType<typeof ofOutputs>): InSteps<OutputTrials[]> {
  for (let margin = usualMargin; ; margin *= 4) {
    const part = yield* runTrials(model, request, { from: 0, to: request.trials, margin });
    const outputs = allOf(summarise(model, request, [part]));
    if (outputs !== null) return outputs;
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
  const ofAll = { ...request, trials: adaptive.sequences * adaptive.perSequence };
  const isStable = adaptive.isStable();
  const outputs = adaptive.parts === null ? null : allOf(summarise(model, ofAll, adaptive.parts));
  if (outputs === null) return { ...(yield* monteCarlo(model, ofAll)), isStable };
  return { trials: ofAll.trials, seed: request.seed, outputs, isStable };
}

/** Null where one is to be run again. */
export function allOf(outputs: readonly (OutputTrials | null)[]): OutputTrials[] | null {
  return outputs.every((output) => output !== null) ? [...outputs] : null;
}
