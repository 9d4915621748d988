import type { RunFacts } from "../analysis/run-facts.ts";
import { BoilingPoints, type PhaseNumbers, unpackRun, wetPercent } from "../analysis/run-numbers.ts";
import { medianOfSorted, robustScale } from "../analysis/slips/robust.ts";
import { formatFixed } from "../format/number.ts";
import { moistureDryFromWet } from "../fuel/moisture.ts";
import { plainNumbers } from "../numeric/arithmetic.ts";
import { powerLevelMinutes } from "../procedure/iso-procedure.ts";
import type { FieldPlace } from "../procedure/procedure-field.ts";
import { simmerMinutes } from "../procedure/wbt-procedure.ts";
import { isBoilingPhase, isHoldingPhase, isoPhases, type PhaseName } from "../readings/phase.ts";
import type { Run } from "../readings/study.ts";
import { type Locale, wordsFor } from "../words/index.ts";

/** From when on, and how far from the middle, earlier runs say what is usual. Common practice, no source. */
export const usualLimits = {
  fewestRuns: 3,
  /** Robust standard deviations beyond which a run is no example. */
  deviations: 4.2,
  /** Least scatter that is reckoned with, as a share of the middle. */
  leastShare: 0.02,
  /** The latest runs of the variant: what was usual long ago is not. */
  mostRuns: 200,
} as const;

/** Water of a boiling phase or a power level, g, in a stove's only or first pot (Water Boiling Test 4.2.3, from memory). */
export const usualWater = 5000;

/** Smallest and largest of some values, those that are far off left away; null where there are too few. */
export function usualRange(values: readonly number[]): { readonly low: number; readonly high: number } | null {
  const sorted = Float64Array.from(values.filter(Number.isFinite)).sort();
  if (sorted.length < usualLimits.fewestRuns) return null;
  const centre = medianOfSorted(sorted);
  const scale = Math.max(robustScale(sorted, centre), usualLimits.leastShare * Math.abs(centre));
  const isUsual = (value: number) => Math.abs(value - centre) <= usualLimits.deviations * scale;
  return { low: sorted.find(isUsual) ?? centre, high: sorted.findLast(isUsual) ?? centre };
}

/** What stands in the cells of a phase's row, by column. */
export type PhaseTexts = (phase: PhaseName) => ReadonlyMap<string, string>;

type Numbers = (phase: PhaseNumbers) => number;

const decimalsOf = (column: string) => (/_C$|percent$/.test(column) ? 1 : 0);

function unitOf(column: string): string {
  if (column.endsWith("_C")) return "°C";
  return column.endsWith("percent") ? "%" : "g";
}

/** What a column's number is among those of a phase; null where it is not among them. */
function numberOf(column: string): Numbers | null {
  const pot = /^pot([1-4])_(empty_g|start_g|end_g|start_C|end_C)$/.exec(column);
  if (pot !== null) {
    const keys = { empty_g: "empty", start_g: "start", end_g: "end", start_C: "from", end_C: "to" } as const;
    const key = keys[pot[2] as keyof typeof keys];
    return ({ pots }) => pots.find((one) => one.pot === Number(pot[1]))?.[key] ?? Number.NaN;
  }
  switch (column) {
    case "fuel_start_g":
      return ({ woods }) => woods[0]?.before ?? Number.NaN;
    case "fuel_end_g":
      return ({ woods }) => woods[0]?.after ?? Number.NaN;
    case "moisture_wet_percent":
      return ({ woods: [wood] }) => (wood === undefined ? Number.NaN : wetPercent(wood));
    case "moisture_dry_percent":
      return ({ woods: [wood] }) =>
        wood === undefined ? Number.NaN : moistureDryFromWet(plainNumbers, wetPercent(wood) / 100) * 100;
    case "char_container_g":
      return ({ container }) => container;
    case "char_with_container_g":
      return ({ withContainer }) => withContainer;
    case "char_at_start_g":
      return ({ charAtStart }) => charAtStart;
    case "air_C":
      return ({ air }) => air;
    case "boiling_C":
      return ({ boilingHere }) => boilingHere;
    default:
      return null;
  }
}

/** The column of the same phase that an after-reading follows: what it lost since is looked at. */
function columnBefore(column: string): string | null {
  if (column === "fuel_end_g") return "fuel_start_g";
  const [, pot] = /^(pot[1-4])_end_g$/.exec(column) ?? [];
  return pot === undefined ? null : `${pot}_start_g`;
}

const numberIn = (cells: ReadonlyMap<string, string>, column: string): number => {
  const text = cells.get(column);
  return text === undefined ? Number.NaN : Number(text);
};

