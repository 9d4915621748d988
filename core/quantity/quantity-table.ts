import type { Method } from "../readings/phase.ts";
import { type Locale, wordsFor } from "../words/index.ts";
import { methodSources } from "./method-sources.ts";
import type { QuantityName } from "./quantity-name.ts";

/** Is more of it better, or less, or neither? */
export type Direction = "more" | "less" | "neither";

interface QuantityFacts {
  /** As computed and written to results.json. */
  readonly unit: string;
  /** As shown: shown = value * factor. */
  readonly shownUnit: string;
  readonly shownFactor: number;
  /** Decimals that suit a single run's value, as shown. */
  readonly decimals: number;
  readonly formula: string;
  readonly source: string;
  readonly direction: Direction;
  /** The method whose formula it is; "both" where the methods agree. */
  readonly method: Method | "both";
}

/** One row of the table of quantities. */
export interface QuantityEntry extends QuantityFacts {
  readonly name: QuantityName;
  readonly label: string;
  readonly meaning: string;
}

const { wbt, iso } = methodSources;

function facts(
  method: Method | "both",
  unit: string,
  decimals: number,
  direction: Direction,
  formula: string,
  source: string = method === "iso" ? iso : wbt,
): QuantityFacts {
  return { unit, shownUnit: unit === "1" ? "" : unit, shownFactor: 1, decimals, formula, source, direction, method };
}

function share(method: Method, formula: string, source?: string): QuantityFacts {
  return { ...facts(method, "1", 1, "more", formula, source), shownUnit: "%", shownFactor: 100 };
}

