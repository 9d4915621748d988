import type { PhaseName } from "../../readings/phase.ts";
import { readingText } from "../../readings/rules/reading-text.ts";
import { type Locale, wordsFor } from "../../words/index.ts";
import { type NumberedRun, phaseOf, type Suspicion, touch } from "./numbered-run.ts";
import { judge } from "./outside.ts";
import type { Reference } from "./reference.ts";
import { readingOf, withReading } from "./replace-reading.ts";
import type { WatchedName } from "./watched.ts";

/** Limits of readings that stand in each other's place, as shares of the robust limit. */
export const exchangedLimits = {
  /** At least one of the two is beyond the limit, the other at least so far off. */
  otherOff: 0.5,
  /** Both are at most so far off when they have changed places. */
  usual: 0.5,
} as const;

interface Place {
  readonly phase: PhaseName;
  readonly column: string;
}

/** What shows whether a reading stands in its place. */
const shownBy: readonly { readonly columns: readonly string[]; readonly watched: readonly WatchedName[] }[] = [
  { columns: ["fuel_start_g", "fuel_end_g"], watched: ["woodBurned"] },
  {
    columns: ["pot1_start_g", "pot1_end_g", "pot2_start_g", "pot2_end_g"],
    watched: ["waterAtStart", "waterLost", "potGoesOn"],
  },
  { columns: ["char_with_container_g", "char_g"], watched: ["char"] },
  { columns: ["pot1_start_C", "pot2_start_C", "air_C"], watched: ["temperatureAtStart", "air", "airInRun"] },
  { columns: ["pot1_end_C", "pot2_end_C", "boiling_C"], watched: ["endUnderBoiling", "boiling"] },
];

/** The largest share of the limit by which the run is off in these phases. */
function worst(run: NumberedRun, names: readonly WatchedName[], reference: Reference, standing: NumberedRun): number[] {
  return run.phases.map(({ phase }) =>
    Math.max(
      0,
      ...reference.watched
        .filter(({ name }) => names.includes(name))
        .map((watched) => judge({ watched, phase }, run, reference, standing)?.excess ?? 0),
    ),
  );
}

/** Pairs of readings that are odd where they stand and usual in each other's place: of two phases, or of two columns of one. */
export function exchangedSuspicions(run: NumberedRun, reference: Reference, locale: Locale): Suspicion[] {
  const { questions } = wordsFor(locale);
  return shownBy.flatMap(({ columns, watched }): Suspicion[] => {
    const before = worst(run, watched, reference, run);
    const most = Math.max(...before);
    if (!(most > 1)) return [];
    const places = run.phases.flatMap(({ phase }) => columns.map((column): Place => ({ phase, column })));
    let best: { readonly pair: readonly [Place, Place]; readonly off: number } | null = null;
    for (const [index, one] of places.entries()) {
      for (const other of places.slice(index + 1)) {
        if (one.phase !== other.phase && one.column !== other.column) continue;
        const [here, there] = [valueAt(run, one), valueAt(run, other)];
        if (!Number.isFinite(here) || !Number.isFinite(there) || here === there) continue;
        const tried = withReading(withReading(run, one.phase, one.column, there), other.phase, other.column, here);
        const off = Math.max(...worst(tried, watched, reference, run));
        if (off < exchangedLimits.usual && off < (best?.off ?? 1)) best = { pair: [one, other], off };
      }
    }
    if (best === null) return [];
    const [one, other] = best.pair;
    const isOdd = (name: PhaseName) =>
      (before[run.phases.findIndex(({ phase }) => phase === name)] ?? 0) > exchangedLimits.otherOff;
    if (!isOdd(one.phase) || !isOdd(other.phase)) return [];
    const text = (place: Place) => readingText(valueAt(run, place), locale);
    const message = questions.exchanged(
      { what: questions.reading(one.column), phase: one.phase, value: text(one) },
      { what: questions.reading(other.column), phase: other.phase, value: text(other) },
    );
    const touches = [...touch(one.phase, ...columns), ...touch(other.phase, ...columns)];
    return [{ rule: "exchanged", phase: one.phase, column: one.column, message, touches }];
  });
}

function valueAt(run: NumberedRun, { phase, column }: Place): number {
  const one = phaseOf(run, phase);
  return one === undefined ? Number.NaN : readingOf(one, column);
}
