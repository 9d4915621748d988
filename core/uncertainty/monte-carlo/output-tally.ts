import { blockSize } from "./block-size.ts";
import { type Moments, momentsOf } from "./moments.ts";
import { sortValues } from "./sort-values.ts";

/** All values up to `low` and from `high` on are kept one by one. */
export interface TailLimits {
  readonly low: number;
  readonly high: number;
}

/** Where an output can lie at all; null where it has no such bound. */
export interface PhysicalRange {
  readonly lower: number | null;
  readonly upper: number | null;
}

/** What is known of an output before its trials. */
export interface TalliedFor {
  readonly range: PhysicalRange;
  /** Its value at the best estimates. */
  readonly estimate: number;
}

/** What a stretch of trials gave for one output. Plain data. */
export interface TalliedOutput {
  /** For each piece of the stretch its mean and its sum of squared deviations, alternating; NaN where a value is not finite. */
  readonly moments: Float64Array;
  readonly limits: TailLimits;
  /** Values up to the low limit, in no order; all values, where both limits are infinite. */
  readonly low: Float64Array;
  /** Values from the high limit on; empty where `low` has all. */
  readonly high: Float64Array;
  readonly below: number;
  readonly above: number;
  readonly infinite: number;
  readonly notNumbers: number;
}

/** Trials that the limits are judged by. */
export const pilotTrials = 10 * blockSize;
/** Limits with which every value is kept. */
export const keepAll: TailLimits = { low: Number.POSITIVE_INFINITY, high: Number.POSITIVE_INFINITY };
/** Where so much of each side is to be kept, all is. */
const mostOfEachSide = 0.45;

export const isAllKept = (limits: TailLimits) => limits.low === Number.POSITIVE_INFINITY;

/**
 * Takes one output's values piece by piece and keeps what its statistics need: each piece's moments, and the smallest and largest values,
 * of which an interval needs a known number. How far in to keep them is judged by the first trials.
 */
export class OutputTally {
  readonly #moments: Float64Array;
  readonly #range: PhysicalRange;
  readonly #trials: number;
  readonly #kept: number;
  readonly #estimate: number;
  readonly #piece: Moments = { count: 0, mean: 0, squares: 0 };
  #pieces = 0;
  #isPilot: boolean;
  #limits: TailLimits;
  #low: Float64Array<ArrayBuffer>;
  #high: Float64Array<ArrayBuffer> = new Float64Array(0);
  #lowCount = 0;
  #highCount = 0;
  #below = 0;
  #above = 0;
  #infinite = 0;
  #notNumbers = 0;

  /**
   * @param trials of the stretch
   * @param pieces that it comes in
   * @param kept fraction of the values to keep on each side
   * @param limits where they are settled already; null: they are judged by the first {@link pilotTrials}
   */
  constructor(
    trials: number,
    pieces: number,
    kept: number,
    limits: TailLimits | null,
    { range, estimate }: TalliedFor,
  ) {
    this.#moments = new Float64Array(2 * pieces);
    this.#range = range;
    this.#estimate = estimate;
    this.#kept = kept;
    this.#trials = trials;
    this.#limits = limits ?? keepAll;
    this.#isPilot = limits === null && kept < mostOfEachSide && trials > 2 * pilotTrials;
    this.#low = new Float64Array(this.#isPilot ? pilotTrials + blockSize : isAllKept(this.#limits) ? trials : 0);
  }

