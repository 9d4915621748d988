import { formatFixed } from "../../format/number.ts";
import { type PhaseName, wbtPhases } from "../../readings/phase.ts";
import { type Locale, wordsFor } from "../../words/index.ts";
import { clockText } from "./clock-text.ts";
import { type NumberedRun, type Suspicion, touch } from "./numbered-run.ts";
import { medianOfSorted } from "./robust.ts";
import { phaseBefore } from "./watched.ts";

/** Limits of the clock. Common practice, no source; that a WBT's phases follow at once is the protocol's (4.2.3, from memory). */
export const clockLimits = {
  /** Between two phases of a WBT, where no other run shows what is usual, min. */
  longestPause: 60,
  /** Between two phases of any run that is of one day, min. */
  longestPauseEver: 360,
  /** A whole run, min. */
  longestRun: 720,
  /** Share of the runs that may overlap with another of the same operator before nothing is asked: stoves tested side by side. */
  overlapsInParallel: 0.2,
  /** How far from the time of day of the other runs a run may begin or end, min. */
  outsideDay: 180,
  /** Fewer other runs do not show how long the days are: there, only what would begin with them by the other half of the clock, min. */
  aroundOthers: 60,
  enoughDays: 10,
  outsideDayOfFew: 360,
  fewestOthers: 4,
  fewestOfFew: 2,
} as const;

const minutesPerDay = 1440;

function firstStart({ phases }: NumberedRun): number {
  return phases.map(({ start }) => start).find(Number.isFinite) ?? Number.NaN;
}

function lastEnd({ phases }: NumberedRun): number {
  return Math.max(...phases.map(({ end }) => end).filter(Number.isFinite));
}

/** Minutes since 1970 at which a run began and ended; null where date or times are not known. */
function span(run: NumberedRun): { readonly from: number; readonly to: number } | null {
  const day = run.facts.date === null ? Number.NaN : Date.parse(run.facts.date) / 60_000;
  const [from, to] = [day + firstStart(run), day + lastEnd(run)];
  // A run that goes on for so long has its clocks asked about by itself.
  return Number.isFinite(from) && Number.isFinite(to) && to - from <= clockLimits.longestRun ? { from, to } : null;
}

/** The clocks of a study, to ask runs about. */
export class Clocks {
  readonly #pauses = new Map<PhaseName, number>();
  readonly #overlaps: Overlaps;
  readonly #starts: Float64Array;

  constructor(runs: readonly NumberedRun[]) {
    const counted = runs.filter(({ isCounted }) => isCounted);
    const byPhase = Map.groupBy(
      counted.flatMap((run) =>
        run.phases.flatMap((phase) => {
          const pause = phase.start - (phaseBefore(phase, run)?.end ?? Number.NaN);
          return Number.isFinite(pause) ? [{ phase: phase.phase, pause }] : [];
        }),
      ),
      ({ phase }) => phase,
    );
    for (const [phase, some] of byPhase) {
      if (some.length < clockLimits.fewestOthers) continue;
      this.#pauses.set(phase, medianOfSorted(Float64Array.from(some, ({ pause }) => pause).sort()));
    }
    this.#overlaps = new Overlaps(runs);
    this.#starts = Float64Array.from(counted.map(firstStart).filter(Number.isFinite)).sort();
  }

  suspicions(run: NumberedRun, locale: Locale): Suspicion[] {
    return [...this.#phases(run, locale), ...this.#overlap(run, locale), ...this.#timeOfDay(run, locale)];
  }

  #phases(run: NumberedRun, locale: Locale): Suspicion[] {
    const { questions } = wordsFor(locale);
    return run.phases.flatMap((phase): Suspicion[] => {
      const previous = phaseBefore(phase, run);
      if (previous === undefined) return [];
      const pause = phase.start - previous.end;
      if (!Number.isFinite(pause)) return [];
      const touches = [...touch(previous.phase, "start", "end"), ...touch(phase.phase, "start", "end")];
      const as = { phase: phase.phase, column: "start", touches };
      const times = [previous.phase, clockText(previous.end), clockText(phase.start)] as const;
      if (pause < 0) {
        const message = questions.phaseBeforePrevious(...times);
        return [{ ...as, rule: "phaseBeforePrevious", message }];
      }
      const usual = this.#pauses.get(phase.phase);
      const isWbt = (wbtPhases as readonly string[]).includes(phase.phase);
      const limit =
        usual === undefined ? (isWbt ? clockLimits.longestPause : null) : clockLimits.longestPauseEver + usual;
      if (limit === null || pause <= limit) return [];
      const isNextDay = Math.floor(phase.start / minutesPerDay) > Math.floor(previous.end / minutesPerDay);
      const hours = formatFixed(pause / 60, 1, locale);
      const message = questions.longPause(...times, hours, isNextDay && phase.isBareTime);
      return [{ ...as, rule: "longPause", message }];
    });
  }

