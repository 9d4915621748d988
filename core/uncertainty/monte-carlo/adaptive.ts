import type { Model } from "../model.ts";
import { addMoments, type Moments } from "./moments.ts";
import { numericalTolerance, type SignificantDigits } from "./numerical-tolerance.ts";
import { outputGroups } from "./output-groups.ts";
import { keepAll, keptLimits, type TailLimits } from "./output-tally.ts";
import { keptFraction, type TrialsPart, type TrialsRequest, type TrialsStretch } from "./run-trials.ts";
import { type OutputTrials, summarise } from "./summarise.ts";

/** What must be stable for the trials to stop; `trials` are the most that are drawn. */
export interface AdaptiveRequest extends TrialsRequest {
  readonly digits: SignificantDigits;
  /** Positions among the model's outputs. Absent: all of them. */
  readonly watched?: readonly number[];
}

/** Trials in one sequence: the larger of 10^4 and the least whole number that is not under 100/(1 - p) (JCGM 101:2008, 7.9.4 b). */
export function sequenceTrials(confidence: number): number {
  const least = 100 / (1 - confidence);
  // 1 - 0.95 is not quite 0.05.
  const rounded = Math.round(least);
  return Math.max(10_000, Math.abs(least - rounded) < 1e-6 * least ? rounded : Math.ceil(least));
}

/** Kept beyond what one sequence needs: the limits, judged by the first sequence, have to do for each of the others. */
const margin = 8;

/**
 * The adaptive procedure, one sequence of trials at a time. From the second on, for estimate, standard uncertainty and both ends of the
 * symmetric interval, s is the standard deviation of the sequences' average; an output is stable where 2s is within the numerical
 * tolerance of the standard uncertainty of all trials so far, for all four.
 *
 * Source: JCGM 101:2008, 7.9.4.
 */
export class AdaptiveTrials {
  /** The sequences so far; null where they are too many to be kept: the trials are then run once more, a group of outputs at a time. */
  parts: TrialsPart[] | null = [];
  sequences = 0;
  readonly perSequence: number;
  readonly #model: Model;
  readonly #request: AdaptiveRequest;
  readonly #figures: Figures[];
  #limits: readonly TailLimits[] | null = null;

  constructor(model: Model, request: AdaptiveRequest) {
    this.#model = model;
    this.#request = request;
    this.#figures = model.outputs.map(() => new Figures(request.digits));
    this.perSequence = sequenceTrials(request.confidence);
  }

  /** Most sequences that the trials asked for hold; fewer than two tell nothing of stability. */
  get mostSequences(): number {
    return Math.floor(this.#request.trials / this.perSequence);
  }

  /** What to run for a sequence, counted from 0; for all but the first the first one must have been added. */
  stretch(sequence: number): TrialsStretch {
    const from = sequence * this.perSequence;
    const stretch = { from, to: from + this.perSequence };
    return this.#limits === null
      ? { ...stretch, margin: Number.POSITIVE_INFINITY }
      : { ...stretch, limits: this.#limits };
  }

  /**
   * Takes the next sequence, in order. False where it is not taken, since too few of its values were kept: it is to be run again with an
   * infinite margin and without limits.
   */
  add(part: TrialsPart): boolean {
    const ofSequence = { ...this.#request, trials: this.perSequence };
    const outputs = summarise(this.#model, ofSequence, [part]);
    if (outputs.includes(null)) return false;
    for (const [position, output] of outputs.entries()) this.#figures[position]?.add(output as OutputTrials);
    this.sequences += 1;
    this.parts?.push(part);
    const soFar = { ...this.#request, trials: this.sequences * this.perSequence };
    if (outputGroups(this.#model, soFar).length > 1) this.parts = null;
    this.#limits ??= part.outputs.map(({ low }) => keptLimits(low, keptFraction(ofSequence, margin)) ?? keepAll);
    return true;
  }

  /** For each output whether its figures are stable to the digits asked for. */
  isStable(): boolean[] {
    return this.#figures.map((figures) => figures.isStable());
  }

  /** All that were to be watched are stable. */
  mayStop(): boolean {
    const stable = this.isStable();
    return (this.#request.watched ?? [...stable.keys()]).every((output) => stable[output] === true);
  }
}

/** One output's figures of each sequence so far. */
class Figures {
  readonly #digits: SignificantDigits;
  /** Of estimate, standard uncertainty and both ends: their moments over the sequences. */
  readonly #over: readonly Moments[] = [0, 1, 2, 3].map(() => ({ count: 0, mean: 0, squares: 0 }));
  readonly #all: Moments = { count: 0, mean: 0, squares: 0 };
  #sequences = 0;

  constructor(digits: SignificantDigits) {
    this.#digits = digits;
  }

  add({ trials, mean, standardUncertainty, symmetricInterval }: OutputTrials): void {
    this.#sequences += 1;
    // What is not finite stays so: such an output is never stable.
    const [average, spread] = [mean ?? Number.NaN, standardUncertainty ?? Number.NaN];
    addMoments(this.#all, trials, average, spread ** 2 * (trials - 1));
    const { lower, upper } = symmetricInterval ?? { lower: Number.NaN, upper: Number.NaN };
    for (const [index, figure] of [average, spread, lower, upper].entries()) {
      addMoments(this.#over[index] as Moments, 1, figure, 0);
    }
  }

  isStable(): boolean {
    if (this.#sequences < 2) return false;
    const standardUncertainty = Math.sqrt(this.#all.squares / (this.#all.count - 1));
    if (standardUncertainty === 0) return true;
    const tolerance = numericalTolerance(standardUncertainty, this.#digits);
    if (tolerance === null) return false;
    return this.#over.every(({ count, squares }) => 2 * Math.sqrt(squares / (count * (count - 1))) <= tolerance);
  }
}
