import type { InstrumentRole } from "../readings/reading.ts";
import type { Calibration, Settings } from "../readings/settings.ts";
import { type Locale, wordsFor } from "../words/index.ts";
import type { Question } from "./question.ts";
import type { RunFacts } from "./run-facts.ts";
import type { Suspicion } from "./slips/numbered-run.ts";

/** Limits of calibrations: none but the days that the settings name, both counted. */
export const calibrationLimits = { runsNamed: 3 } as const;

interface Calibrated {
  readonly role: InstrumentRole;
  /** What it is read for: its own role, and those that say they are the same instrument. */
  readonly roles: ReadonlySet<InstrumentRole>;
  readonly calibrations: readonly Calibration[];
}

/** The role whose instrument a role uses in the end. */
function endOf(role: InstrumentRole, { instruments }: Settings): InstrumentRole {
  let end = role;
  for (let steps = 0; steps <= instruments.size; steps++) {
    const found = instruments.get(end);
    if (found === undefined || !("sameAs" in found)) break;
    end = found.sameAs;
  }
  return end;
}

/** Instruments of which the settings say when they were calibrated; of others nothing is asked. */
function calibratedIn(settings: Settings): Calibrated[] {
  return [...settings.instruments].flatMap(([role, instrument]): Calibrated[] => {
    const calibrations = "sameAs" in instrument ? [] : (instrument.calibrations ?? []);
    if (calibrations.length === 0) return [];
    const roles = [...settings.instruments.keys()].filter((other) => endOf(other, settings) === role);
    return [{ role, roles: new Set(roles), calibrations }];
  });
}

/** ISO 8601 dates stand in the order of their texts. */
const isInForce = (date: string) => (calibration: Calibration) =>
  calibration.from <= date && (calibration.until === null || date <= calibration.until);

/** The date of a run that was made with an instrument out of its calibration; null where nothing is to be asked. */
function dateOutside(run: RunFacts, { roles, calibrations }: Calibrated): string | null {
  const { date, instruments } = run;
  if (date === null || calibrations.some(isInForce(date)) || !instruments.some((role) => roles.has(role))) return null;
  return date;
}

/** One question for each instrument that was not in calibration when runs were made with it, with all of them. */
export function calibrationQuestions(runs: readonly RunFacts[], settings: Settings, locale: Locale): Question[] {
  const words = wordsFor(locale);
  return calibratedIn(settings).flatMap((instrument): Question[] => {
    const outside = runs
      .flatMap((run) => {
        const date = run.leftOut === null ? dateOutside(run, instrument) : null;
        return date === null ? [] : [{ name: run.name, date }];
      })
      .toSorted((one, other) => (one.date < other.date ? -1 : one.date > other.date ? 1 : 0));
    const [first, last] = [outside[0], outside.at(-1)];
    if (first === undefined || last === undefined) return [];
    const message = words.questions.calibration(
      words.settings.roles[instrument.role],
      first.date,
      last.date,
      outside.length,
      outside.slice(0, calibrationLimits.runsNamed).map(({ name }) => name),
    );
    return [{ rule: "calibration", run: null, variant: null, phase: null, column: "date", message }];
  });
}

/** The same for one run that is still being made: while another instrument can be taken. */
export function calibrationSuspicions(run: RunFacts, settings: Settings, locale: Locale): Suspicion[] {
  const words = wordsFor(locale);
  return calibratedIn(settings).flatMap((instrument): Suspicion[] => {
    const date = dateOutside(run, instrument);
    if (date === null) return [];
    const message = words.questions.calibrationNow(words.settings.roles[instrument.role], date);
    return [{ rule: "calibration", phase: null, column: "date", message, touches: [`calibration/${instrument.role}`] }];
  });
}
