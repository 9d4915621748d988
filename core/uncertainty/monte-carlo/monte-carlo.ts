import type { InSteps } from "../../numeric/in-steps.ts";
import type { Model } from "../model.ts";
import { runTrials, type TrialsRequest, usualMargin } from "./run-trials.ts";
import { type OutputTrials, summarise } from "./summarise.ts";

/** What a Monte Carlo run of a model gave. */
export interface MonteCarloResults {
  readonly trials: number;
  readonly seed: number;
  /** In the order of the model's outputs. */
  readonly outputs: readonly OutputTrials[];
}

/** Propagates the distributions of a model's inputs by a fixed number of trials (JCGM 101:2008, clause 7), pausing between blocks. */
export function* monteCarlo(model: Model, request: TrialsRequest): InSteps<MonteCarloResults> {
  for (let margin = usualMargin; ; margin *= 4) {
    const part = yield* runTrials(model, request, { from: 0, to: request.trials, margin });
    const outputs = summarise(model, request, [part]);
    if (outputs.every((output) => output !== null)) return { trials: request.trials, seed: request.seed, outputs };
  }
}
