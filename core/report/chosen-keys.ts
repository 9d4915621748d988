import type { StudyResults } from "../analysis/study-results.ts";
import { keyText, type QuantityKey } from "../quantity/quantity-key.ts";
import type { PhaseQuantityName } from "../quantity/quantity-name.ts";

/** Quantities of a phase that a report shows, in this order; results.json holds all of them. */
const shownOfPhase: ReadonlySet<PhaseQuantityName> = new Set<PhaseQuantityName>([
  "fuelConsumedDryEquivalent",
  "thermalEfficiency",
  "firepower",
  "timeToBoilCorrected",
  "specificFuelConsumptionCorrected",
  "lowPowerSpecificEnergyRate",
  "coPerEnergyDelivered",
  "coRatePerLitre",
  "pm25PerEnergyDelivered",
  "pm25RatePerLitre",
]);
const shownOfIsoPhase: ReadonlySet<PhaseQuantityName> = new Set<PhaseQuantityName>([
  "isoEfficiencyWithoutChar",
  "isoEfficiencyWithChar",
  "isoFirepower",
  "isoCookingPower",
  "timeToBoil",
  "coPerEnergyDelivered",
  "pm25PerEnergyDelivered",
]);

/** Whether a quantity belongs in the report's table: all of a run's own, and the telling ones of its phases. */
export function isShownInReport(key: QuantityKey): boolean {
  if (key.phase === null) return true;
  if (key.phase === "simmer" && key.quantity === "specificFuelConsumption") return true;
  return (key.phase.endsWith("power") ? shownOfIsoPhase : shownOfPhase).has(key.quantity);
}

/** The quantities of a study that the report's table shows. */
export function reportKeys(results: StudyResults): QuantityKey[] {
  return results.keys.filter(
    (key) => isShownInReport(key) && results.variants.some(({ quantities }) => quantities.has(keyText(key))),
  );
}

const companions = [
  "taskFuel5L",
  "highPowerThermalEfficiency",
  "taskTime",
  "cold-start.thermalEfficiency",
  "cold-start.timeToBoilCorrected",
  "meanIsoEfficiencyWithoutChar",
  "high-power.isoEfficiencyWithoutChar",
  "high-power.timeToBoil",
  "high-power.isoFirepower",
  "simmer.specificFuelConsumption",
];

/** The leading quantity and up to two companions, for the table on page one. */
export function leadingKeys(results: StudyResults, first: QuantityKey): QuantityKey[] {
  const present = new Map(results.keys.map((key) => [keyText(key), key]));
  const others = companions
    .filter((text) => text !== keyText(first))
    .flatMap((text) => present.get(text) ?? [])
    .filter((key) => results.variants.some(({ quantities }) => quantities.has(keyText(key))));
  return [first, ...others.slice(0, 2)];
}
