import {
  isoPhases,
  type Locale,
  type PhaseName,
  type ProcedureStep,
  procedureSteps,
  type Run,
  wordsFor,
} from "../../../core/index.ts";
import type { BenchClockView } from "../../contract/index.ts";
import type { StudySession } from "../study/study-session.ts";
import { type BenchRecord, benchRecord } from "./bench-record.ts";
import { cellsOf } from "./lasting-cells.ts";
import { machineTime } from "./machine-time.ts";
import { elapsedSince, elapsedSinceTyped, type MachineTime } from "./run-clock.ts";
import { anchorAt } from "./stamp.ts";

/** A clock that has gone on for so long is of a run that was left, s. */
const longestClock = 12 * 3600;

/** A span of time as a sentence has it. */
function spanText(seconds: number, locale: Locale): string {
  const words = wordsFor(locale).benchWork;
  const whole = Math.round(Math.abs(seconds));
  return whole < 120 ? words.seconds(whole) : words.minutes(Math.round(whole / 60));
}

/** The last moment that was written down, in the order of the procedure. */
function lastMoment(run: Run, steps: readonly ProcedureStep[]): ProcedureStep | null {
  const moments = steps.filter(({ phase, clock }) => {
    return phase !== null && clock !== null && cellsOf(run, phase).has(clock.column);
  });
  const last = moments.at(-1) ?? null;
  // Where the water of a power level boiled, its clock goes on from the start.
  if (last?.clock?.act !== "boils" || last.clock.column !== "boiled_at") return last;
  return moments.find(({ phase, clock }) => phase === last.phase && clock?.act === "starts") ?? null;
}

/** The clock of a run on the Bench: since the last moment that was stamped or typed; null where none goes. */
export function clockOf(
  run: Run,
  record: BenchRecord,
  locale: Locale,
  now: MachineTime = machineTime(),
): BenchClockView | null {
  const words = wordsFor(locale).benchWork;
  const steps = procedureSteps(run.method, record);
  const last = lastMoment(run, steps);
  if (last === null || last.clock === null || last.phase === null || record.state !== "open") return null;
  const { phase, clock } = last;
  const isLastPhase = steps.findLast((step) => step.clock !== null)?.phase === phase;
  if (clock.act !== "starts" && isLastPhase) return null;
  const cells = cellsOf(run, phase);
  const anchor = anchorAt(record, phase, clock.column, cells);
  const typed = () => elapsedSinceTyped(cells.get(clock.column) ?? "", run.date, now);
  const elapsed = anchor === null ? { seconds: typed(), set: 0 } : elapsedSince(anchor, now);
  const { seconds, set } = elapsed;
  if (seconds === null || seconds < 0 || seconds > longestClock) return null;
  const minutes = clock.act === "starts" ? clock.countDownMinutes : null;
  return {
    label: labelOf(phase, clock.act, minutes, words),
    phase,
    elapsedSeconds: seconds,
    countDownSeconds: minutes === null ? null : minutes * 60,
    note: set === 0 ? null : words.timeWasSet(spanText(set, locale), set > 0),
  };
}

function labelOf(
  phase: PhaseName,
  act: NonNullable<ProcedureStep["clock"]>["act"],
  minutes: number | null,
  words: ReturnType<typeof wordsFor>["benchWork"],
): string {
  if (minutes !== null) return words.untilOver(minutes);
  if (act === "starts") return words.sinceLit;
  return (isoPhases as readonly string[]).includes(phase) || act === "ends" ? words.sinceEnded : words.sinceBoiled;
}

/** The run clock alone. */
export function benchClock({ content }: StudySession, item: number, locale: Locale): BenchClockView | null {
  const record = benchRecord(content.head, item)?.record;
  const found = record === undefined ? null : content.run(item);
  return record === undefined || found === null ? null : clockOf(found.run, record, locale);
}
