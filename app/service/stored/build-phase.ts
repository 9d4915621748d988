import type {
  CalorificReading,
  CharReading,
  FuelEntry,
  MoistureReading,
  Phase,
  PhaseConditions,
  PhaseName,
  PhaseTiming,
  PotReadings,
  Reading,
} from "../../../core/index.ts";
import type { StoredTiming } from "../../store/content.ts";
import {
  type FuelColumns,
  furtherFuels,
  mainFuel,
  type PotColumns,
  phaseTextColumns,
  potColumns,
} from "./phase-columns.ts";

/** What a phase is made of: readings and texts by their column of the readings layout. */
export interface PhaseParts<R> {
  readonly id: string;
  readonly phase: PhaseName;
  readonly timing: StoredTiming;
  readonly sourceRow: number | null;
  readonly readings: ReadonlyMap<string, R>;
  readonly texts: ReadonlyMap<string, string>;
  /** Makes the reading of what `readings` holds. */
  readonly reading: (held: R) => Reading;
}

/** Stands for a needed reading that a left-out run lacks: no number, which rules and quantities pass over. */
export const notRead: Reading = Object.freeze({ id: "", value: Number.NaN });

const noOthers: PhaseConditions["others"] = Object.freeze([]);

/** Makes a phase of readings and texts by column, the inverse of reading it off. */
export function buildPhase<R>({ id, phase, timing, sourceRow, readings, texts, reading }: PhaseParts<R>): Phase {
  const optional = (column: string): Reading | null => {
    const held = readings.get(column);
    return held === undefined ? null : reading(held);
  };
  const needed = (column: string): Reading => optional(column) ?? notRead;
  const text = (column: string): string | null => texts.get(column) ?? null;
  const hasReading = (column: string) => readings.has(column);

  const moistureOf = (names: FuelColumns): MoistureReading | null => {
    const wet = optional(names.moistureWet);
    if (wet !== null) return { basis: "wet", percent: wet };
    const dry = optional(names.moistureDry);
    return dry === null ? null : { basis: "dry", percent: dry };
  };
  const calorificOf = (names: FuelColumns): CalorificReading | null => {
    const net = optional(names.net);
    if (net !== null) return { kind: "net", value: net };
    const gross = optional(names.gross);
    return gross === null ? null : { kind: "gross", value: gross, hydrogenPercent: optional(names.hydrogen) };
  };
  const fuelOf = (names: FuelColumns): FuelEntry => ({
    fuel: text(names.fuel),
    massBefore: needed(names.start),
    massAfter: needed(names.end),
    moisture: moistureOf(names),
    calorific: calorificOf(names),
  });
  const charOf = (): CharReading | null => {
    const withContainer = optional("char_with_container_g");
    if (withContainer !== null) return { kind: "weighed", container: needed("char_container_g"), withContainer };
    const mass = optional("char_g");
    return mass === null ? null : { kind: "net", mass };
  };
  const potOf = (names: PotColumns): PotReadings => ({
    pot: names.pot,
    masses:
      hasReading(names.empty) || hasReading(names.start) || hasReading(names.end)
        ? { kind: "weighed", empty: needed(names.empty), start: needed(names.start), end: needed(names.end) }
        : { kind: "net", waterStart: needed(names.waterStart), waterEnd: needed(names.waterEnd) },
    temperatureStart: needed(names.temperatureStart),
    temperatureEnd: needed(names.temperatureEnd),
  });
  const timingOf = (): PhaseTiming =>
    timing === "duration"
      ? { kind: "duration", minutes: needed("duration_min") }
      : { kind: "clock", start: needed("start"), end: needed("end"), written: timing };

  const fuels = [fuelOf(mainFuel)];
  for (const { names, numbers } of furtherFuels) {
    // Entries have no gap between them; a cell that is kept as written makes none.
    if (!(hasReading(names.start) || texts.has(names.fuel) || numbers.some(hasReading))) break;
    fuels.push(fuelOf(names));
  }
  const pots: PotReadings[] = [];
  for (const { names, numbers } of potColumns) {
    if (names.pot === 1 || hasReading(names.temperatureStart) || numbers.some(hasReading)) pots.push(potOf(names));
  }
  return {
    id,
    phase,
    timing: timingOf(),
    boiledAt: optional("boiled_at"),
    fuels,
    char: charOf(),
    charAtStart: optional("char_at_start_g"),
    charCalorific: optional("char_net_calorific_kJ_per_kg"),
    airTemperature: optional("air_C"),
    boilingPoint: {
      measured: optional("boiling_C"),
      pressure: optional("pressure_kPa"),
      altitude: optional("altitude_m"),
    },
    pots,
    carbonMonoxide: optional("co_g"),
    particulateMatter: optional("pm25_mg"),
    conditions: {
      lid: text("lid"),
      wind: text("wind"),
      humidityPercent: text("humidity_percent"),
      fuelSizeMillimetres: text("fuel_size_mm"),
      deviation: text("deviation"),
      note: text("note"),
      others: othersOf(texts),
    },
    sourceRow,
  };
}

function othersOf(texts: ReadonlyMap<string, string>): PhaseConditions["others"] {
  let others: { heading: string; text: string }[] | null = null;
  for (const [heading, text] of texts) {
    if (phaseTextColumns.has(heading)) continue;
    others ??= [];
    others.push({ heading, text });
  }
  return others ?? noOthers;
}
