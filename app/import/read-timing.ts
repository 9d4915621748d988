import { type PhaseTiming, type Reading, readingText } from "../../core/index.ts";
import { keepWritten, type PhaseSource, reportMissing } from "./phase-draft.ts";
import { dateText, type TimeRead } from "./read-time.ts";
import type { RowReader } from "./row-reader.ts";
import type { RunMinutes, WrittenTimes } from "./run-clock.ts";

/** A start may be this many days after the run's date: its later phases. With an offset, the date may be the day before. */
const daysOfRun = 3;

/** start, end and duration_min agree when they differ by no more than this, minutes: both may be rounded to the minute. */
const agreement = 1;

/** The times of a row, with what is unreadable as null; `unreadable` says whether there is any. */
export interface RowTimes extends WrittenTimes {
  readonly unreadable: boolean;
}

export function rowTimes(row: RowReader): RowTimes {
  const [start, end, boiledAt] = [row.time("start"), row.time("end"), row.time("boiled_at")];
  return {
    start: start || null,
    end: end || null,
    boiledAt: boiledAt || null,
    unreadable: start === false || end === false || boiledAt === false,
  };
}

/** Start and end must be written alike, and in the days of the run. False, and said, where they are not. */
function timesFit(source: PhaseSource, start: TimeRead, times: RowTimes, day: number | null): boolean {
  const { row, list } = source;
  let fit = true;
  for (const [name, moment] of [
    ["end", times.end],
    ["boiled_at", times.boiledAt],
  ] as const) {
    if (moment === null || moment.kind === start.kind) continue;
    const message = list.words.cell.timesMixed({ start: row.written("start"), cell: row.written(name) });
    row.error("times-mixed", row.place(name), message);
    fit = false;
  }
  if (start.kind !== "time" && day !== null) {
    const after = start.day - day;
    if (after < (start.kind === "utcDateTime" ? -1 : 0) || after > daysOfRun) {
      const message = list.words.cell.dateDiffers({ cell: row.written("start"), date: dateText(day) });
      row.error("date-differs", row.place("start"), message);
      fit = false;
    }
  }
  return fit;
}

const notKnown = (): PhaseTiming => ({ kind: "duration", minutes: { id: "", value: Number.NaN } });

export interface TimingRead {
  readonly timing: PhaseTiming;
  readonly boiledAt: Reading | null;
  /** True where start, end and a duration that agrees with them were all given. */
  readonly durationBeside: boolean;
}

/** When a phase was: from start and end, or from a duration. */
export function readTiming(source: PhaseSource, times: RowTimes, minutes: RunMinutes, day: number | null): TimingRead {
  const { row, phase, readings, list } = source;
  const duration = row.number("duration_min");
  const [startFilled, endFilled] = [row.isFilled("start"), row.isFilled("end")];
  const nothing = { timing: notKnown(), boiledAt: null, durationBeside: false };
  const { start, end } = times;

  if (startFilled && endFilled) {
    if (start === null || end === null || !timesFit(source, start, times, day)) return nothing;
    const timing: PhaseTiming = {
      kind: "clock",
      start: readings.own(phase, "start", minutes.start),
      end: readings.own(phase, "end", minutes.end),
      written: start.kind,
    };
    const boiledAt = times.boiledAt === null ? null : readings.own(phase, "boiled_at", minutes.boiledAt);
    if (duration === null) return { timing, boiledAt, durationBeside: false };
    const apart = minutes.end - minutes.start;
    if (Math.abs(apart - duration) > agreement) {
      const words = { cell: row.written("duration_min"), minutes: readingText(apart, list.locale) };
      row.error("duration-disagrees", row.place("duration_min"), list.words.cell.durationDisagrees(words));
    }
    keepWritten(source, "duration_min");
    return { timing, boiledAt, durationBeside: true };
  }
  if (duration === null) {
    // Only a run that is left out goes on with this: what was noted of its times stays.
    reportMissing(source, startFilled ? ["end"] : endFilled ? ["start"] : ["start", "end", "duration_min"]);
    if (start !== null && source.abandoned && timesFit(source, start, times, day)) {
      const timing: PhaseTiming = {
        kind: "clock",
        start: readings.own(phase, "start", minutes.start),
        end: { id: "", value: Number.NaN },
        written: start.kind,
      };
      const boiledAt = times.boiledAt === null ? null : readings.own(phase, "boiled_at", minutes.boiledAt);
      return { timing, boiledAt, durationBeside: false };
    }
    for (const name of ["start", "end", "boiled_at"]) keepWritten(source, name);
    return nothing;
  }
  if (row.isFilled("boiled_at")) {
    row.error("boiled-without-clock", row.place("boiled_at"), list.words.cell.boiledWithoutClock());
  }
  // One clock time beside a duration says when it was, and is kept; the duration is what was measured.
  keepWritten(source, "start");
  keepWritten(source, "end");
  const timing: PhaseTiming = { kind: "duration", minutes: readings.own(phase, "duration_min", duration) };
  return { timing, boiledAt: null, durationBeside: false };
}
