import type { CalorificReading, FuelEntry, Phase, PotReadings, Reading } from "../../../core/index.ts";
import { fuelColumnNames, potColumnNames } from "../../import/index.ts";
import type { StoredTiming } from "../../store/content.ts";
import type { FuelColumns } from "./phase-columns.ts";

/** Takes a reading with the column of the readings layout that it stands in. */
export type TakeReading = (column: string, reading: Reading) => void;

function takeCalorific(names: FuelColumns, calorific: CalorificReading, take: TakeReading): void {
  if (calorific.kind === "net") {
    take(names.net, calorific.value);
    return;
  }
  take(names.gross, calorific.value);
  if (calorific.hydrogenPercent !== null) take(names.hydrogen, calorific.hydrogenPercent);
}

function takeFuel(names: FuelColumns, { massBefore, massAfter, moisture, calorific }: FuelEntry, take: TakeReading) {
  take(names.start, massBefore);
  take(names.end, massAfter);
  if (moisture !== null) take(moisture.basis === "wet" ? names.moistureWet : names.moistureDry, moisture.percent);
  if (calorific !== null) takeCalorific(names, calorific, take);
}

function takePot({ pot, masses, temperatureStart, temperatureEnd }: PotReadings, take: TakeReading): void {
  const names = potColumnNames[pot - 1];
  if (names === undefined) return;
  if (masses.kind === "weighed") {
    take(names.empty, masses.empty);
    take(names.start, masses.start);
    take(names.end, masses.end);
  } else {
    take(names.waterStart, masses.waterStart);
    take(names.waterEnd, masses.waterEnd);
  }
  take(names.temperatureStart, temperatureStart);
  take(names.temperatureEnd, temperatureEnd);
}

/** Gives every reading of a phase with its column. A needed reading that a left-out run lacks (NaN) is not given. */
export function eachReading(phase: Phase, given: TakeReading): void {
  const take: TakeReading = (column, reading) => {
    if (!Number.isNaN(reading.value)) given(column, reading);
  };
  const maybe = (column: string, reading: Reading | null) => {
    if (reading !== null) take(column, reading);
  };
  const { timing, char, boilingPoint } = phase;
  if (timing.kind === "duration") take("duration_min", timing.minutes);
  else {
    take("start", timing.start);
    take("end", timing.end);
  }
  maybe("boiled_at", phase.boiledAt);
  phase.fuels.forEach((entry, index) => {
    const names = fuelColumnNames[index];
    if (names !== undefined) takeFuel(names, entry, take);
  });
  if (char?.kind === "weighed") {
    take("char_container_g", char.container);
    take("char_with_container_g", char.withContainer);
  } else if (char !== null) take("char_g", char.mass);
  maybe("char_at_start_g", phase.charAtStart);
  maybe("char_net_calorific_kJ_per_kg", phase.charCalorific);
  maybe("air_C", phase.airTemperature);
  maybe("boiling_C", boilingPoint.measured);
  maybe("pressure_kPa", boilingPoint.pressure);
  maybe("altitude_m", boilingPoint.altitude);
  for (const pot of phase.pots) takePot(pot, take);
  maybe("co_g", phase.carbonMonoxide);
  maybe("pm25_mg", phase.particulateMatter);
}

/**
 * The texts of a phase by column: those of the layout, then cells that are kept as written and headings that the layout does
 * not know, in their order. No heading comes twice: reading a file refuses a heading that means a column before it, an unknown
 * one among them, and never keeps a cell as written under the heading of a text.
 */
export function textsOf(phase: Phase): Map<string, string> {
  const texts = new Map<string, string>();
  const add = (column: string, text: string | null) => {
    if (text !== null) texts.set(column, text);
  };
  const { conditions } = phase;
  phase.fuels.forEach(({ fuel }, index) => {
    const names = fuelColumnNames[index];
    if (names !== undefined) add(names.fuel, fuel);
  });
  add("lid", conditions.lid);
  add("wind", conditions.wind);
  add("humidity_percent", conditions.humidityPercent);
  add("fuel_size_mm", conditions.fuelSizeMillimetres);
  add("deviation", conditions.deviation);
  add("note", conditions.note);
  for (const { heading, text } of conditions.others) texts.set(heading, text);
  return texts;
}

/** How the times of a phase were written. */
export function timingOf({ timing }: Phase): StoredTiming {
  return timing.kind === "duration" ? "duration" : timing.written;
}
