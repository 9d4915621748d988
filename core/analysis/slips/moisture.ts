import { readingText } from "../../readings/rules/reading-text.ts";
import { type Locale, wordsFor } from "../../words/index.ts";
import { type PhaseNumbers, type WoodNumbers, wetPercent } from "../run-numbers.ts";
import { type NumberedRun, type Suspicion, touch } from "./numbered-run.ts";
import { medianOfSorted } from "./robust.ts";

/** Limits within which a moisture is taken for another's on the other basis. Common practice, no source. */
export const moistureLimits = {
  /** A value on one basis and the same on the other differ by rounding only, percentage points. */
  sameAfterConversion: 0.15,
  /** Less than this the two bases differ by for wood so dry that nothing can be told, percentage points. */
  leastDifference: 0.9,
  /** Share of the other runs that write the other basis. */
  shareOfOthers: 0.8,
  fewestOthers: 2,
} as const;

const dryFromWet = (wet: number) => wet / (1 - wet / 100);
const wetFromDry = (dry: number) => dry / (1 + dry / 100);

interface WrittenMoisture {
  readonly run: NumberedRun;
  readonly wood: WoodNumbers;
}

function firstWood({ woods: [wood] }: PhaseNumbers): WoodNumbers | null {
  return wood === undefined || !Number.isFinite(wood.percent) ? null : wood;
}

/** Moisture that fits the other runs, or the other phases, on the other basis only. */
export class Moistures {
  readonly #runs: readonly NumberedRun[];
  readonly #byDate: ReadonlyMap<string | null, readonly NumberedRun[]>;
  readonly #bases = { wet: 0, dry: 0 };

  constructor(runs: readonly NumberedRun[]) {
    this.#runs = runs.filter(({ isCounted }) => isCounted);
    this.#byDate = Map.groupBy(this.#runs, ({ facts }) => facts.date);
    for (const { phases } of this.#runs) {
      const wood = phases.map(firstWood).find((one) => one !== null);
      if (wood != null) this.#bases[wood.isDryBasis ? "dry" : "wet"] += 1;
    }
  }

  suspicions(run: NumberedRun, locale: Locale): Suspicion[] {
    const { questions } = wordsFor(locale);
    const phases = run.phases.flatMap((phase) => {
      const wood = firstWood(phase);
      return wood === null ? [] : [{ phase, wood }];
    });
    const ask = (odd: typeof phases, message: string): Suspicion[] => {
      const [first] = odd;
      if (first === undefined) return [];
      const columns = ["moisture_wet_percent", "moisture_dry_percent"];
      const touches = odd.flatMap(({ phase }) => touch(phase.phase, ...columns));
      const column = columns[first.wood.isDryBasis ? 1 : 0] ?? null;
      return [{ rule: "moistureBasis", phase: first.phase.phase, column, message, touches }];
    };
    const text = (value: number) => readingText(Math.round(value * 10) / 10, locale);
    const fitting = (there: number, odd: typeof phases): Suspicion[] => {
      const percent = odd[0]?.wood.percent ?? Number.NaN;
      const isDry = odd[0]?.wood.isDryBasis ?? false;
      return ask(odd, questions.moistureBasis(text(percent), isDry, text(there)));
    };
    // Within the run: one phase against the others, which agree.
    for (const one of phases) {
      const others = phases.filter((other) => other !== one).map(({ wood }) => wetPercent(wood));
      const [first] = others;
      if (first === undefined || others.length < 2 || others.some((other) => Math.abs(other - first) > 0.05)) continue;
      if (isOtherBasis(one.wood, first)) return fitting(first, [one]);
    }
    // The whole run, against those of the same day, which burn the same wood.
    const [first] = phases;
    if (first === undefined || phases.some(({ wood }) => wood.percent !== first.wood.percent)) return [];
    const sameDay = othersOf(run, run.facts.date === null ? [] : (this.#byDate.get(run.facts.date) ?? []));
    const today = agreed(sameDay);
    if (today !== null && isOtherBasis(first.wood, today)) return fitting(today, phases);
    // The column of the other basis, where all others write this one's.
    const usual = this.#runs.length - 1;
    const sameBasis = this.#bases[first.wood.isDryBasis ? "dry" : "wet"] - 1;
    if (usual < moistureLimits.fewestOthers || sameBasis > (1 - moistureLimits.shareOfOthers) * usual) return [];
    return ask(phases, questions.moistureColumn(text(first.wood.percent), first.wood.isDryBasis));
  }
}

function othersOf(run: NumberedRun, runs: readonly NumberedRun[]): WrittenMoisture[] {
  return runs.flatMap((other) => {
    const wood = other === run ? null : (other.phases.map(firstWood).find((one) => one !== null) ?? null);
    return wood === null ? [] : [{ run: other, wood }];
  });
}

/** What several runs of a day have, if they agree; null otherwise. */
function agreed(others: readonly WrittenMoisture[]): number | null {
  if (others.length < moistureLimits.fewestOthers) return null;
  const sorted = others.map(({ wood }) => wetPercent(wood)).sort((one, other) => one - other);
  const centre = medianOfSorted(sorted);
  const close = sorted.filter((value) => Math.abs(value - centre) <= moistureLimits.sameAfterConversion);
  return close.length >= moistureLimits.fewestOthers && close.length * 2 > sorted.length ? centre : null;
}

/** Whether a moisture as written would be the usual one if it stood on the other basis. */
function isOtherBasis({ percent, isDryBasis }: WoodNumbers, usualWet: number): boolean {
  const { sameAfterConversion, leastDifference } = moistureLimits;
  // As written and meant: on the wet basis a dry one, on the dry basis a wet one.
  const written = isDryBasis ? wetFromDry(percent) : percent;
  if (Math.abs(written - usualWet) < leastDifference) return false;
  const expected = isDryBasis ? usualWet : dryFromWet(usualWet);
  return Math.abs(percent - expected) <= sameAfterConversion;
}
