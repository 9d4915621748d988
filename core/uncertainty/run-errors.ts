import type { InstrumentRole } from "../readings/reading.ts";
import type { Settings } from "../readings/settings.ts";
import type { Run } from "../readings/study.ts";
import type { ErrorSource } from "./error-source.ts";
import { combineRow, contributionsOfSteps, inverseFreedoms, isSafe } from "./first-order.ts";
import { runModel } from "./run-model.ts";
import { recordTape } from "./tape.ts";

/** A squared uncertainty, with how well it is known. */
export interface VarianceTerm {
  readonly variance: number;
  /** Above 0; Infinity where the size is taken as exactly known. */
  readonly degreesOfFreedom: number;
}

/** One shared error's part in a value, a mean, a difference or a ratio: its standard uncertainty there, with its sign. */
export interface SharedError {
  readonly source: ErrorSource;
  readonly contribution: number;
}

/** What first order tells of one quantity of one run. */
export interface QuantityError {
  /** In the quantity's unit. */
  readonly standardUncertainty: number;
  /** Effective; Infinity where every error's size is taken as exactly known. */
  readonly degreesOfFreedom: number;
  /** The fewest of any error that enters and is drawn as a scaled t; Infinity where none is. */
  readonly fewestDegreesOfFreedom: number;
  /** From the errors that are new at each reading. */
  readonly independent: VarianceTerm;
  /** Of the errors that the whole study has in common, one by one. */
  readonly shared: readonly SharedError[];
}

/** First order of all quantities of one run, kept small: for thousands of runs at once. */
export interface RunErrors {
  /** By the text of the quantity's key; null where the run has no value of it. */
  of(key: string): QuantityError | null;
  /** Instruments of whose errors the settings say nothing. */
  readonly exactRoles: readonly InstrumentRole[];
}

/** Restarted by each call, which hands nothing of its tape on. */
const recorder = recordTape();

/** First order of one run. Pure. */
export function runErrors(run: Run, settings: Settings): RunErrors {
  recorder.restart();
  const model = runModel(run, settings, recorder);
  const { sources, keys, outputs } = model;
  const { rows, columns, sharedWidth, reach } = contributionsOfSteps(model);
  const freedoms = inverseFreedoms(sources, columns);
  const width = sources.length;
  /** One output's row, with zeros where it has nothing. */
  let whole: Float64Array | null = null;
  const keptWidth = factsPerRow + sharedWidth;
  const kept = new Float64Array(keys.length * keptWidth);
  for (let row = 0; row < keys.length; row += 1) {
    const output = outputs[row] as number;
    const start = output * width;
    const end = start + (reach[output] as number);
    const ownStart = start + sharedWidth;
    const at = row * keptWidth;
    let sharedSquares = 0;
    for (let from = start; from < ownStart && from < end; from += 1) {
      const contribution = rows[from] as number;
      sharedSquares += contribution * contribution;
      kept[at + factsPerRow + from - start] = contribution;
    }
    let ownSquares = 0;
    for (let from = ownStart; from < end; from += 1) ownSquares += (rows[from] as number) * (rows[from] as number);
    if (freedoms === null && isSafe(ownSquares) && isSafe(sharedSquares)) {
      kept[at] = Math.sqrt(ownSquares + sharedSquares);
      kept[at + 1] = Number.POSITIVE_INFINITY;
      kept[at + 2] = Math.sqrt(ownSquares);
      kept[at + 3] = Number.POSITIVE_INFINITY;
      kept[at + 4] = Number.POSITIVE_INFINITY;
      continue;
    }
    whole ??= new Float64Array(width);
    whole.fill(0);
    whole.set(rows.subarray(start, end));
    const combined = combineRow(whole, freedoms);
    kept[at + 4] = fewestFreedom(whole, sources, columns);
    whole.fill(0, 0, sharedWidth);
    const ofOwn = combineRow(whole, freedoms);
    kept[at] = combined.standardUncertainty;
    kept[at + 1] = combined.degreesOfFreedom;
    kept[at + 2] = ofOwn.standardUncertainty;
    kept[at + 3] = ofOwn.degreesOfFreedom;
  }
  const shared = oneList(sources.filter(({ isShared }) => isShared));
  return told({ keys: oneList(keys), shared, kept }, model.exactRoles);
}

interface Kept {
  readonly keys: readonly string[];
  readonly shared: readonly ErrorSource[];
  /** A row a key: its facts, then what each shared error contributes. */
  readonly kept: Float64Array;
}

/** Apart from where it was worked out, so that nothing else of the model is held. */
function told({ keys, shared, kept }: Kept, exactRoles: readonly InstrumentRole[]): RunErrors {
  return {
    exactRoles,
    of(key) {
      const row = keys.indexOf(key);
      if (row < 0) return null;
      const start = row * (factsPerRow + shared.length);
      const [standardUncertainty = 0, degreesOfFreedom = 0, ownUncertainty = 0, ownFreedom = 0, fewest = 0] =
        kept.subarray(start, start + factsPerRow);
      return {
        standardUncertainty,
        degreesOfFreedom,
        fewestDegreesOfFreedom: fewest,
        independent: { variance: ownUncertainty ** 2, degreesOfFreedom: ownFreedom },
        shared: shared.map((source, column) => ({
          source,
          contribution: kept[start + factsPerRow + column] as number,
        })),
      };
    },
  };
}

const mostLists = 64;
const lists: (readonly unknown[])[] = [];

/** Runs of a study have the same quantities and the same shared errors again and again: one list for all of them. */
function oneList<T>(list: readonly T[]): readonly T[] {
  const known = lists.find((one) => one.length === list.length && one.every((item, at) => item === list[at]));
  if (known !== undefined) return known as readonly T[];
  lists.push(list);
  if (lists.length > mostLists) lists.shift();
  return list;
}

/** Kept for each quantity: whole and independent uncertainty, each with its degrees of freedom; the fewest of a scaled t. */
const factsPerRow = 5;

/** Of the largest contribution to a value: what is left of an error that cancels, but for rounding. */
const rounding = 1e-12;

function fewestFreedom(row: Float64Array, sources: readonly ErrorSource[], columns: Int32Array): number {
  const sizes = row.map(Math.abs);
  const least = rounding * sizes.reduce((most, size) => Math.max(most, size), 0);
  let fewest = Number.POSITIVE_INFINITY;
  sources.forEach(({ distribution }, source) => {
    if (distribution.kind !== "t" || !((sizes[columns[source] as number] as number) > least)) return;
    fewest = Math.min(fewest, distribution.degreesOfFreedom);
  });
  return fewest;
}

/** The shared errors' parts in a weighted sum of values: errors of one key are one error, whose parts add up with their signs. */
export function weightedShared(
  terms: readonly { readonly weight: number; readonly shared: readonly SharedError[] }[],
): SharedError[] {
  const parts = new Map<string, SharedError>();
  for (const { weight, shared } of terms) {
    for (const { source, contribution } of shared) {
      const known = parts.get(source.key);
      parts.set(source.key, { source, contribution: (known?.contribution ?? 0) + weight * contribution });
    }
  }
  return [...parts.values()];
}

/** The standard uncertainty that shared errors come to. */
export function sharedUncertainty(shared: readonly SharedError[]): number {
  return Math.hypot(...shared.map(({ contribution }) => contribution));
}
