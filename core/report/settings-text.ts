import type { FuelUse } from "../analysis/run-facts.ts";
import { formatSignificant } from "../format/number.ts";
import { type ConstantName, constants } from "../quantity/constants.ts";
import type { ComponentSize, Settings, UncertaintyComponent, ValueWithUncertainty } from "../readings/settings.ts";
import type { Study } from "../readings/study.ts";
import { type Locale, wordsFor } from "../words/index.ts";

/** One thing that the settings fix, in words. */
export interface SettingText {
  readonly name: string;
  readonly detail: string;
}

function number(value: number, locale: Locale): string {
  // As entered: up to ten digits, without trailing zeros.
  const text = formatSignificant(value, 10, locale);
  return text.includes(".") ? text.replace(/\.?0+$/, "") : text;
}

/** `unit`: of the reading, for the sizes that are not a fraction of it. */
function sizeText(size: ComponentSize, unit: string, locale: Locale): string {
  const { sizes, withUnit } = wordsFor(locale).settings;
  const write = (value: number) => number(value, locale);
  const amount = (value: number) => withUnit(write(value), unit);
  if ("standardUncertainty" in size) return sizes.standardUncertainty(amount(size.standardUncertainty));
  if ("relativeStandardUncertainty" in size) {
    return sizes.relativeStandardUncertainty(write(size.relativeStandardUncertainty));
  }
  if ("halfWidth" in size) return sizes.halfWidth(amount(size.halfWidth));
  if ("relativeHalfWidth" in size) return sizes.relativeHalfWidth(write(size.relativeHalfWidth));
  if ("expandedUncertainty" in size) {
    return sizes.expandedUncertainty(amount(size.expandedUncertainty), write(size.coverageFactor));
  }
  return sizes.relativeExpandedUncertainty(write(size.relativeExpandedUncertainty), write(size.coverageFactor));
}

/** Each error in words. `unit`: of the reading. */
export function componentTexts(
  components: readonly UncertaintyComponent[],
  unit: string,
  locale: Locale,
): readonly string[] {
  const words = wordsFor(locale).settings;
  return components.map(({ name, size, kind }) => words.component(name, sizeText(size, unit, locale), kind));
}

/** What is known of an error, in words. `unit`: of the reading. */
export function componentsText(components: readonly UncertaintyComponent[], unit: string, locale: Locale): string {
  const words = wordsFor(locale).settings;
  if (components.length === 0) return words.exact;
  return words.components(componentTexts(components, unit, locale).join("; "));
}

function valueTexts(
  value: ValueWithUncertainty | null,
  write: (text: string) => string,
  unit: string,
  locale: Locale,
): readonly string[] {
  return value === null ? [] : [write(number(value.value, locale)), componentsText(value.components, unit, locale)];
}

/** The study's fuels by name, those of the readings first. */
export function fuelTexts(settings: Settings, used: readonly FuelUse[], locale: Locale): SettingText[] {
  const words = wordsFor(locale).settings;
  const names = new Set([...used.map(({ fuel }) => fuel ?? ""), ...settings.fuels.keys()]);
  const withOwnValue = new Set(used.filter(({ hasOwnValue }) => hasOwnValue).map(({ fuel }) => fuel ?? ""));
  return [...names].map((name): SettingText => {
    const named = settings.fuels.get(name);
    const details =
      named === undefined
        ? []
        : [
            ...valueTexts(named.netCalorific, words.netCalorific, words.calorificUnit, locale),
            ...valueTexts(named.grossCalorific, words.grossCalorific, words.calorificUnit, locale),
            ...valueTexts(named.hydrogenPercent, words.hydrogen, words.hydrogenUnit, locale),
            ...(named.source === undefined ? [] : [words.source(named.source)]),
          ];
    return {
      name: name || words.fuelUnnamed,
      detail: details.join("; ") || (withOwnValue.has(name) ? words.fromReadings : words.unknownCalorific),
    };
  });
}

/** Char and instruments, as the settings state them. */
export function settingTexts(settings: Settings, locale: Locale): SettingText[] {
  const words = wordsFor(locale).settings;
  const char: SettingText = {
    name: words.char,
    detail: [
      ...valueTexts(settings.charNetCalorific, words.netCalorific, words.calorificUnit, locale),
      ...(settings.charSource === undefined ? [] : [words.source(settings.charSource)]),
    ].join("; "),
  };
  const instruments = [...settings.instruments].map(([role, instrument]): SettingText => {
    const detail =
      "sameAs" in instrument
        ? words.sameAs(words.roles[instrument.sameAs])
        : [
            componentsText(instrument.components, words.units[role], locale),
            ...(instrument.source === undefined ? [] : [words.source(instrument.source)]),
          ].join("; ");
    return { name: words.roles[role], detail };
  });
  return [char, ...instruments];
}

/** The constants that each method's formulas use, and those that gross calorific values need. */
const constantsOf = {
  wbt: [
    "specificHeatOfWaterWbt",
    "latentHeatInFuelMoisture",
    "latentHeatOfEvaporatedWater",
    "referenceTemperatureRise",
    "taskVolume",
    "densityOfWater",
  ],
  iso: ["specificHeatOfWaterIso", "latentHeatAsReceived"],
  gross: ["latentHeatAt25C", "waterFromHydrogen", "hydrogenOfWood"],
  both: ["charNetCalorific"],
} as const satisfies Record<string, readonly ConstantName[]>;

/** True where a gross calorific value is turned into a net one. */
function usesGross({ runs, settings }: Study): boolean {
  return runs.some((run) =>
    run.phases.some((phase) =>
      phase.fuels.some(
        ({ fuel, calorific }) =>
          calorific?.kind === "gross" ||
          (calorific === null && fuel !== null && settings.fuels.get(fuel)?.grossCalorific != null),
      ),
    ),
  );
}

/** Rows of the table of constants that a study's results rest on: name, value with unit, source. */
export function constantRows(study: Study, locale: Locale): string[][] {
  const { constantNames } = wordsFor(locale).report;
  const methods = new Set(study.runs.map(({ method }) => method));
  const names: ConstantName[] = [
    ...(methods.has("wbt") ? constantsOf.wbt : []),
    ...(methods.has("iso") ? constantsOf.iso : []),
    ...(usesGross(study) ? constantsOf.gross : []),
    ...constantsOf.both,
  ];
  return names.map((name) => {
    const { value, unit, source } = constants[name];
    return [constantNames[name], unit === "1" ? number(value, locale) : `${number(value, locale)} ${unit}`, source];
  });
}
