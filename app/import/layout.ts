import type { ReadingDomainName } from "../../core/index.ts";
import type { Dimension } from "./units.ts";

/** One column of the readings file. */
export interface LayoutColumn {
  /** As the program writes it: `pot1_start_g`. */
  readonly name: string;
  /** The name without its unit. */
  readonly stem: string;
  /** Text, one number, a date, or a time of day. */
  readonly content: "text" | "number" | "date" | "time";
  readonly dimension: Dimension | null;
  readonly domain: ReadingDomainName;
  /** The value belongs to the whole run. */
  readonly ofRun: boolean;
}

const plain = (name: string, content: LayoutColumn["content"], ofRun = false): LayoutColumn => ({
  name,
  stem: name,
  content,
  dimension: null,
  domain: "anyNumber",
  ofRun,
});

const suffixes: Readonly<Record<Dimension, string>> = {
  massGram: "g",
  massMilligram: "mg",
  temperature: "C",
  duration: "min",
  pressure: "kPa",
  altitude: "m",
  calorificValue: "kJ_per_kg",
  percent: "percent",
};

const measured = (stem: string, dimension: Dimension, domain: ReadingDomainName): LayoutColumn => ({
  name: `${stem}_${suffixes[dimension]}`,
  stem,
  content: "number",
  dimension,
  domain,
  ofRun: false,
});

/** Columns of one fuel entry; the first has no number in its names. */
function fuelColumns(entry: number): LayoutColumn[] {
  const prefix = entry === 1 ? "" : `fuel${entry}_`;
  const fuel = entry === 1 ? "fuel" : `fuel${entry}`;
  return [
    plain(fuel, "text"),
    measured(`${fuel}_start`, "massGram", "positiveMass"),
    measured(`${fuel}_end`, "massGram", "mass"),
    measured(`${prefix}moisture_wet`, "percent", "moistureWet"),
    measured(`${prefix}moisture_dry`, "percent", "moistureDry"),
    measured(`${prefix}net_calorific`, "calorificValue", "calorificValue"),
    measured(`${prefix}gross_calorific`, "calorificValue", "calorificValue"),
    measured(`${prefix}hydrogen`, "percent", "hydrogen"),
  ];
}

function potColumns(pot: number): LayoutColumn[] {
  return [
    measured(`pot${pot}_empty`, "massGram", "positiveMass"),
    measured(`pot${pot}_start`, "massGram", "positiveMass"),
    measured(`pot${pot}_end`, "massGram", "mass"),
    measured(`pot${pot}_water_start`, "massGram", "positiveMass"),
    measured(`pot${pot}_water_end`, "massGram", "mass"),
    measured(`pot${pot}_start`, "temperature", "waterTemperature"),
    measured(`pot${pot}_end`, "temperature", "waterTemperature"),
  ];
}

/** All columns, in the order in which they are written. Design factors (`factor:NAME`) and unknown columns follow. */
export const layoutColumns: readonly LayoutColumn[] = [
  plain("run", "text", true),
  plain("variant", "text", true),
  plain("phase", "text"),
  plain("date", "date", true),
  plain("order", "number", true),
  plain("block", "text", true),
  plain("operator", "text", true),
  plain("start", "time"),
  plain("end", "time"),
  measured("duration", "duration", "duration"),
  plain("boiled_at", "time"),
  ...[1, 2, 3, 4].flatMap(fuelColumns),
  measured("char_container", "massGram", "mass"),
  measured("char_with_container", "massGram", "mass"),
  measured("char", "massGram", "mass"),
  measured("char_at_start", "massGram", "mass"),
  measured("char_net_calorific", "calorificValue", "calorificValue"),
  measured("air", "temperature", "airTemperature"),
  measured("boiling", "temperature", "boilingPoint"),
  measured("pressure", "pressure", "pressure"),
  measured("altitude", "altitude", "altitude"),
  ...[1, 2, 3, 4].flatMap(potColumns),
  measured("co", "massGram", "mass"),
  measured("pm25", "massMilligram", "mass"),
  plain("lid", "text"),
  plain("wind", "text"),
  plain("humidity_percent", "text"),
  plain("fuel_size_mm", "text"),
  plain("deviation", "text"),
  plain("excluded", "text", true),
  plain("note", "text"),
];

const byName: ReadonlyMap<string, LayoutColumn> = new Map(layoutColumns.map((column) => [column.name, column]));

/** A column by its name in the layout. */
export function layoutColumn(name: string): LayoutColumn {
  const column = byName.get(name);
  if (column === undefined) throw new Error(`the readings layout has no column ${name}`);
  return column;
}

export function isLayoutColumn(name: string): boolean {
  return byName.has(name);
}
