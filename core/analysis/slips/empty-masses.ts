import { readingText } from "../../readings/rules/reading-text.ts";
import { type Locale, wordsFor } from "../../words/index.ts";
import type { PhaseNumbers } from "../run-numbers.ts";
import { type NumberedRun, type Suspicion, touch } from "./numbered-run.ts";
import { outsideLimits } from "./reference.ts";
import { resemblance } from "./resemblance.ts";
import { median, robustScale } from "./robust.ts";

/** Limits of the masses that stay: of empty pots and char containers. Common practice, no source. */
export const emptyMassLimits = {
  /** What two weighings of the same empty pot differ by at most: soot, a drop of water, the balance, g. */
  grams: 5,
  /** Of balances that show no less, g. */
  coarseStep: 10,
  /** Where the runs' own weighings scatter more. */
  deviations: 5,
  fewestOthers: 2,
} as const;

/** A mass that should be the same wherever it is written. */
interface Kept {
  readonly column: string;
  of(phase: PhaseNumbers): number;
}

const keptMasses: readonly Kept[] = [
  ...([1, 2, 3, 4] as const).map((pot) => ({
    column: `pot${pot}_empty_g`,
    of: (phase: PhaseNumbers) => phase.pots.find((one) => one.pot === pot)?.empty ?? Number.NaN,
  })),
  { column: "char_container_g", of: ({ container }) => container },
];

/** What one run has: the value of most of its phases. */
function ofRun(kept: Kept, run: NumberedRun): number {
  const values = run.phases.map(kept.of).filter(Number.isFinite);
  return values.length === 0 ? Number.NaN : mostCommon(values);
}

function mostCommon(values: readonly number[]): number {
  const counts = new Map<number, number>();
  for (const value of values) counts.set(value, (counts.get(value) ?? 0) + 1);
  const [most] = [...counts].sort(([, one], [, other]) => other - one);
  return most === undefined ? Number.NaN : most[1] > 1 || values.length < 3 ? most[0] : median(values);
}

interface KeptValues {
  readonly kept: Kept;
  /** By variant: each counted run's value. */
  readonly byVariant: ReadonlyMap<string, readonly { readonly run: NumberedRun; readonly value: number }[]>;
  readonly all: readonly { readonly run: NumberedRun; readonly value: number }[];
  /** Of large groups, once somebody asked; null: the whole study. */
  readonly known: Map<string | null, Usual>;
}

interface Usual {
  readonly usual: number;
  readonly limit: number;
  readonly runs: number;
  /** Values, and how many runs have each. */
  readonly counts: ReadonlyMap<number, number>;
}

function usualOf(some: readonly { readonly value: number }[]): Usual | null {
  if (some.length < emptyMassLimits.fewestOthers) return null;
  const values = some.map(({ value }) => value);
  const usual = mostCommon(values);
  // A balance in steps of 10 g may show the next one.
  const steps = values.every((value) => value % emptyMassLimits.coarseStep === 0) ? emptyMassLimits.coarseStep : 0;
  const limit = Math.max(emptyMassLimits.grams, steps, emptyMassLimits.deviations * robustScale(values, usual));
  const counts = new Map<number, number>();
  for (const value of values) counts.set(value, (counts.get(value) ?? 0) + 1);
  return { usual, limit, runs: values.length, counts };
}

/** The empty masses of a study, to ask runs about. */
export class EmptyMasses {
  readonly #values: readonly KeptValues[];

