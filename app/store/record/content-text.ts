import type { PhaseName } from "../../../core/index.ts";
import type { StoredPhase, StoredReading, StoredRun, StoredSeries, StoredTiming, StoredVariant } from "../content.ts";
import { StoreFault } from "../fault.ts";

/**
 * Content as text, the same text for the same content: for the record's `before` and `after`, and for seals. Maps are lists of
 * pairs, so that no name is ever a property. Phases stand in the order of the procedure, readings and levels in the order of
 * their names, texts in their own order.
 */

const byName = (a: readonly [string, unknown], b: readonly [string, unknown]): number =>
  a[0] < b[0] ? -1 : a[0] > b[0] ? 1 : 0;

const sortedPairs = <T>(map: ReadonlyMap<string, T>): [string, T][] => [...map].sort(byName);

type ReadingTriple = readonly [column: string, act: number, value: number];

interface PhaseShape {
  readonly phase: PhaseName;
  readonly timing: StoredTiming;
  readonly sourceRow: number | null;
  readonly readings: readonly ReadingTriple[];
  readonly texts: readonly (readonly [string, string])[];
}

interface RunShape extends Omit<StoredRun, "levels" | "phases"> {
  readonly levels: readonly (readonly [string, string | null])[];
  readonly phases: readonly PhaseShape[];
}

interface SeriesShape extends Omit<StoredSeries, "minutes" | "values"> {
  readonly minutes: string;
  readonly values: string;
}

interface VariantShape extends Omit<StoredVariant, "levels"> {
  readonly levels: readonly (readonly [string, string])[];
}

/** JSON of the record; what does not parse was damaged. */
export function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch (error) {
    throw new StoreFault("damaged", "a text of the file is not JSON", { cause: error });
  }
}

const places: Readonly<Record<PhaseName, number>> = {
  "cold-start": 0,
  "hot-start": 1,
  simmer: 2,
  "high-power": 3,
  "medium-power": 4,
  "low-power": 5,
};

/** Place of a phase in the procedure, 0 to 5; the schema has the same numbers, and files rely on them. */
export const phaseIndex = (phase: PhaseName): number => places[phase];

const names = Object.keys(places) as PhaseName[];

/** The phase at a place in the procedure. */
export function phaseNameAt(index: number): PhaseName {
  const name = names[index];
  if (name === undefined) throw new StoreFault("damaged", `there is no phase of number ${index}`);
  return name;
}

function phaseShape({ phase, timing, sourceRow, readings, texts }: StoredPhase): PhaseShape {
  const triples = sortedPairs(readings).map(([column, { act, value }]): ReadingTriple => [column, act, value]);
  return { phase, timing, sourceRow, readings: triples, texts: [...texts] };
}

function phaseOfShape({ phase, timing, sourceRow, readings, texts }: PhaseShape): StoredPhase {
  return {
    phase,
    timing,
    sourceRow,
    readings: new Map(readings.map(([column, act, value]): [string, StoredReading] => [column, { act, value }])),
    texts: new Map(texts),
  };
}

export const phaseText = (phase: StoredPhase): string => JSON.stringify(phaseShape(phase));
export const phaseOfText = (text: string): StoredPhase => phaseOfShape(parsed(text) as PhaseShape);

/** All that is recorded of a run, without its series. */
export function runText(run: StoredRun): string {
  const { name, position, variant, method, date, order, block, operator, leftOut, levels, attachment, phases } = run;
  const inOrder = [...phases].sort((a, b) => phaseIndex(a.phase) - phaseIndex(b.phase));
  const shape: RunShape = {
    ...{ name, position, variant, method, date, order, block, operator, leftOut },
    levels: sortedPairs(levels),
    attachment,
    phases: inOrder.map(phaseShape),
  };
  return JSON.stringify(shape);
}

export function runOfText(text: string): StoredRun {
  const shape = parsed(text) as RunShape;
  return { ...shape, levels: new Map(shape.levels), phases: shape.phases.map(phaseOfShape) };
}

export const levelsText = (levels: ReadonlyMap<string, string | null>): string => JSON.stringify(sortedPairs(levels));
export const levelsOfText = (text: string): Map<string, string | null> =>
  new Map(parsed(text) as [string, string | null][]);

export const variantText = ({ name, position, levels }: StoredVariant): string =>
  JSON.stringify({ name, position, levels: sortedPairs(levels) } satisfies VariantShape);

export function variantOfText(text: string): StoredVariant {
  const { name, position, levels } = parsed(text) as VariantShape;
  return { name, position, levels: new Map(levels) };
}

/** Samples as the file keeps them: 64-bit floating-point numbers, lowest byte first, one after another. */
export function bytesOf(samples: Float64Array): Uint8Array {
  const bytes = new Uint8Array(samples.length * 8);
  const view = new DataView(bytes.buffer);
  for (const [index, sample] of samples.entries()) view.setFloat64(index * 8, sample, true);
  return bytes;
}

export function samplesOf(bytes: Uint8Array): Float64Array {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  return Float64Array.from({ length: Math.floor(bytes.byteLength / 8) }, (_, index) =>
    view.getFloat64(index * 8, true),
  );
}

const base64 = (samples: Float64Array): string => Buffer.from(bytesOf(samples)).toString("base64");

/** A series as JSON; its samples as base64 of `bytesOf`, so that each comes back bit by bit. */
export const seriesText = ({ run, name, unit, minutes, values }: StoredSeries): string =>
  JSON.stringify({ run, name, unit, minutes: base64(minutes), values: base64(values) } satisfies SeriesShape);

export function seriesOfText(text: string): StoredSeries {
  const { run, name, unit, minutes, values } = parsed(text) as SeriesShape;
  const samples = (base: string): Float64Array => samplesOf(Buffer.from(base, "base64"));
  return { run, name, unit, minutes: samples(minutes), values: samples(values) };
}
