import type { Reading } from "./reading.ts";

/** The published procedure a run follows. */
export type Method = "wbt" | "iso";

/** Phases of the Water Boiling Test, version 4.2.3, in the order of the procedure. */
export const wbtPhases = ["cold-start", "hot-start", "simmer"] as const;
/** Power levels of ISO 19867-1:2018, in the order of the procedure. */
export const isoPhases = ["high-power", "medium-power", "low-power"] as const;

export type WbtPhaseName = (typeof wbtPhases)[number];
export type IsoPhaseName = (typeof isoPhases)[number];
export type PhaseName = WbtPhaseName | IsoPhaseName;

/** All phases, in the order in which they are shown. */
export const phaseNames: readonly PhaseName[] = [...wbtPhases, ...isoPhases];

/** The method to which a phase belongs. */
export function methodOfPhase(phase: PhaseName): Method {
  return (isoPhases as readonly string[]).includes(phase) ? "iso" : "wbt";
}

/** Cold and hot start: water is brought to the boil. */
export function isBoilingPhase(phase: PhaseName): boolean {
  return phase === "cold-start" || phase === "hot-start";
}

/** Simmer: water is kept just under the boil. */
export function isHoldingPhase(phase: PhaseName): boolean {
  return phase === "simmer";
}

/** Moisture in per cent, on the basis the meter or the oven gave it: wet (of the wood as fired) or dry (of its dry mass). */
export interface MoistureReading {
  readonly basis: "wet" | "dry";
  readonly percent: Reading;
}

/** Calorific value of a dry fuel, kJ/kg, at constant pressure; hydrogen in per cent of the dry fuel. */
export type CalorificReading =
  | { readonly kind: "net"; readonly value: Reading }
  | { readonly kind: "gross"; readonly value: Reading; readonly hydrogenPercent: Reading | null };

/** Wood (or another fuel) weighed before and after a phase, g as fired. The first entry of a phase is its main fuel. */
export interface FuelEntry {
  readonly fuel: string | null;
  readonly massBefore: Reading;
  readonly massAfter: Reading;
  readonly moisture: MoistureReading | null;
  /** As written in the row; null where the study's settings are to be used. */
  readonly calorific: CalorificReading | null;
}

/** Char at the end of a phase, g: weighed in its container, or net. */
export type CharReading =
  | { readonly kind: "weighed"; readonly container: Reading; readonly withContainer: Reading }
  | { readonly kind: "net"; readonly mass: Reading };

export type PotNumber = 1 | 2 | 3 | 4;

/** One pot of a phase; masses in g with water (or net water), temperatures of the water in °C. */
export interface PotReadings {
  readonly pot: PotNumber;
  readonly masses:
    | { readonly kind: "weighed"; readonly empty: Reading; readonly start: Reading; readonly end: Reading }
    | { readonly kind: "net"; readonly waterStart: Reading; readonly waterEnd: Reading };
  readonly temperatureStart: Reading;
  readonly temperatureEnd: Reading;
}

/**
 * When a phase was. `clock`: two readings in minutes after midnight of the run's first day (they may pass 1440), and how they
 * were written, so that an export writes them the same way. `duration`: one reading in minutes.
 */
export type PhaseTiming =
  | {
      readonly kind: "clock";
      readonly start: Reading;
      readonly end: Reading;
      readonly written: "time" | "dateTime" | "utcDateTime";
    }
  | { readonly kind: "duration"; readonly minutes: Reading };

/** What tells the local boiling point: °C as measured, kPa, or m; the first that is given is used, in this order. */
export interface BoilingPointReadings {
  readonly measured: Reading | null;
  readonly pressure: Reading | null;
  readonly altitude: Reading | null;
}

/** Recorded and reported, not computed with. Texts as written. */
export interface PhaseConditions {
  readonly lid: string | null;
  readonly wind: string | null;
  readonly humidityPercent: string | null;
  readonly fuelSizeMillimetres: string | null;
  readonly deviation: string | null;
  readonly note: string | null;
  /** Columns that the layout does not know: heading and text. */
  readonly others: readonly { readonly heading: string; readonly text: string }[];
}

/** One phase of one run, as recorded. */
export interface Phase {
  readonly id: string;
  readonly phase: PhaseName;
  readonly timing: PhaseTiming;
  /** Minutes after midnight of the run's first day; for an ISO phase, when the water boiled. */
  readonly boiledAt: Reading | null;
  /** At least one. */
  readonly fuels: readonly FuelEntry[];
  readonly char: CharReading | null;
  /** Net char in the bed when the phase began, g. A reading of 0 says there was none, and is exact. */
  readonly charAtStart: Reading | null;
  /** kJ/kg; null where the study's settings are to be used. */
  readonly charCalorific: Reading | null;
  readonly airTemperature: Reading | null;
  readonly boilingPoint: BoilingPointReadings;
  /** At least pot 1, in order of pot number. */
  readonly pots: readonly PotReadings[];
  /** g of CO and mg of PM2.5 emitted in the phase. */
  readonly carbonMonoxide: Reading | null;
  readonly particulateMatter: Reading | null;
  readonly conditions: PhaseConditions;
  /** Where the phase stands in its source: rows as a spreadsheet counts. Null where it was not read from a file. */
  readonly sourceRow: number | null;
}