  constructor(runs: readonly NumberedRun[]) {
    this.#values = keptMasses.flatMap((kept) => {
      const all = runs.flatMap((run) => {
        const value = run.isCounted ? ofRun(kept, run) : Number.NaN;
        return Number.isFinite(value) ? [{ run, value }] : [];
      });
      return all.length === 0
        ? []
        : [{ kept, all, byVariant: Map.groupBy(all, ({ run }) => run.facts.variant), known: new Map() }];
    });
  }

  /** What the other runs have, the variant's own where there are enough; null where they are too few. */
  #usual(values: KeptValues, run: NumberedRun): Usual | null {
    const { all, byVariant, known } = values;
    const ofVariant = byVariant.get(run.facts.variant) ?? [];
    const isEnough = ofVariant.length - (run.isCounted ? 1 : 0) >= emptyMassLimits.fewestOthers;
    const some = isEnough ? ofVariant : all;
    // In a large group one run more or less does not matter.
    const isLarge = some.length > outsideLimits.largestLeftOneOut;
    const key = isEnough ? run.facts.variant : null;
    const found =
      (isLarge ? known.get(key) : undefined) ?? usualOf(isLarge ? some : some.filter((one) => one.run !== run));
    if (isLarge && found !== null) known.set(key, found);
    return found;
  }

  /** Empty masses of a run that differ from phase to phase, or from those of the other runs. */
  suspicions(run: NumberedRun, locale: Locale): Suspicion[] {
    return this.#values.flatMap((values) => {
      const { kept } = values;
      const having = run.phases.filter((phase) => Number.isFinite(kept.of(phase)));
      const [first] = having;
      if (first === undefined) return [];
      const own = ofRun(kept, run);
      const found = this.#usual(values, run);
      const limit = found?.limit ?? emptyMassLimits.grams;
      const odd = found === null ? null : having.filter((phase) => Math.abs(kept.of(phase) - found.usual) > limit);
      // A large group has the run itself, too.
      const isWhole = found !== null && found.runs > outsideLimits.largestLeftOneOut;
      const isKnown =
        (found?.counts.get(own) ?? 0) > (isWhole ? 1 : 0) ||
        [...(found?.counts.keys() ?? [])].some((one) => one !== own && Math.abs(one - own) <= emptyMassLimits.grams);
      if (found !== null && odd !== null && odd.length === having.length && !isKnown) {
        return this.#againstOthers(values, run, having, { ...found, own }, locale);
      }
      const against = found === null || isKnown ? own : found.usual;
      return having
        .filter((phase) => Math.abs(kept.of(phase) - against) > limit)
        .map((phase): Suspicion => {
          const [here, there] = [readingText(kept.of(phase), locale), readingText(against, locale)];
          const { questions } = wordsFor(locale);
          const message = questions.emptyMassInRun(questions.reading(kept.column), here, there);
          const touches = touch(phase.phase, ...touchedBy(kept.column));
          return { rule: "emptyMass", phase: phase.phase, column: kept.column, message, touches };
        });
    });
  }

  #againstOthers(
    values: KeptValues,
    run: NumberedRun,
    having: readonly PhaseNumbers[],
    { usual, limit, runs, own }: Usual & { readonly own: number },
    locale: Locale,
  ): Suspicion[] {
    const { kept } = values;
    const { questions } = wordsFor(locale);
    const text = (value: number) => readingText(value, locale);
    const touches = having.flatMap(({ phase }) => touch(phase, ...touchedBy(kept.column)));
    const phase = having[0]?.phase ?? null;
    const as = { phase, column: kept.column, touches };
    const other = this.#values.find((one) => {
      const its = one === values || !isPot(one.kept) || !isPot(kept) ? null : this.#usual(one, run);
      return its !== null && Math.abs(its.usual - own) <= its.limit && Math.abs(its.usual - usual) > limit;
    });
    if (other !== undefined) {
      const [pot, otherPot] = [kept.column.charAt(3), other.kept.column.charAt(3)];
      const message = questions.potsSwapped(pot, text(own), otherPot, text(usual));
      // One question for the two of them.
      const both = having.flatMap(({ phase: name }) => touch(name, ...touchedBy(other.kept.column)));
      return [{ ...as, rule: "potsSwapped", message, touches: [...touches, ...both] }];
    }
    const meant = resemblance(own, (value) => (Math.abs(value - usual) <= limit ? Math.abs(value - usual) : null));
    const what = questions.reading(kept.column);
    const hint = meant === null ? null : questions.meant[meant.kind](what, text(meant.value));
    const message = questions.emptyMass(what, text(own), text(usual), runs, hint);
    return [{ ...as, rule: "emptyMass", message }];
  }
}

function isPot({ column }: Kept): boolean {
  return column.startsWith("pot");
}

/** An empty mass is in everything that is weighed in it. */
function touchedBy(column: string): string[] {
  if (column === "char_container_g") return [column, "char_with_container_g"];
  const pot = column.slice(0, 4);
  return [column, `${pot}_start_g`, `${pot}_end_g`];
}
