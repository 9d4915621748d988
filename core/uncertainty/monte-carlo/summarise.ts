import type { Model } from "../model.ts";
import { blockSize } from "./block-size.ts";
import { shortestInterval, spannedTrials, symmetricInterval, type ValueInterval } from "./interval.ts";
import { addMoments, type Moments } from "./moments.ts";
import { isAllKept, type TalliedOutput } from "./output-tally.ts";
import type { TrialsPart, TrialsRequest } from "./run-trials.ts";
import { sortValues } from "./sort-values.ts";
import { outputPlaces } from "./used-steps.ts";

/** What the trials tell of one output, in its unit. */
export interface OutputTrials {
  /** How many trials these figures are of. */
  readonly trials: number;
  /** Mean of the trials: the estimate that belongs to the distribution; null where a trial is not finite. */
  readonly mean: number | null;
  /** Standard deviation of the trials; null where a trial is not finite. */
  readonly standardUncertainty: number | null;
  /** Null where a trial gave no number, or the trials are too few for the level. */
  readonly symmetricInterval: ValueInterval | null;
  readonly shortestInterval: ValueInterval | null;
  /** How many trials lie outside what is physically possible. */
  readonly outside: { readonly below: number; readonly above: number };
  /** How many trials divided by zero or overflowed, and how many gave no number at all. */
  readonly notFinite: { readonly infinite: number; readonly notNumbers: number };
}

/**
 * The statistics of all outputs from the parts of the trials, which follow each other without a gap. Null for an output of which too few
 * values were kept: its trials are to be run again with a wider margin.
 *
 * Source: JCGM 101:2008, 7.6 (equations 16 and 17), 7.7.
 */
export function summarise(model: Model, request: TrialsRequest, parts: readonly TrialsPart[]): (OutputTrials | null)[] {
  const { varying } = outputPlaces(model);
  const found = Array.from({ length: varying }, (_, place) =>
    summariseOutput(partsOf(parts, place), request.confidence),
  );
  return spreadOutputs(model, request, found);
}

/** What the parts hold of one varying output. */
export function partsOf(parts: readonly TrialsPart[], place: number): OutputPart[] {
  return parts.map(({ from, to, outputs }) => ({ from, to, tallied: outputs[place] as TalliedOutput }));
}

/** The statistics of all outputs of a model from those of each varying one: what is the same twice, and what does not vary, put in. */
export function spreadOutputs(
  model: Model,
  request: TrialsRequest,
  ofVarying: readonly (OutputTrials | null)[],
): (OutputTrials | null)[] {
  return outputPlaces(model).places.map((place, position) => {
    if (place >= 0) return ofVarying[place] ?? null;
    return ofConstant(model.tape.values[model.outputs[position] as number] as number, request, position);
  });
}

/** One output's part of a stretch of trials. */
export interface OutputPart {
  readonly from: number;
  readonly to: number;
  readonly tallied: TalliedOutput;
}

/** The statistics of one output; null where too few values were kept. */
export function summariseOutput(parts: readonly OutputPart[], confidence: number): OutputTrials | null {
  const trials = parts.reduce((sum, { from, to }) => sum + to - from, 0);
  const total = (of: (tallied: TalliedOutput) => number) => parts.reduce((sum, { tallied }) => sum + of(tallied), 0);
  const notNumbers = total((one) => one.notNumbers);
  const moments = momentsOfParts(parts);
  const tails = notNumbers > 0 ? noTails : tailsOf(parts, trials - spannedTrials(trials, confidence));
  if (tails === null) return null;
  const finite = (value: number) => (Number.isFinite(value) ? value : null);
  return {
    trials,
    mean: finite(moments.mean),
    standardUncertainty: finite(Math.sqrt(moments.squares / (moments.count - 1))),
    symmetricInterval: symmetricInterval(tails.smallest, tails.largest),
    shortestInterval: shortestInterval(tails.smallest, tails.largest),
    outside: { below: total((one) => one.below), above: total((one) => one.above) },
    notFinite: { infinite: total((one) => one.infinite), notNumbers },
  };
}

function ofConstant(value: number, { trials, ranges }: TrialsRequest, position: number): OutputTrials {
  const { lower, upper } = ranges?.[position] ?? { lower: null, upper: null };
  const isNumber = !Number.isNaN(value);
  const hasValue = Number.isFinite(value);
  const interval = isNumber ? { lower: value, upper: value } : null;
  return {
    trials,
    mean: hasValue ? value : null,
    standardUncertainty: hasValue ? 0 : null,
    symmetricInterval: interval,
    shortestInterval: interval,
    outside: {
      below: lower !== null && value < lower ? trials : 0,
      above: upper !== null && value > upper ? trials : 0,
    },
    notFinite: { infinite: isNumber && !hasValue ? trials : 0, notNumbers: isNumber ? 0 : trials },
  };
}

/** Piece after piece, so that the sum does not depend on how the trials were divided. */
function momentsOfParts(parts: readonly OutputPart[]): Moments {
  const total: Moments = { count: 0, mean: 0, squares: 0 };
  for (const { from, to, tallied } of parts) {
    const firstBlock = Math.floor(from / blockSize);
    for (let piece = 0; 2 * piece < tallied.moments.length; piece += 1) {
      const start = Math.max(from, (firstBlock + piece) * blockSize);
      const end = Math.min(to, (firstBlock + piece + 1) * blockSize);
      const [mean, squares] = [tallied.moments[2 * piece] as number, tallied.moments[2 * piece + 1] as number];
      addMoments(total, end - start, mean, squares);
    }
  }
  return total;
}

interface Tails {
  readonly smallest: Float64Array;
  readonly largest: Float64Array;
}
const noTails: Tails = { smallest: new Float64Array(0), largest: new Float64Array(0) };

/** The `needed` smallest and largest values in ascending order; null where they were not all kept. */
function tailsOf(parts: readonly OutputPart[], needed: number): Tails | null {
  const low = joined(
    parts.map(({ tallied }) => tallied.low),
    0,
  );
  sortValues(low);
  const smallest = low.subarray(0, needed);
  if (parts.every(({ tallied }) => isAllKept(tallied.limits))) {
    return { smallest, largest: low.subarray(low.length - needed) };
  }
  const high = joined(
    parts.map(({ tallied }) => (isAllKept(tallied.limits) ? tallied.low : tallied.high)),
    1,
  );
  sortValues(high);
  if (low.length < needed || high.length < needed) return null;
  const largest = high.subarray(high.length - needed);
  // Beyond the narrowest limit a part may lack some.
  for (const { tallied } of parts) {
    if (isAllKept(tallied.limits)) continue;
    if ((smallest[needed - 1] as number) > tallied.limits.low || (largest[0] as number) < tallied.limits.high)
      return null;
  }
  return { smallest, largest };
}

/** Filled anew for each output, of which there are many: one for the low and one for the high values. */
const scratches = [new Float64Array(0), new Float64Array(0)];

/** One array of all of them, good until the next output; a single one is taken as it is, and sorted where it lies. */
function joined(arrays: readonly Float64Array[], scratch: 0 | 1): Float64Array {
  const [only] = arrays;
  if (arrays.length === 1 && only !== undefined) return only;
  const length = arrays.reduce((sum, array) => sum + array.length, 0);
  if ((scratches[scratch] as Float64Array).length < length)
    scratches[scratch] = new Float64Array(Math.ceil(1.1 * length));
  const all = (scratches[scratch] as Float64Array).subarray(0, length);
  let at = 0;
  for (const array of arrays) {
    all.set(array, at);
    at += array.length;
  }
  return all;
}
