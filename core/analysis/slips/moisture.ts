import { readingText } from "../../readings/rules/reading-text.ts";
import { type Locale, wordsFor } from "../../words/index.ts";
import { type PhaseNumbers, type WoodNumbers, wetPercent } from "../run-numbers.ts";
import { type NumberedRun, type Suspicion, touch } from "./numbered-run.ts";
import { outsideLimits } from "./reference.ts";
import { inflationByFew, medianOfSorted, robustScale } from "./robust.ts";

/** Limits within which a moisture is taken for another's on the other basis. Common practice, no source. */
export const moistureLimits = {
  /** A value on one basis and the same on the other differ by rounding only, percentage points. */
  sameAfterConversion: 0.15,
  /** Less than this the two bases differ by for wood so dry that nothing can be told, percentage points. */
  leastDifference: 0.9,
  /** Share of the other runs that write the other basis. */
  shareOfOthers: 0.8,
  fewestOthers: 2,
  /** Beside the whole study: least scatter of the others' moisture, percentage points, and how many times it is odd, and usual. */
  fewestOthersInStudy: 3,
  leastScatter: 0.25,
  outside: 3.2,
  inside: 1.6,
} as const;

const dryFromWet = (wet: number) => wet / (1 - wet / 100);
const wetFromDry = (dry: number) => dry / (1 + dry / 100);

function firstWood({ woods: [wood] }: PhaseNumbers): WoodNumbers | null {
  return wood === undefined || !Number.isFinite(wood.percent) ? null : wood;
}

/** What a run says first of its wood's moisture; null where it says nothing. */
function woodOf({ phases }: NumberedRun): WoodNumbers | null {
  return phases.map(firstWood).find((one) => one !== null) ?? null;
}

interface Spread {
  readonly usual: number;
  readonly scale: number;
}

function spreadOf(sorted: Float64Array): Spread {
  const usual = medianOfSorted(sorted);
  const scale = Math.max(moistureLimits.leastScatter, robustScale(sorted, usual)) * inflationByFew(sorted.length);
  return { usual, scale };
}

/** Moisture that fits the other runs, or the other phases, on the other basis only. */
export class Moistures {
  readonly #runs: readonly NumberedRun[];
  /** By the day, what the counted runs have on the wet basis, in per cent, sorted. */
  readonly #ofDay = new Map<string, Float64Array>();
  /** Of all counted runs on the wet basis, in per cent, sorted: once somebody asked. */
  #all: Float64Array | null = null;
  #spread: Spread | null = null;
  readonly #bases = { wet: 0, dry: 0 };

  constructor(runs: readonly NumberedRun[]) {
    this.#runs = runs.filter(({ isCounted }) => isCounted);
    const byDate = new Map<string, number[]>();
    for (const run of this.#runs) {
      const wood = woodOf(run);
      if (wood === null) continue;
      this.#bases[wood.isDryBasis ? "dry" : "wet"] += 1;
      const { date } = run.facts;
      if (date === null) continue;
      const values = byDate.get(date);
      if (values === undefined) byDate.set(date, [wetPercent(wood)]);
      else values.push(wetPercent(wood));
    }
    for (const [date, values] of byDate) this.#ofDay.set(date, Float64Array.from(values).sort());
  }

  /** The usual moisture of the other runs, where this one's lies outside theirs and would be usual on the other basis. */
  #ofStudy(run: NumberedRun, wood: WoodNumbers): number | null {
    const { fewestOthersInStudy, outside, inside, leastDifference } = moistureLimits;
    this.#all ??= Float64Array.from(
      this.#runs.flatMap((one) => {
        const its = woodOf(one);
        return its === null ? [] : [wetPercent(its)];
      }),
    ).sort();
    const isLarge = this.#all.length > outsideLimits.largestLeftOneOut;
    const own = run.isCounted && !isLarge ? countBelow(this.#all, wetPercent(wood)) : -1;
    const others = own < 0 ? this.#all : this.#all.filter((_, index) => index !== own);
    if (others.length < fewestOthersInStudy) return null;
    // One run more or less does not move the middle of a large study.
    const { usual, scale } = (isLarge ? this.#spread : null) ?? spreadOf(others);
    if (isLarge) this.#spread = { usual, scale };
    const written = wood.isDryBasis ? wetFromDry(wood.percent) : wood.percent;
    const meant = wood.isDryBasis ? wood.percent : wetFromDry(wood.percent);
    const isOutside = Math.abs(written - usual) > Math.max(leastDifference, outside * scale);
    const lies = (value: number) => Math.abs(value - usual);
    const furthest = Math.max(lies(others[0] ?? usual), lies(others.at(-1) ?? usual));
    return isOutside && lies(meant) <= inside * scale && lies(written) > furthest ? usual : null;
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
    const sameDay = run.facts.date === null ? undefined : this.#ofDay.get(run.facts.date);
    const today = sameDay === undefined ? null : agreed(sameDay, run.isCounted ? wetPercent(first.wood) : null);
    if (today !== null && isOtherBasis(first.wood, today)) return fitting(today, phases);
    // Or against the whole study, where its wood is much the same.
    const whole = today === null ? this.#ofStudy(run, first.wood) : null;
    if (whole !== null) return fitting(whole, phases);
    // The column of the other basis, where all others write this one's.
    const own = run.isCounted ? 1 : 0;
    const usual = this.#runs.length - own;
    const sameBasis = this.#bases[first.wood.isDryBasis ? "dry" : "wet"] - own;
    if (usual < moistureLimits.fewestOthers || sameBasis > (1 - moistureLimits.shareOfOthers) * usual) return [];
    return ask(phases, questions.moistureColumn(text(first.wood.percent), first.wood.isDryBasis));
  }
}

/**
 * What the runs of a day have but for one of them, if they agree; null otherwise.
 *
 * @param own what that one has itself, which is among the sorted values; null where it is not
 */
function agreed(sorted: Float64Array, own: number | null): number | null {
  const { fewestOthers, sameAfterConversion } = moistureLimits;
  const left = own === null ? -1 : countBelow(sorted, own);
  const others = sorted.length - (left < 0 ? 0 : 1);
  if (others < fewestOthers) return null;
  const at = (index: number) => sorted[left >= 0 && index >= left ? index + 1 : index] ?? Number.NaN;
  const centre = (at(Math.floor((others - 1) / 2)) + at(Math.floor(others / 2))) / 2;
  const isClose = (value: number) => Math.abs(value - centre) <= sameAfterConversion;
  let from = countBelow(sorted, centre - 2 * sameAfterConversion);
  while (from < sorted.length && !isClose(sorted[from] ?? Number.NaN)) from += 1;
  let to = countBelow(sorted, centre + sameAfterConversion);
  while (to < sorted.length && isClose(sorted[to] ?? Number.NaN)) to += 1;
  const close = Math.max(0, to - from) - (own !== null && isClose(own) ? 1 : 0);
  return close >= fewestOthers && close * 2 > others ? centre : null;
}

/** How many of the sorted values are below one. */
function countBelow(sorted: Float64Array, value: number): number {
  let [from, to] = [0, sorted.length];
  while (from < to) {
    const middle = (from + to) >>> 1;
    if ((sorted[middle] ?? Number.NaN) < value) from = middle + 1;
    else to = middle;
  }
  return from;
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