  #overlap(run: NumberedRun, locale: Locale): Suspicion[] {
    const other = this.#overlaps.with(run);
    if (other === undefined) return [];
    const { questions } = wordsFor(locale);
    const message = questions.overlap(other.facts.name, clockText(lastEnd(other)), clockText(firstStart(run)));
    const touches = ["date", ...run.phases.flatMap(({ phase }) => touch(phase, "start", "end"))];
    return [{ rule: "overlap", phase: run.phases[0]?.phase ?? null, column: "start", message, touches }];
  }

  #timeOfDay(run: NumberedRun, locale: Locale): Suspicion[] {
    const start = firstStart(run);
    const others = this.#starts.length - (run.isCounted ? 1 : 0);
    if (!Number.isFinite(start) || others < clockLimits.fewestOfFew) return [];
    // Sorted, so that without this run the first or the last is the next one.
    const all = this.#starts;
    const own = run.isCounted ? all.indexOf(start) : -1;
    const low = all[own === 0 ? 1 : 0] ?? start;
    const high = all[all.length - (own !== -1 && own === all.length - 1 ? 2 : 1)] ?? start;
    const limit = others < clockLimits.fewestOthers ? clockLimits.outsideDayOfFew : clockLimits.outsideDay;
    if (start >= low - limit && start <= high + limit) return [];
    const isOtherHalf = [start - minutesPerDay / 2, start + minutesPerDay / 2].some(
      (other) => other >= low - clockLimits.aroundOthers && other <= high + clockLimits.aroundOthers,
    );
    if (others < clockLimits.enoughDays && !isOtherHalf) return [];
    const { questions } = wordsFor(locale);
    const message = questions.timeOfDay(clockText(start), clockText(low), clockText(high), others);
    const touches = run.phases.flatMap(({ phase }) => touch(phase, "start", "end"));
    return [{ rule: "timeOfDay", phase: run.phases[0]?.phase ?? null, column: "start", message, touches }];
  }
}

interface Span {
  readonly run: NumberedRun;
  readonly from: number;
  readonly to: number;
}

const spanOf = (run: NumberedRun): Span[] => {
  const when = span(run);
  return when === null ? [] : [{ run, ...when }];
};

/** Runs that begin while another of the same operator goes on. */
class Overlaps {
  readonly #found = new Map<NumberedRun, NumberedRun>();
  readonly #byOperator = new Map<string | null, readonly Span[]>();
  readonly #known: ReadonlySet<NumberedRun>;
  /** Stoves are tested side by side here. */
  readonly #isHabit: boolean;

  constructor(runs: readonly NumberedRun[]) {
    this.#known = new Set(runs);
    let timed = 0;
    for (const [operator, ofOperator] of Map.groupBy(runs, ({ facts }) => facts.operator)) {
      const spans = ofOperator.flatMap(spanOf).sort((one, other) => one.from - other.from);
      this.#byOperator.set(operator, spans);
      timed += spans.length;
      this.#find(spans);
    }
    this.#isHabit = this.#found.size > Math.max(2, clockLimits.overlapsInParallel * timed);
  }

  #find(spans: readonly Span[]): void {
    let latest: Span | null = null;
    for (const one of spans) {
      if (latest !== null && one.from < latest.to) {
        // Of the two, the one that is still being made, or that breaks the order in which the runs were made, is asked; else the later one.
        const [first, second] = [latest.run, one.run];
        const isOnBench = (run: NumberedRun) => run.facts.onBench === true;
        const isLate =
          isOnBench(first) === isOnBench(second)
            ? (first.facts.order ?? 0) > (second.facts.order ?? 0)
            : isOnBench(first);
        this.#found.set(isLate ? first : second, isLate ? second : first);
      }
      if (latest === null || one.to > latest.to) latest = one;
    }
  }

  /** The run that goes on while this one begins; undefined where none does, or it is the habit here. */
  with(run: NumberedRun): NumberedRun | undefined {
    if (this.#isHabit) return undefined;
    if (this.#known.has(run)) return this.#found.get(run);
    // A run that is still being made, beside the others.
    const [own] = spanOf(run);
    const others = own === undefined ? [] : (this.#byOperator.get(run.facts.operator) ?? []);
    return others.find(({ from, to }) => own !== undefined && from < own.to && own.from < to)?.run;
  }
}
