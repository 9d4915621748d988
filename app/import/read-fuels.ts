import type { CalorificReading, FuelEntry, MoistureReading } from "../../core/index.ts";
import { keepWritten, neededNumber, type PhaseSource, reportBoth, reportMissing } from "./phase-draft.ts";

/** Names of one entry's columns; the first entry has no number in them. */
function namesOf(entry: number) {
  const fuel = entry === 1 ? "fuel" : `fuel${entry}`;
  const prefix = entry === 1 ? "" : `fuel${entry}_`;
  return {
    fuel,
    start: `${fuel}_start_g`,
    end: `${fuel}_end_g`,
    moistureWet: `${prefix}moisture_wet_percent`,
    moistureDry: `${prefix}moisture_dry_percent`,
    net: `${prefix}net_calorific_kJ_per_kg`,
    gross: `${prefix}gross_calorific_kJ_per_kg`,
    hydrogen: `${prefix}hydrogen_percent`,
  };
}

type Names = ReturnType<typeof namesOf>;

/** Names of the columns of the four entries, in order. */
export const fuelColumnNames: readonly Names[] = [1, 2, 3, 4].map(namesOf);

function readMoisture(source: PhaseSource, names: Names, fuel: string): MoistureReading | null {
  const { row, phase, readings } = source;
  const wet = row.number(names.moistureWet);
  const dry = row.number(names.moistureDry);
  if (wet !== null && dry !== null) reportBoth(source, names.moistureWet, names.moistureDry);
  const basis = wet !== null ? "wet" : "dry";
  const value = wet ?? dry;
  if (value === null) {
    reportMissing(source, [names.moistureWet, names.moistureDry]);
    return null;
  }
  const column = basis === "wet" ? names.moistureWet : names.moistureDry;
  return { basis, percent: readings.shared(`moisture ${basis} of ${fuel}`, phase, column, value) };
}

function readCalorific(source: PhaseSource, names: Names, fuel: string, keptAs: string): CalorificReading | null {
  const { row, phase, readings } = source;
  const net = row.number(names.net);
  const gross = row.number(names.gross);
  if (net !== null && gross !== null) reportBoth(source, names.net, names.gross);
  if (net !== null) {
    row.number(names.hydrogen);
    keepWritten(source, names.hydrogen, keptAs);
    return { kind: "net", value: readings.shared(`net calorific of ${fuel}`, phase, names.net, net) };
  }
  const hydrogen = row.number(names.hydrogen);
  if (gross === null) {
    keepWritten(source, names.hydrogen, keptAs);
    return null;
  }
  return {
    kind: "gross",
    value: readings.shared(`gross calorific of ${fuel}`, phase, names.gross, gross),
    hydrogenPercent: hydrogen === null ? null : readings.shared(`hydrogen of ${fuel}`, phase, names.hydrogen, hydrogen),
  };
}

/**
 * The fuel entries of a phase. A further entry without a name, or with the name of an earlier one, is the same fuel: where it
 * has no calorific value of its own it takes that entry's, as the same reading.
 */
export function readFuels(source: PhaseSource): FuelEntry[] {
  const { row, phase, readings } = source;
  const entries: FuelEntry[] = [];
  for (const [index, names] of fuelColumnNames.entries()) {
    if (index > 0 && !Object.values(names).some((name) => row.isFilled(name))) continue;
    const written = row.text(names.fuel);
    const main = entries[0];
    const isMain = main === undefined;
    const hasOwnValue = [names.net, names.gross].some((name) => row.isFilled(name));
    const fuel = written ?? (isMain || hasOwnValue ? null : main.fuel);
    // Unnamed fuels are told apart by their entry, unless they are the main one.
    const key = fuel === null ? (isMain || !hasOwnValue ? "unnamed" : `unnamed ${index + 1}`) : `named ${fuel}`;
    const massBefore = readings.own(phase, names.start, neededNumber(source, names.start));
    const massAfter = readings.own(phase, names.end, neededNumber(source, names.end));
    const moisture = readMoisture(source, names, key);
    const same =
      isMain || hasOwnValue ? undefined : entries.find((other) => other.fuel === fuel && other.calorific !== null);
    // Entries are written without gaps between them: what is kept beside this one goes where it goes.
    const keptAs = fuelColumnNames[entries.length]?.hydrogen ?? names.hydrogen;
    const calorific = readCalorific(source, names, key, keptAs) ?? same?.calorific ?? null;
    entries.push({ fuel, massBefore, massAfter, moisture, calorific });
  }
  return entries;
}