const factsOf: Record<QuantityName, QuantityFacts> = {
  fuelConsumedMoist: facts("both", "g", 0, "less", "fm = sum(before - after)"),
  charFormed: facts("both", "g", 0, "neither", "dC = with char - container - char at start"),
  effectiveCalorificValue: facts("wbt", "kJ/kg", 0, "neither", "EHV = LHV (1 - m) - m [4.186 (Tb - Ta) + 2257]"),
  fuelConsumedDryEquivalent: facts("wbt", "g", 0, "less", "fd = (sum(fm EHV) - dC LHVc) / LHV"),
  waterEvaporated: facts("both", "g", 0, "neither", "wv = sum(start - end)"),
  waterRemaining: facts(
    "both",
    "g",
    0,
    "neither",
    "wr = sum(end - empty)",
    `${wbt}, simmer, from memory: editions differ`,
  ),
  effectiveWaterBoiled: facts("wbt", "g", 0, "neither", "wr = sum((end - empty) (Tend - Tstart) / (Tb - Tstart))"),
  heatGainedByWater: facts(
    "wbt",
    "kJ",
    0,
    "neither",
    "Q = [4.186 sum((start - empty) (Tend - Tstart)) + 2260 wv] / 1000",
  ),
  thermalEfficiency: share("wbt", "1000 Q / (fd LHV)"),
  burningRate: facts("wbt", "g/min", 1, "neither", "fd / t"),
  firepower: facts("wbt", "W", 0, "neither", "fd LHV / (60 t)"),
  cookingPower: facts("wbt", "W", 0, "more", "1000 Q / (60 t)"),
  duration: facts("both", "min", 1, "neither", "t = end - start"),
  timeToBoil: facts("both", "min", 1, "less", "t = end - start, or boiled - start for an ISO phase"),
  timeToBoilCorrected: facts("wbt", "min", 1, "less", "75 t / (Tend - Tstart) of pot 1"),
  specificFuelConsumption: facts("wbt", "g/L", 1, "less", "SC = 1000 fd / wr"),
  specificFuelConsumptionCorrected: facts("wbt", "g/L", 1, "less", "75 SC / (Tend - Tstart) of pot 1"),
  specificEnergyConsumption: facts("wbt", "kJ/L", 0, "less", "SC LHV / 1000"),
  specificEnergyConsumptionCorrected: facts("wbt", "kJ/L", 0, "less", "75 SC / (Tend - Tstart) of pot 1 LHV / 1000"),
  lowPowerSpecificEnergyRate: facts("wbt", "MJ/(min·L)", 4, "less", "fd LHV / (1000 wr t)"),
  isoUsefulEnergy: facts("iso", "kJ", 0, "neither", "Q1 = sum(4.18 water (Tend - Tstart) + L lost) / 1000"),
  isoEfficiencyWithoutChar: share("iso", "1000 Q1 / sum(fm LHVar), LHVar = LHV (1 - m) - 2443 m"),
  isoEfficiencyWithChar: share("iso", "1000 Q1 / (sum(fm LHVar) - dC LHVc)"),
  isoFirepower: facts("iso", "W", 0, "neither", "sum(fm LHVar) / (60 t)"),
  isoCookingPower: facts("iso", "W", 0, "more", "1000 Q1 / (60 t)"),
  coPerEnergyDelivered: facts("both", "g/MJ", 2, "less", "CO / (Q / 1000), Q1 for an ISO run"),
  coRate: facts("both", "g/min", 3, "less", "CO / t"),
  coRatePerLitre: facts("both", "g/(min·L)", 4, "less", "CO / (t wr / 1000)"),
  coPerDryFuel: facts("both", "g/kg", 1, "less", "CO / (fd / 1000)"),
  pm25PerEnergyDelivered: facts("both", "mg/MJ", 0, "less", "PM2.5 / (Q / 1000), Q1 for an ISO run"),
  pm25Rate: facts("both", "mg/min", 2, "less", "PM2.5 / t"),
  pm25RatePerLitre: facts("both", "mg/(min·L)", 2, "less", "PM2.5 / (t wr / 1000)"),
  pm25PerDryFuel: facts("both", "mg/kg", 0, "less", "PM2.5 / (fd / 1000)"),
  taskFuel5L: facts("wbt", "g", 0, "less", "5 [(SC cold, corrected + SC hot, corrected) / 2 + SC simmer]"),
  taskEnergy5L: facts("wbt", "kJ", 0, "less", "5 [(SE cold, corrected + SE hot, corrected) / 2 + SE simmer]"),
  taskTime: facts("wbt", "min", 1, "less", "(t cold, corrected + t hot, corrected) / 2 + t simmer"),
  highPowerThermalEfficiency: share("wbt", "(efficiency cold + efficiency hot) / 2"),
  turnDownRatio: facts("wbt", "1", 2, "more", "firepower hot / firepower simmer", `${wbt}, from memory`),
  highPowerCoPerEnergyDelivered: facts("wbt", "g/MJ", 2, "less", "(cold + hot) / 2"),
  highPowerPm25PerEnergyDelivered: facts("wbt", "mg/MJ", 0, "less", "(cold + hot) / 2"),
  meanIsoEfficiencyWithoutChar: share("iso", "(high + medium + low) / 3", `${iso}; mean of levels from memory`),
  meanIsoEfficiencyWithChar: share("iso", "(high + medium + low) / 3", `${iso}; mean of levels from memory`),
  meanCoPerEnergyDelivered: facts(
    "iso",
    "g/MJ",
    2,
    "less",
    "(high + medium + low) / 3",
    `${iso}; mean of levels from memory`,
  ),
  meanPm25PerEnergyDelivered: facts(
    "iso",
    "mg/MJ",
    0,
    "less",
    "(high + medium + low) / 3",
    `${iso}; mean of levels from memory`,
  ),
};

/** Unit in which a quantity is computed, as results.json names it. */
export function unitOf(name: QuantityName): string {
  return factsOf[name].unit;
}

/** Everything there is to say about one quantity: name, label, unit, meaning, formula, source, direction. */
export function quantityEntry(name: QuantityName, locale: Locale): QuantityEntry {
  const words = wordsFor(locale).quantities.of[name];
  return { name, label: words.label, meaning: words.meaning, ...factsOf[name] };
}

/** The table of all quantities, in the order in which they are shown. */
export function quantityTable(locale: Locale): QuantityEntry[] {
  return (Object.keys(factsOf) as QuantityName[]).map((name) => quantityEntry(name, locale));
}
