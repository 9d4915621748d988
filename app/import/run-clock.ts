import { millisecondsPerDay, type TimeRead } from "./read-time.ts";

/** Times of one phase as its row writes them; null where a cell is empty or unreadable. */
export interface WrittenTimes {
  readonly start: TimeRead | null;
  readonly end: TimeRead | null;
  readonly boiledAt: TimeRead | null;
}

/** The same in minutes after midnight of the run's first day; NaN where it is not known. */
export interface RunMinutes {
  readonly start: number;
  readonly end: number;
  readonly boiledAt: number;
}

/** Milliseconds after midnight of the run's first day as minutes. */
const minutesOf = (milliseconds: number) => milliseconds / 60_000;

/** The first time of day that is not before a moment. */
function notBefore(timeOfDay: number, moment: number): number {
  const days = Math.ceil((moment - timeOfDay) / millisecondsPerDay);
  return timeOfDay + Math.max(0, days) * millisecondsPerDay;
}

/** The first day of a run: the earliest of its dated moments; null where there is none. */
export function firstDay(phases: readonly WrittenTimes[]): number | null {
  let first: number | null = null;
  for (const moment of phases.flatMap(({ start, end }) => [start, end])) {
    if (moment !== null && moment.kind !== "time" && (first === null || moment.day < first)) first = moment.day;
  }
  return first;
}

/**
 * Minutes of all phases of a run, in the order of the procedure. Bare clock times go on past midnight: within a phase an end
 * before its start is the next day's, and a phase that starts before the previous one ended started on the next day.
 */
export function runMinutes(phases: readonly WrittenTimes[], day: number | null): readonly RunMinutes[] {
  let previousEnd = 0;
  return phases.map(({ start, end, boiledAt }) => {
    const at = (moment: TimeRead | null, earliest: number): number => {
      if (moment === null) return Number.NaN;
      if (moment.kind !== "time") return (moment.day - (day ?? moment.day)) * millisecondsPerDay + moment.milliseconds;
      return notBefore(moment.milliseconds, Number.isNaN(earliest) ? previousEnd : earliest);
    };
    const started = at(start, previousEnd);
    const ended = at(end, started);
    const boiled = at(boiledAt, started);
    // A phase that is still going on has no end: the next one is not before its start.
    const last = Number.isNaN(ended) ? started : ended;
    if (last > previousEnd) previousEnd = last;
    return { start: minutesOf(started), end: minutesOf(ended), boiledAt: minutesOf(boiled) };
  });
}