  /** Takes values[from] to values[to - 1]. */
  add(values: Float64Array, from: number, to: number): void {
    const piece = this.#piece;
    momentsOf(values, from, to, this.#estimate, piece);
    this.#moments[2 * this.#pieces] = piece.mean;
    this.#moments[2 * this.#pieces + 1] = piece.squares;
    this.#pieces += 1;
    if (!Number.isFinite(piece.mean)) this.#countNotFinite(values, from, to);
    this.#keep(values, from, to);
    if (this.#isPilot && this.#lowCount + this.#notNumbers >= pilotTrials) this.#setLimits();
  }

  /** All that was taken. Nothing can be added any more. */
  result(): TalliedOutput {
    const { lower, upper } = this.#range;
    const low = cut(this.#low, this.#lowCount);
    const high = cut(this.#high, this.#highCount);
    // A bound beyond a limit: all that lies outside was kept.
    const below = lower === null || this.#isWithin(lower) ? this.#below : countBelow(low, 0, low.length, lower);
    const ofUpper = isAllKept(this.#limits) ? low : high;
    const above = upper === null || this.#isWithin(upper) ? this.#above : countAbove(ofUpper, 0, ofUpper.length, upper);
    return {
      moments: this.#moments,
      limits: this.#limits,
      low,
      high,
      below,
      above,
      infinite: this.#infinite,
      notNumbers: this.#notNumbers,
    };
  }

  #setLimits(): void {
    this.#isPilot = false;
    const pilot = this.#low.slice(0, this.#lowCount);
    const limits = keptLimits(pilot, this.#kept);
    if (limits === null) {
      this.#low = withRoom(this.#low, this.#lowCount, this.#trials - this.#lowCount);
      return;
    }
    this.#limits = limits;
    // All of the pilot's may be kept, where many are equal.
    const expected = Math.max(pilot.length, Math.ceil(1.02 * this.#kept * this.#trials) + 2 * blockSize);
    this.#low = new Float64Array(expected);
    this.#high = new Float64Array(expected);
    const found = findOutside(pilot, 0, pilot.length, limits);
    this.#lowCount = keepLow(pilot, found, limits.low, this.#low, 0);
    this.#highCount = keepHigh(pilot, found, limits.high, this.#high, 0);
    this.#countOutside(pilot, 0, pilot.length);
  }

  /** True for a bound between the limits: what lies outside it has to be counted as it comes. */
  #isWithin(bound: number): boolean {
    return bound > this.#limits.low && bound < this.#limits.high;
  }

  #countOutside(values: Float64Array, from: number, to: number): void {
    const { lower, upper } = this.#range;
    if (lower !== null && this.#isWithin(lower)) this.#below += countBelow(values, from, to, lower);
    if (upper !== null && this.#isWithin(upper)) this.#above += countAbove(values, from, to, upper);
  }

  #countNotFinite(values: Float64Array, from: number, to: number): void {
    for (let at = from; at < to; at += 1) {
      const value = values[at] as number;
      if (Number.isNaN(value)) this.#notNumbers += 1;
      else if (!Number.isFinite(value)) this.#infinite += 1;
    }
  }

  #keep(values: Float64Array, from: number, to: number): void {
    this.#countOutside(values, from, to);
    this.#low = withRoom(this.#low, this.#lowCount, to - from);
    if (isAllKept(this.#limits)) {
      this.#lowCount = copyNumbers(values, from, to, this.#low, this.#lowCount);
      return;
    }
    this.#high = withRoom(this.#high, this.#highCount, to - from);
    const found = findOutside(values, from, to, this.#limits);
    this.#lowCount = keepLow(values, found, this.#limits.low, this.#low, this.#lowCount);
    this.#highCount = keepHigh(values, found, this.#limits.high, this.#high, this.#highCount);
  }
}

/** Limits that keep a fraction of these values on each side; null where that is no less than all. */
export function keptLimits(values: Float64Array, fraction: number): TailLimits | null {
  if (!(fraction < mostOfEachSide)) return null;
  const ordered = values.slice();
  sortValues(ordered);
  const kept = Math.ceil(fraction * ordered.length);
  const low = ordered[kept - 1];
  const high = ordered[ordered.length - kept];
  return low === undefined || high === undefined || !Number.isFinite(low) ? null : { low, high };
}

/** Copies values behind the `count` that are there, without those that are no number; how many there are then. */
function copyNumbers(values: Float64Array, from: number, to: number, kept: Float64Array, count: number): number {
  let end = count;
  for (let at = from; at < to; at += 1) {
    const value = values[at] as number;
    if (Number.isNaN(value)) continue;
    kept[end] = value;
    end += 1;
  }
  return end;
}

let outside = new Int32Array(blockSize);

/**
 * Finds which values lie at or beyond the limits, of which a NaN is neither; how many they are, their positions in `outside`. Each position
 * is written and counted only where it holds: a processor cannot guess which ones do. `| 0`: as a whole number, which is quick.
 */
function findOutside(values: Float64Array, from: number, to: number, { low, high }: TailLimits): number {
  if (outside.length < to - from) outside = new Int32Array(to - from);
  const positions = outside;
  let end = 0;
  for (let at = from; at < to; at += 1) {
    const value = values[at] as number;
    positions[end] = at;
    end = (end + (Number(value <= low) | Number(value >= high))) | 0;
  }
  return end;
}

/** Copies those of the values found that lie up to `low`. */
function keepLow(values: Float64Array, found: number, low: number, kept: Float64Array, count: number): number {
  const positions = outside;
  let end = count | 0;
  for (let place = 0; place < found; place += 1) {
    const value = values[positions[place] as number] as number;
    kept[end] = value;
    end = (end + Number(value <= low)) | 0;
  }
  return end;
}

function keepHigh(values: Float64Array, found: number, high: number, kept: Float64Array, count: number): number {
  const positions = outside;
  let end = count | 0;
  for (let place = 0; place < found; place += 1) {
    const value = values[positions[place] as number] as number;
    kept[end] = value;
    end = (end + Number(value >= high)) | 0;
  }
  return end;
}

function countBelow(values: Float64Array, from: number, to: number, bound: number): number {
  let count = 0;
  for (let at = from; at < to; at += 1) if ((values[at] as number) < bound) count += 1;
  return count;
}

function countAbove(values: Float64Array, from: number, to: number, bound: number): number {
  let count = 0;
  for (let at = from; at < to; at += 1) if ((values[at] as number) > bound) count += 1;
  return count;
}

/** An array with room for `more` numbers behind the first `count`. */
function withRoom(array: Float64Array<ArrayBuffer>, count: number, more: number): Float64Array<ArrayBuffer> {
  if (count + more <= array.length) return array;
  const larger = new Float64Array(Math.max(count + more, Math.ceil(1.5 * count)));
  larger.set(array.subarray(0, count));
  return larger;
}

/** The first `count` numbers as an array of their own, in the memory that they are in. */
function cut(array: Float64Array<ArrayBuffer>, count: number): Float64Array<ArrayBuffer> {
  return new Float64Array(array.buffer.transfer(count * Float64Array.BYTES_PER_ELEMENT));
}
