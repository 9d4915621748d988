/** Names of all computed quantities, as in results.json: other programs rely on them. */
export const phaseQuantityNames = [
  "fuelConsumedMoist",
  "charFormed",
  "effectiveCalorificValue",
  "fuelConsumedDryEquivalent",
  "waterEvaporated",
  "waterRemaining",
  "effectiveWaterBoiled",
  "heatGainedByWater",
  "thermalEfficiency",
  "burningRate",
  "firepower",
  "cookingPower",
  "duration",
  "timeToBoil",
  "timeToBoilCorrected",
  "specificFuelConsumption",
  "specificFuelConsumptionCorrected",
  "specificEnergyConsumption",
  "specificEnergyConsumptionCorrected",
  "lowPowerSpecificEnergyRate",
  "isoUsefulEnergy",
  "isoEfficiencyWithoutChar",
  "isoEfficiencyWithChar",
  "isoFirepower",
  "isoCookingPower",
  "coPerEnergyDelivered",
  "coRate",
  "coRatePerLitre",
  "coPerDryFuel",
  "pm25PerEnergyDelivered",
  "pm25Rate",
  "pm25RatePerLitre",
  "pm25PerDryFuel",
] as const;

export const runQuantityNames = [
  "taskFuel5L",
  "taskEnergy5L",
  "taskTime",
  "highPowerThermalEfficiency",
  "turnDownRatio",
  "highPowerCoPerEnergyDelivered",
  "highPowerPm25PerEnergyDelivered",
  "meanIsoEfficiencyWithoutChar",
  "meanIsoEfficiencyWithChar",
  "meanCoPerEnergyDelivered",
  "meanPm25PerEnergyDelivered",
] as const;

export type PhaseQuantityName = (typeof phaseQuantityNames)[number];
export type RunQuantityName = (typeof runQuantityNames)[number];
export type QuantityName = PhaseQuantityName | RunQuantityName;