/** HH:MM so many minutes later. */
function later(time: string, minutes: number): string | null {
  const [, hours, rest] = /(?:^|T)(\d{1,2}):(\d{2})/.exec(time) ?? [];
  if (hours === undefined || rest === undefined) return null;
  const at = (Number(hours) * 60 + Number(rest) + minutes) % 1440;
  return `${String(Math.floor(at / 60)).padStart(2, "0")}:${String(at % 60).padStart(2, "0")}`;
}

/** What is usual at the fields of a run: from the other runs of its variant that count, or else from the procedure. */
export class UsualReadings {
  readonly #others: readonly (readonly PhaseNumbers[])[];
  readonly #locale: Locale;

  constructor(run: Pick<Run, "id" | "variant">, facts: readonly RunFacts[], locale: Locale) {
    const boilingPoints = new BoilingPoints();
    this.#locale = locale;
    this.#others = facts
      .filter(({ id, variant, leftOut }) => leftOut === null && variant === run.variant && id !== run.id)
      .slice(-usualLimits.mostRuns)
      .map(({ numbers }) => unpackRun(numbers, boilingPoints));
  }

  #range(phase: PhaseName, of: Numbers) {
    const values = this.#others.flatMap((phases) => {
      const one = phases.find((other) => other.phase === phase);
      return one === undefined ? [] : [of(one)];
    });
    return usualRange(values);
  }

  /**
   * What is usual at a field, as a sentence fragment; null where nothing is known.
   *
   * @param boiling local boiling point of the run, °C; null where it is not known
   */
  at({ phase, column }: FieldPlace, cells: PhaseTexts, boiling: number | null): string | null {
    if (phase === null) return null;
    const words = wordsFor(this.#locale).benchWork;
    const text = (value: number, decimals: number) => formatFixed(value, decimals, this.#locale);
    if (column === "end" || column === "boiled_at") return this.#time(phase, column, cells(phase));
    const of = numberOf(column);
    if (of === null) return null;
    const decimals = decimalsOf(column);
    const earlier = columnBefore(column);
    const before = earlier === null ? Number.NaN : numberIn(cells(phase), earlier);
    const ofBefore = earlier === null ? null : numberOf(earlier);
    if (ofBefore !== null && Number.isFinite(before)) {
      const loss = this.#range(phase, (one) => ofBefore(one) - of(one));
      const was = text(before, 0);
      if (loss === null) return words.before(was, "g");
      return words.usualLoss(was, text(loss.low, 0), text(loss.high, 0), "g");
    }
    if (column === "char_with_container_g") {
      const container = numberIn(cells(phase), "char_container_g");
      if (Number.isFinite(container)) {
        const char = this.#range(phase, (one) => one.char);
        const shown = text(container, 0);
        if (char === null) return words.containerWas(shown);
        return words.usualGain(shown, text(char.low, 0), text(char.high, 0));
      }
    }
    const range = this.#range(phase, of);
    if (range !== null) return words.usualRange(text(range.low, decimals), text(range.high, decimals), unitOf(column));
    return this.#byProcedure(phase, column, cells, boiling);
  }

  #time(phase: PhaseName, column: "end" | "boiled_at", cells: ReadonlyMap<string, string>): string | null {
    const words = wordsFor(this.#locale).benchWork;
    const isLevel = (isoPhases as readonly string[]).includes(phase);
    if (column === "boiled_at") return null;
    if (isHoldingPhase(phase) || isLevel) {
      const minutes = isLevel ? powerLevelMinutes : simmerMinutes;
      const time = later(cells.get("start") ?? "", minutes);
      return time === null ? null : words.minutesAfter(formatFixed(minutes, 0, this.#locale), time);
    }
    const range = this.#range(phase, ({ minutes }) => minutes);
    if (range === null) return null;
    return words.usualDuration(formatFixed(range.low, 0, this.#locale), formatFixed(range.high, 0, this.#locale));
  }

  #byProcedure(phase: PhaseName, column: string, cells: PhaseTexts, boiling: number | null): string | null {
    const words = wordsFor(this.#locale).benchWork;
    if (column === "pot1_start_g" && !isHoldingPhase(phase)) {
      const empty = numberIn(cells(phase), "pot1_empty_g");
      const whole = Number.isFinite(empty) ? formatFixed(empty + usualWater, 0, this.#locale) : null;
      return words.waterOf(formatFixed(usualWater, 0, this.#locale), whole);
    }
    const isAtBoil = /^pot[1-4]_end_C$/.test(column) && (isBoilingPhase(phase) || isHoldingPhase(phase));
    return isAtBoil && boiling !== null ? words.boilingHere(formatFixed(boiling, 1, this.#locale)) : null;
  }
}
