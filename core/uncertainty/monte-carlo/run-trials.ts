import type { InSteps } from "../../numeric/in-steps.ts";
import type { Model } from "../model.ts";
import { blockEvaluator } from "./block-evaluator.ts";
import { blockSize } from "./block-size.ts";
import { spannedTrials } from "./interval.ts";
import {
  OutputTally,
  type PhysicalRange,
  pilotTrials,
  type TailLimits,
  type TalliedFor,
  type TalliedOutput,
} from "./output-tally.ts";

/** What is drawn, and what is wanted of it. */
export interface TrialsRequest {
  /** Of all parts together. */
  readonly trials: number;
  /** Of the generator: a whole number from 0 to 2^53 - 1. */
  readonly seed: number;
  /** Level of the intervals, 0 < confidence < 1. */
  readonly confidence: number;
  /**
   * For each output of the model where it can lie at all. Outputs that are one and the same step have the bounds of the first of them.
   * Absent: no output has a bound.
   */
  readonly ranges?: readonly PhysicalRange[];
}

/** Trials `from` to `to - 1` of those requested, for any worker to run. */
export interface TrialsStretch {
  readonly from: number;
  readonly to: number;
  /** Of each varying output, from an earlier stretch; absent: judged anew. */
  readonly limits?: readonly TailLimits[];
  /** How many standard errors of the pilot's fractions are kept beyond what is needed; Infinity: everything is. */
  readonly margin?: number;
}

/** What a stretch of trials gave. Plain data: it can be sent from one worker to another. */
export interface TrialsPart {
  readonly from: number;
  readonly to: number;
  /** Of each varying output, in the order of their first appearance among the model's outputs. */
  readonly outputs: readonly TalliedOutput[];
}

export const usualMargin = 5;
const unbounded: PhysicalRange = { lower: null, upper: null };

/**
 * Runs a stretch of trials, with a pause after each block of {@link blockSize}. A trial's draws depend on the seed, the keys of its
 * errors and its number alone: parts add up to the same result however the trials are divided.
 */
export function* runTrials(model: Model, request: TrialsRequest, stretch: TrialsStretch): InSteps<TrialsPart> {
  const { from, to } = stretch;
  const evaluator = blockEvaluator(model, request.seed);
  const firstBlock = Math.floor(from / blockSize);
  const lastBlock = Math.ceil(to / blockSize);
  const kept = keptFraction(request, stretch.margin ?? usualMargin);
  const varying: TalliedFor[] = [];
  for (const [output, place] of evaluator.places.entries()) {
    const estimate = model.tape.values[model.outputs[output] as number] as number;
    if (place >= 0) varying[place] ??= { range: request.ranges?.[output] ?? unbounded, estimate };
  }
  const blocks = lastBlock - firstBlock;
  const tallies = varying.map((output, place) => {
    return new OutputTally(to - from, blocks, kept, stretch.limits?.[place] ?? null, output);
  });
  for (let block = firstBlock; block < lastBlock; block += 1) {
    const start = Math.max(from - block * blockSize, 0);
    const end = Math.min(to - block * blockSize, blockSize);
    evaluator.evaluate(block, (place, values) => (tallies[place] as OutputTally).add(values, start, end));
    yield;
  }
  return { from, to, outputs: tallies.map((tally) => tally.result()) };
}

/** The fraction of values that lie outside an interval, all of them on one side, and a margin for what the pilot cannot tell. */
export function keptFraction({ trials, confidence }: TrialsRequest, margin: number): number {
  const needed = (trials - spannedTrials(trials, confidence)) / trials;
  return needed + margin * Math.sqrt((needed * (1 - needed)) / pilotTrials) + 2 / pilotTrials;
}
