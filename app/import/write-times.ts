import type { Phase, PhaseTiming, Run } from "../../core/index.ts";
import { dateText, millisecondsPerDay, readDate, type TimeRead } from "./read-time.ts";
import { runMinutes, type WrittenTimes } from "./run-clock.ts";

type ClockTiming = Extract<PhaseTiming, { kind: "clock" }>;

const toMilliseconds = (minutes: number) => Math.round(minutes * 60_000);

/** Milliseconds after midnight as hh:mm, with seconds and thousandths only where there are any. */
function timeText(milliseconds: number): string {
  const two = (value: number) => String(value).padStart(2, "0");
  const seconds = Math.floor(milliseconds / 1000);
  const rest = milliseconds % 1000;
  const text = `${two(Math.floor(seconds / 3600))}:${two(Math.floor(seconds / 60) % 60)}`;
  if (seconds % 60 === 0 && rest === 0) return text;
  return `${text}:${two(seconds % 60)}${rest === 0 ? "" : `.${String(rest).padStart(3, "0")}`}`;
}

function split(minutes: number): { day: number; milliseconds: number } {
  const total = toMilliseconds(minutes);
  const day = Math.floor(total / millisecondsPerDay);
  return { day, milliseconds: total - day * millisecondsPerDay };
}

/** Minutes after midnight of a run's first day as the time of day. */
export function timeOfMinutes(minutes: number): string {
  return timeText(split(minutes).milliseconds);
}

function asTime(minutes: number | undefined): TimeRead | null {
  return minutes === undefined || Number.isNaN(minutes)
    ? null
    : { kind: "time", milliseconds: split(minutes).milliseconds };
}

/** The run's phases whose bare clock times would be read back as other minutes: their days have to be written. */
function needDates(run: Run): ReadonlySet<Phase> {
  const day = run.date === null ? null : readDate(run.date);
  const need = new Set<Phase>();
  if (day === null) return need;
  const written = (phase: Phase): WrittenTimes => {
    const { timing } = phase;
    if (timing.kind !== "clock") return { start: null, end: null, boiledAt: null };
    const boiledAt = phase.boiledAt?.value;
    if (timing.written === "time" && !need.has(phase)) {
      return { start: asTime(timing.start.value), end: asTime(timing.end.value), boiledAt: asTime(boiledAt) };
    }
    const dated = (minutes: number): TimeRead | null => {
      if (Number.isNaN(minutes)) return null;
      const { day: after, milliseconds } = split(minutes);
      return { kind: "dateTime", day: day + after, milliseconds };
    };
    return {
      start: dated(timing.start.value),
      end: dated(timing.end.value),
      boiledAt: boiledAt === undefined ? null : dated(boiledAt),
    };
  };
  // Each phase whose day is written moves those after it, so look again until nothing changes.
  for (let round = 0; round <= run.phases.length; round += 1) {
    const back = runMinutes(run.phases.map(written), day);
    const wrong = run.phases.find((phase, index) => {
      const { timing, boiledAt } = phase;
      const read = back[index];
      if (timing.kind !== "clock" || read === undefined || need.has(phase)) return false;
      // A left-out run may lack a time: that is NaN on both sides, and is written nowhere.
      const differs = (value: number, other: number) =>
        !Number.isNaN(value) && toMilliseconds(value) !== toMilliseconds(other);
      return (
        differs(timing.start.value, read.start) ||
        differs(timing.end.value, read.end) ||
        (boiledAt !== null && differs(boiledAt.value, read.boiledAt))
      );
    });
    if (wrong === undefined) break;
    need.add(wrong);
  }
  return need;
}

/** start, end and boiled_at of one phase as its row writes them; "" where a left-out run lacks one. */
export interface TimeTexts {
  readonly start: string;
  readonly end: string;
  readonly boiledAt: string | null;
}

/**
 * Clock times of a phase, written the way they were read. A bare time that would be read back as another day's gets its date,
 * where the run has one.
 */
export function timeTexts(run: Run, phase: Phase, timing: ClockTiming): TimeTexts {
  const day = run.date === null ? null : readDate(run.date);
  const isBare = day === null || (timing.written === "time" && !needDates(run).has(phase));
  const text = (minutes: number): string => {
    if (Number.isNaN(minutes)) return "";
    const { day: after, milliseconds } = split(minutes);
    if (isBare) return timeText(milliseconds);
    return `${dateText(day + after)}T${timeText(milliseconds)}${timing.written === "utcDateTime" ? "Z" : ""}`;
  };
  return {
    start: text(timing.start.value),
    end: text(timing.end.value),
    boiledAt: phase.boiledAt === null ? null : text(phase.boiledAt.value),
  };
}
