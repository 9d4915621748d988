import type { FuelEntry, Method, Phase, PhaseName, PotReadings } from "../readings/phase.ts";
import { isBoilingPhase } from "../readings/phase.ts";
import type { InstrumentRole } from "../readings/reading.ts";
import type { Settings } from "../readings/settings.ts";
import type { Run } from "../readings/study.ts";
import { instrumentsRead } from "./instruments-read.ts";
import type { Question } from "./question.ts";
import { slack } from "./question-rule.ts";
import { questionLimits } from "./questions.ts";
import { type PackedNumbers, packRun } from "./run-numbers.ts";
import type { RunResults } from "./run-results.ts";

/** A fuel that a run burnt, as its rows name it. */
export interface FuelUse {
  readonly fuel: string | null;
  /** Its rows give a calorific value. */
  readonly hasOwnValue: boolean;
  /** Its rows or the settings give one, for every entry. */
  readonly isKnown: boolean;
}

/** What the whole study's questions and its overview need to know of one run: little, so that it can be kept for very many. */
export interface RunFacts {
  readonly id: string;
  readonly name: string;
  readonly variant: string;
  readonly method: Method;
  readonly block: string | null;
  readonly operator: string | null;
  readonly leftOut: string | null;
  /** It is still being made: it is asked about, and left out of what is usual for others. */
  readonly onBench?: true;
  readonly factors: ReadonlyMap<string, string>;
  readonly fuels: readonly FuelUse[];
  /** What was read in it. */
  readonly instruments: readonly InstrumentRole[];
  /** Weighings and temperatures of each phase that has them all, as one text: equal texts are equal readings. */
  readonly prints: readonly { readonly phase: PhaseName; readonly print: string }[];
  /** Water in pot 1 at the start of a boiling phase that is none of the usual volumes, g. */
  readonly unusualStarts: readonly { readonly phase: PhaseName; readonly grams: number }[];
  /** ISO 8601. */
  readonly date: string | null;
  readonly order: number | null;
  /** What other runs' readings are compared with. */
  readonly numbers: PackedNumbers;
  /** About this run alone. */
  readonly questions: readonly Question[];
}

/** The facts of a run under these settings, with the questions that it raises by itself and, where known, its results. */
export function runFacts(
  run: Run,
  settings: Settings,
  questions: readonly Question[] = [],
  results: RunResults | null = null,
): RunFacts {
  const { id, name, variant, method, block, operator, leftOut, factors, date, order } = run;
  return {
    ...{ id, name, variant, method, block, operator, leftOut, factors, date, order, questions },
    numbers: packRun(run, results),
    instruments: instrumentsRead(run),
    fuels: fuelUses(run, settings),
    prints: run.phases.flatMap((phase) => {
      const print = fingerprint(phase);
      return print === null ? [] : [{ phase: phase.phase, print }];
    }),
    unusualStarts: run.phases.flatMap((phase) => {
      const grams = isBoilingPhase(phase.phase) ? waterAtStart(phase.pots[0]) : null;
      return grams === null || Number.isNaN(grams) || isUsualVolume(grams) ? [] : [{ phase: phase.phase, grams }];
    }),
  };
}

function fuelUses(run: Run, settings: Settings): FuelUse[] {
  // A phase of a run that was left out may have no reading yet, and so no fuel.
  const entries = run.phases.flatMap((phase) => phase.fuels).filter(isRead);
  return [...Map.groupBy(entries, ({ fuel }) => fuel)].map(([fuel, ofFuel]) => ({
    fuel,
    hasOwnValue: ofFuel.some(({ calorific }) => calorific !== null),
    isKnown: ofFuel.every((entry) => hasCalorific(entry, settings)),
  }));
}

function isRead({ fuel, massBefore, massAfter, moisture }: FuelEntry): boolean {
  const hasMass = !(Number.isNaN(massBefore.value) && Number.isNaN(massAfter.value));
  return fuel !== null || moisture !== null || hasMass;
}

function hasCalorific({ calorific, fuel }: FuelEntry, settings: Settings): boolean {
  const named = fuel === null ? undefined : settings.fuels.get(fuel);
  return calorific !== null || named?.netCalorific != null || named?.grossCalorific != null;
}

/** Null where a reading is no number: what was not read is not the same as anything. */
function fingerprint(phase: Phase): string | null {
  const pots = phase.pots.map(({ pot, masses, temperatureStart, temperatureEnd }) => [
    pot,
    ...(masses.kind === "net"
      ? [masses.waterStart.value, masses.waterEnd.value]
      : [masses.empty.value, masses.start.value, masses.end.value]),
    temperatureStart.value,
    temperatureEnd.value,
  ]);
  const fuels = phase.fuels.map(({ massBefore, massAfter }) => [massBefore.value, massAfter.value]);
  const isRead = [...fuels, ...pots].flat().every(Number.isFinite);
  return isRead ? JSON.stringify([phase.phase, fuels, pots]) : null;
}

function waterAtStart(pot: PotReadings | undefined): number | null {
  if (pot?.pot !== 1) return null;
  const { masses } = pot;
  return masses.kind === "net" ? masses.waterStart.value : masses.start.value - masses.empty.value;
}

/** Within the protocol's volumes and their tolerance, or another share. */
export function isUsualVolume(grams: number, tolerance: number = questionLimits.startVolumeTolerance): boolean {
  return questionLimits.startVolumesGrams.some((usual) => Math.abs(grams - usual) <= usual * tolerance + slack);
}
