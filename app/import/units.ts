import { addExact, type ExactDecimal, multiplyExact, toNumber } from "./exact-decimal.ts";

/** What a column measures: which units its heading may name. The first of each is the layout's own. */
export type Dimension =
  | "massGram"
  | "massMilligram"
  | "temperature"
  | "duration"
  | "pressure"
  | "altitude"
  | "calorificValue"
  | "percent";

export interface Unit {
  /** As it is shown. */
  readonly name: string;
  /** As headings write it; lower case, without blanks and underscores. */
  readonly aliases: readonly string[];
  /** (value + offset) * factor / divisor is the value in the layout's unit; all exact, so that it is rounded once. */
  readonly offset?: ExactDecimal;
  readonly factor?: ExactDecimal;
  readonly divisor?: number;
  /** Cells are hours, minutes and seconds with colons between them. */
  readonly clockForm?: "h:mm:ss" | "mm:ss";
}

const decimal = (digits: bigint, exponent = 0): ExactDecimal => ({ digits, exponent });

const gram: Unit = { name: "g", aliases: ["g", "gram", "grams"] };
const milligram: Unit = { name: "mg", aliases: ["mg"] };

/** Pound and ounce: international pound, 0.45359237 kg exactly; foot 0.3048 m exactly. */
const units: Readonly<Record<Dimension, readonly Unit[]>> = {
  massGram: [
    gram,
    { name: "kg", aliases: ["kg", "kilogram", "kilograms"], factor: decimal(1n, 3) },
    { ...milligram, factor: decimal(1n, -3) },
    { name: "lb", aliases: ["lb", "lbs", "pound", "pounds"], factor: decimal(45359237n, -5) },
    { name: "oz", aliases: ["oz", "ounce", "ounces"], factor: decimal(28349523125n, -9) },
  ],
  massMilligram: [
    milligram,
    { ...gram, factor: decimal(1n, 3) },
    { name: "µg", aliases: ["µg", "μg", "ug"], factor: decimal(1n, -3) },
  ],
  temperature: [
    { name: "°C", aliases: ["c", "°c", "degc", "celsius"] },
    {
      name: "°F",
      aliases: ["f", "°f", "degf", "fahrenheit"],
      offset: decimal(-32n),
      factor: decimal(5n),
      divisor: 9,
    },
    { name: "K", aliases: ["k", "kelvin"], offset: decimal(-27315n, -2) },
  ],
  duration: [
    { name: "min", aliases: ["min", "minute", "minutes"] },
    { name: "s", aliases: ["s", "sec", "second", "seconds"], divisor: 60 },
    { name: "h", aliases: ["h", "hour", "hours"], factor: decimal(60n) },
    { name: "h:mm:ss", aliases: ["h:mm:ss", "hh:mm:ss", "h:mm", "hh:mm"], clockForm: "h:mm:ss" },
    { name: "mm:ss", aliases: ["mm:ss", "m:ss"], clockForm: "mm:ss" },
  ],
  pressure: [
    { name: "kPa", aliases: ["kpa"] },
    { name: "Pa", aliases: ["pa"], factor: decimal(1n, -3) },
    { name: "hPa", aliases: ["hpa"], factor: decimal(1n, -1) },
    { name: "mbar", aliases: ["mbar"], factor: decimal(1n, -1) },
    { name: "bar", aliases: ["bar"], factor: decimal(1n, 2) },
  ],
  altitude: [
    { name: "m", aliases: ["m", "metre", "metres", "meter", "meters"] },
    { name: "km", aliases: ["km"], factor: decimal(1n, 3) },
    { name: "ft", aliases: ["ft", "foot", "feet"], factor: decimal(3048n, -4) },
  ],
  calorificValue: [
    { name: "kJ/kg", aliases: ["kj/kg", "kjperkg", "kjkg", "j/g", "jperg"] },
    { name: "MJ/kg", aliases: ["mj/kg", "mjperkg", "mjkg"], factor: decimal(1n, 3) },
  ],
  percent: [
    { name: "%", aliases: ["percent", "%", "pct"] },
    { name: "fraction", aliases: ["fraction"], factor: decimal(1n, 2) },
  ],
};

/** Words that name a unit of something, known here or not: behind a column's name they are taken for its unit. */
const foreignUnits =
  "t|ton|tons|tonne|tonnes|st|stone|gr|grain|dag|dkg|cg|hg|ml|l|dl|litre|litres|liter|liters|gal|cup|cups|°|deg|degree|degrees|" +
  "r|rankine|d|day|days|ms|psi|atm|torr|mmhg|inhg|mpa|cm|mm|in|inch|inches|mile|miles|yd|j|kj|mj|cal|kcal|btu|kcal/kg|kcalperkg|" +
  "cal/g|calperg|btu/lb|btuperlb|wh|kwh|kwh/kg|kwhperkg|permille|‰|ppm|ppb|mol|mm3|m3";
const unitWords: ReadonlySet<string> = new Set([
  ...foreignUnits.split("|"),
  ...Object.values(units).flatMap((list) => list.flatMap(({ aliases }) => aliases)),
]);

/** Whether a text, in lower case and without blanks and underscores, names a unit of anything. */
export function isUnitWord(text: string): boolean {
  return unitWords.has(text);
}

/** The unit of a dimension that a heading names; undefined where it is none of its units. */
export function findUnit(dimension: Dimension, text: string): Unit | undefined {
  return units[dimension].find(({ aliases }) => aliases.includes(text));
}

/** Names of all units of a dimension, the layout's own first. */
export function knownUnits(dimension: Dimension): readonly string[] {
  return units[dimension].map(({ name }) => name);
}

/** Whether values stand as the layout has them. */
export function isLayoutUnit(dimension: Dimension, unit: Unit): boolean {
  return units[dimension][0] === unit;
}

/** A value in the layout's unit, rounded to a number once (twice where the conversion divides). */
export function toLayoutUnit(value: ExactDecimal, { offset, factor, divisor }: Unit): number {
  const moved = offset === undefined ? value : addExact(value, offset);
  const scaled = factor === undefined ? moved : multiplyExact(moved, factor);
  return toNumber(scaled) / (divisor ?? 1);
}
