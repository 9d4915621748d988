import type { InSteps } from "../../numeric/in-steps.ts";
import type { PhaseName } from "../../readings/phase.ts";
import { type Locale, wordsFor } from "../../words/index.ts";
import type { PhaseNumbers } from "../run-numbers.ts";
import { type NumberedRun, type Suspicion, touch } from "./numbered-run.ts";

/** Limits of readings that equal another run's. Common practice, no source. */
export const copiedLimits = {
  /** Readings that have to be equal at once. */
  fewestEqual: 3,
  /** How often chance alone may give such an equality in a study: from the shares of equal values that the study has. */
  chance: 0.0003,
  /** Of a balance for pots or wood, g; values crowd in the middle of their range. */
  digit: 2,
} as const;

interface Place {
  readonly run: NumberedRun;
  readonly phase: PhaseNumbers;
}

/** Weighings that are new at each phase: temperatures and minutes repeat by themselves. */
function newReadings({ woods, pots, char, withContainer }: PhaseNumbers): readonly (readonly [string, number])[] {
  return [
    ...woods
      .slice(0, 1)
      .flatMap(({ before, after }) => [["fuel_start_g", before] as const, ["fuel_end_g", after] as const]),
    Number.isNaN(withContainer) ? (["char_g", char] as const) : (["char_with_container_g", withContainer] as const),
    ...pots.flatMap(({ pot, start, end }) => [
      [`pot${pot}_start_g`, start] as const,
      [`pot${pot}_end_g`, end] as const,
    ]),
  ];
}

/**
 * Phases of which several readings equal those of the same phase in an earlier run, where the study's own values say that
 * chance hardly does that. Equal in all weighings and temperatures is another question, with its own words.
 */
export function* copiedSuspicions(
  runs: readonly NumberedRun[],
  locale: Locale,
): InSteps<Map<NumberedRun, Suspicion[]>> {
  const found = new Map<NumberedRun, Suspicion[]>();
  // A run that is still being made is the later one.
  const inOrder = runs.toSorted((one, other) => Number(one.facts.onBench ?? 0) - Number(other.facts.onBench ?? 0));
  const places = inOrder.flatMap((run) => run.phases.map((phase) => ({ run, phase })));
  for (const some of Map.groupBy(places, ({ phase }) => phase.phase).values()) {
    const shares = sharesOf(some);
    const pairs = (some.length * (some.length - 1)) / 2;
    const earlier = new Map<string, Place>();
    for (const place of some) {
      yield;
      const suspicion = copiedOf(place, earlier, shares, pairs, locale);
      if (suspicion !== null) found.set(place.run, [...(found.get(place.run) ?? []), suspicion]);
      for (const key of keysOf(newReadings(place.phase))) if (!earlier.has(key)) earlier.set(key, place);
    }
  }
  return found;
}

/** What is said of a phase whose readings equal those of one that is known; null where nothing is. */
function copiedOf(
  place: Place,
  earlier: ReadonlyMap<string, Place>,
  shares: ReadonlyMap<string, number>,
  pairs: number,
  locale: Locale,
): Suspicion | null {
  const values = newReadings(place.phase);
  // Whoever shares three readings shares two of wood, pot or char: those find the other.
  const others = new Set(keysOf(values).flatMap((key) => earlier.get(key) ?? []));
  for (const other of others) {
    const theirs = new Map(newReadings(other.phase));
    const equal = values.filter(([column, value]) => theirs.get(column) === value).map(([column]) => column);
    const chance = equal.reduce((product, column) => product * (shares.get(column) ?? 1), pairs);
    if (equal.length < copiedLimits.fewestEqual || chance > copiedLimits.chance) continue;
    const { questions } = wordsFor(locale);
    const phase: PhaseName = place.phase.phase;
    const message = questions.severalEqual(equal.map(questions.reading), other.run.facts.name, phase);
    return { rule: "severalEqual", phase, column: equal[0] ?? null, message, touches: touch(phase, "*") };
  }
  return null;
}

/** The readings of the other runs, to look whether one that is still being made equals any of them. */
export class OtherReadings {
  readonly #places: ReadonlyMap<PhaseName, readonly Place[]>;
  readonly #earlier = new Map<PhaseName, ReadonlyMap<string, Place>>();

  constructor(runs: readonly NumberedRun[]) {
    const places = runs.flatMap((run) => run.phases.map((phase) => ({ run, phase })));
    this.#places = Map.groupBy(places, ({ phase }) => phase.phase);
    for (const [phase, some] of this.#places) {
      const earlier = new Map<string, Place>();
      for (const place of some) {
        for (const key of keysOf(newReadings(place.phase))) if (!earlier.has(key)) earlier.set(key, place);
      }
      this.#earlier.set(phase, earlier);
    }
  }

  suspicions(run: NumberedRun, locale: Locale): Suspicion[] {
    return run.phases.flatMap((phase): Suspicion[] => {
      const earlier = this.#earlier.get(phase.phase);
      const others = this.#places.get(phase.phase);
      if (earlier === undefined || others === undefined) return [];
      if (!keysOf(newReadings(phase)).some((key) => earlier.has(key))) return [];
      const all = [...others, { run, phase }];
      const pairs = (all.length * (all.length - 1)) / 2;
      const found = copiedOf({ run, phase }, earlier, sharesOf(all), pairs, locale);
      return found === null ? [] : [found];
    });
  }
}

function keysOf(values: readonly (readonly [string, number])[]): string[] {
  const weighed = values.filter(([column, value]) => column.endsWith("_g") && Number.isFinite(value));
  return weighed.flatMap(([column, value], index) => {
    const next = weighed[(index + 1) % weighed.length];
    const after = weighed[(index + 2) % weighed.length];
    return [next, after].flatMap((other) =>
      other === undefined ? [] : [`${column}=${value} ${other[0]}=${other[1]}`],
    );
  });
}

/** By column: the share of pairs of runs that have the same value there by chance, from how often values repeat. */
function sharesOf(places: readonly Place[]): Map<string, number> {
  const counts = new Map<string, Map<number, number>>();
  for (const { phase } of places) {
    for (const [column, value] of newReadings(phase)) {
      if (!Number.isFinite(value)) continue;
      const ofColumn = counts.get(column) ?? new Map<number, number>();
      ofColumn.set(value, (ofColumn.get(value) ?? 0) + 1);
      counts.set(column, ofColumn);
    }
  }
  return new Map(
    [...counts].map(([column, ofColumn]) => {
      const total = [...ofColumn.values()].reduce((sum, count) => sum + count, 0);
      const equal = [...ofColumn.values()].reduce((sum, count) => sum + (count * (count - 1)) / 2, 0);
      const pairs = (total * (total - 1)) / 2;
      const weighed = [...ofColumn.keys()];
      const range =
        weighed.reduce((most, one) => Math.max(most, one), 0) - weighed.reduce((least, one) => Math.min(least, one));
      // The pair in question is one of the equal ones. What few runs cannot show: a digit of the balance in the range of the values.
      const habit = pairs === 0 ? 1 : Math.max(0, equal - 1) / pairs;
      const unseen = Math.min(1 / (pairs + 1), copiedLimits.digit / Math.max(range, copiedLimits.digit));
      return [column, Math.max(habit, unseen)];
    }),
  );
}
