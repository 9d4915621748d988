import type { QuantityName } from "../quantity/quantity-name.ts";
import { phaseQuantityNames, runQuantityNames } from "../quantity/quantity-name.ts";
import {
  isBoilingPhase,
  isHoldingPhase,
  isoPhases,
  type Method,
  type PhaseName,
  wbtPhases,
} from "../readings/phase.ts";
import type { FieldPlace } from "./procedure-field.ts";

/** Quantities with the phases in which they follow from a reading; `wbt` and `iso` as composed in core/method. */
type Names = readonly QuantityName[];

const perLitre: Names = ["specificFuelConsumption", "specificEnergyConsumption"];
const perLitreCorrected: Names = ["specificFuelConsumptionCorrected", "specificEnergyConsumptionCorrected"];
const task: Names = ["taskFuel5L", "taskEnergy5L"];

/** What the run as a whole takes from a phase's efficiency and firepower. */
const ofEfficiency = (phase: PhaseName): Names => (isBoilingPhase(phase) ? ["highPowerThermalEfficiency"] : []);
const ofFirepower = (phase: PhaseName): Names => (phase === "cold-start" ? [] : ["turnDownRatio"]);

/** What is counted for each litre. */
const litres = (phase: PhaseName): Names =>
  isBoilingPhase(phase)
    ? [...perLitre, ...perLitreCorrected, ...task]
    : [...perLitre, "lowPowerSpecificEnergyRate", ...task];

/** What follows from the dry wood used. */
const wood = (phase: PhaseName): Names => [
  "fuelConsumedDryEquivalent",
  "thermalEfficiency",
  "burningRate",
  "firepower",
  ...litres(phase),
  ...ofEfficiency(phase),
  ...ofFirepower(phase),
];
/** What follows from the heat that the water gained. */
const heat = (phase: PhaseName): Names => [
  "heatGainedByWater",
  "thermalEfficiency",
  "cookingPower",
  ...ofEfficiency(phase),
];
const effective = (phase: PhaseName): Names => (isBoilingPhase(phase) ? ["effectiveWaterBoiled"] : []);
const clock = (phase: PhaseName): Names => [
  "duration",
  "burningRate",
  "firepower",
  "cookingPower",
  "taskTime",
  ...ofFirepower(phase),
  ...(isBoilingPhase(phase) ? (["timeToBoil", "timeToBoilCorrected"] as const) : []),
  ...(isHoldingPhase(phase) ? (["lowPowerSpecificEnergyRate"] as const) : []),
];
const temperature = (phase: PhaseName, pot: string): Names => [
  ...heat(phase),
  ...effective(phase),
  ...(isBoilingPhase(phase) ? litres(phase) : []),
  ...(isBoilingPhase(phase) && pot === "1" ? (["timeToBoilCorrected", "taskTime"] as const) : []),
];
const emission = (phase: PhaseName, of: "co" | "pm25"): Names => [
  `${of}PerEnergyDelivered`,
  `${of}Rate`,
  `${of}RatePerLitre`,
  `${of}PerDryFuel`,
  ...(isBoilingPhase(phase)
    ? ([of === "co" ? "highPowerCoPerEnergyDelivered" : "highPowerPm25PerEnergyDelivered"] as const)
    : []),
  ...((isoPhases as readonly string[]).includes(phase)
    ? ([of === "co" ? "meanCoPerEnergyDelivered" : "meanPm25PerEnergyDelivered"] as const)
    : []),
];

function wbtFeeds(phase: PhaseName, column: string): Names {
  const pot = /^pot([1-4])_(.+)$/.exec(column);
  switch (pot?.[2] ?? column.replace(/^fuel[2-4]_(start|end)/, "fuel_$1").replace(/^fuel[2-4]_/, "")) {
    case "empty_g":
      return ["waterRemaining", ...effective(phase), ...heat(phase), ...litres(phase)];
    case "start_g":
      return ["waterEvaporated", ...heat(phase)];
    case "end_g":
      return ["waterEvaporated", "waterRemaining", ...effective(phase), ...heat(phase), ...litres(phase)];
    case "start_C":
    case "end_C":
      return temperature(phase, pot?.[1] ?? "");
    case "fuel_start_g":
    case "fuel_end_g":
      return ["fuelConsumedMoist", ...wood(phase)];
    case "moisture_wet_percent":
    case "air_C":
      return ["effectiveCalorificValue", ...wood(phase)];
    case "boiling_C":
    case "altitude_m":
      return ["effectiveCalorificValue", ...wood(phase), ...effective(phase)];
    case "char_container_g":
    case "char_with_container_g":
    case "char_at_start_g":
      return ["charFormed", ...wood(phase)];
    case "start":
    case "end":
      return clock(phase);
    default:
      return [];
  }
}

const energyFed: Names = [
  "isoEfficiencyWithoutChar",
  "isoEfficiencyWithChar",
  "isoFirepower",
  "meanIsoEfficiencyWithoutChar",
  "meanIsoEfficiencyWithChar",
];
const useful: Names = [
  "isoUsefulEnergy",
  "isoEfficiencyWithoutChar",
  "isoEfficiencyWithChar",
  "isoCookingPower",
  "meanIsoEfficiencyWithoutChar",
  "meanIsoEfficiencyWithChar",
];

function isoFeeds(column: string): Names {
  const plain = column.replace(/^pot[1-4]_/, "pot_").replace(/^fuel[2-4]_(start|end)/, "fuel_$1");
  switch (plain.replace(/^fuel[2-4]_/, "")) {
    case "pot_start_g":
      return ["waterEvaporated", ...useful];
    case "pot_empty_g":
      return ["waterRemaining", ...useful];
    case "pot_end_g":
      return ["waterEvaporated", "waterRemaining", ...useful];
    case "pot_start_C":
    case "pot_end_C":
    case "boiling_C":
    case "altitude_m":
      return useful;
    case "fuel_start_g":
    case "fuel_end_g":
      return ["fuelConsumedMoist", ...energyFed];
    case "moisture_wet_percent":
      return energyFed;
    case "char_container_g":
    case "char_with_container_g":
    case "char_at_start_g":
      return ["charFormed", "isoEfficiencyWithChar", "meanIsoEfficiencyWithChar"];
    case "start":
      return ["duration", "timeToBoil", "isoFirepower", "isoCookingPower"];
    case "end":
      return ["duration", "isoFirepower", "isoCookingPower"];
    case "boiled_at":
      return ["timeToBoil"];
    default:
      return [];
  }
}

/** Read before the fire for the whole run: they feed every phase. */
const lasting = /^(air_C|boiling_C|altitude_m|moisture_wet_percent|char_container_g|pot[1-4]_empty_g)$/;

/**
 * The quantities of the run's own method that follow from a reading, in the order in which they are shown. Quantities per
 * emitted gram are named only with what was emitted; what a reading gives where it stands in for another's is not named.
 */
export function fieldFeeds(method: Method, { phase, column }: FieldPlace): readonly QuantityName[] {
  if (phase === null) return [];
  const first = method === "wbt" ? wbtPhases[0] : isoPhases[0];
  const phases: readonly PhaseName[] =
    phase !== first || !lasting.test(column) ? [phase] : method === "wbt" ? wbtPhases : isoPhases;
  const found = new Set(
    phases.flatMap((one) => {
      if (column === "co_g") return emission(one, "co");
      if (column === "pm25_mg") return emission(one, "pm25");
      return method === "wbt" ? wbtFeeds(one, column) : isoFeeds(column);
    }),
  );
  return [...phaseQuantityNames, ...runQuantityNames].filter((name) => found.has(name));
}
