import type { QuantityName } from "../../quantity/quantity-name.ts";
import type { PhaseName } from "../../readings/phase.ts";

/** What a quantity is called, what it means, and how a finding about it is said. */
export interface QuantityWords {
  readonly label: string;
  readonly meaning: string;
  /** What a variant did, after its name: `used 21 % less wood for 5 litres`; without an amount, `used less wood for 5 litres`. */
  readonly less: (amount: string | null) => string;
  readonly more: (amount: string | null) => string;
}

type Amount = string | null;
/** An amount before its noun, where there is one. */
const by = (amount: Amount) => (amount === null ? "" : `${amount} `);

const had = (what: string) => ({
  less: (amount: Amount) => (amount === null ? `had a lower ${what}` : `had a ${what} ${amount} lower`),
  more: (amount: Amount) => (amount === null ? `had a higher ${what}` : `had a ${what} ${amount} higher`),
});
const hadAn = (what: string) => ({
  less: (amount: Amount) => (amount === null ? `had a lower ${what}` : `had an ${what} ${amount} lower`),
  more: (amount: Amount) => (amount === null ? `had a higher ${what}` : `had an ${what} ${amount} higher`),
});
const took = (what: string) => ({
  less: (amount: Amount) => `took ${by(amount)}less time ${what}`,
  more: (amount: Amount) => `took ${by(amount)}more time ${what}`,
});
const used = (what: string) => ({
  less: (amount: Amount) => `used ${by(amount)}less ${what}`,
  more: (amount: Amount) => `used ${by(amount)}more ${what}`,
});
const gave = (what: string) => ({
  less: (amount: Amount) => `gave off ${by(amount)}less ${what}`,
  more: (amount: Amount) => `gave off ${by(amount)}more ${what}`,
});

const quantities: Record<QuantityName, QuantityWords> = {
  fuelConsumedMoist: {
    label: "moist wood used",
    meaning: "Wood that went from the pile into the fire, weighed as fired, before any correction.",
    ...used("wood (weighed moist)"),
  },
  charFormed: {
    label: "char formed",
    meaning:
      "Char left at the end of the phase, less the char that was in the bed when it began. Its energy was not used.",
    less: (amount) => `left ${by(amount)}less char`,
    more: (amount) => `left ${by(amount)}more char`,
  },
  effectiveCalorificValue: {
    label: "effective calorific value",
    meaning:
      "Energy that a kilogram of the wood as fired brings after its own moisture has been heated and boiled off; of the first fuel, where there are several.",
    less: (amount) =>
      amount === null
        ? "burned wood with a lower effective calorific value"
        : `burned wood with an effective calorific value ${amount} lower`,
    more: (amount) =>
      amount === null
        ? "burned wood with a higher effective calorific value"
        : `burned wood with an effective calorific value ${amount} higher`,
  },
  fuelConsumedDryEquivalent: {
    label: "dry wood used",
    meaning:
      "Dry wood that would have released the energy that the fire released: moisture and the char left over are taken off.",
    ...used("dry wood"),
  },
  waterEvaporated: {
    label: "water evaporated",
    meaning: "Water that left the pots as steam during the phase.",
    less: (amount) => `boiled off ${by(amount)}less water`,
    more: (amount) => `boiled off ${by(amount)}more water`,
  },
  waterRemaining: {
    label: "water remaining",
    meaning: "Water in all pots at the end of the phase. At a simmer, consumption is counted per litre of it.",
    less: (amount) => `kept ${by(amount)}less water`,
    more: (amount) => `kept ${by(amount)}more water`,
  },
  effectiveWaterBoiled: {
    label: "effective water boiled",
    meaning: "Water at the end, scaled by how far each pot came on its way to boiling.",
    less: (amount) => `boiled ${by(amount)}less water (effective mass)`,
    more: (amount) => `boiled ${by(amount)}more water (effective mass)`,
  },
  heatGainedByWater: {
    label: "heat gained by the water",
    meaning: "Heat that warmed the water and turned part of it into steam.",
    less: (amount) => `gave the water ${by(amount)}less heat`,
    more: (amount) => `gave the water ${by(amount)}more heat`,
  },
  thermalEfficiency: {
    label: "thermal efficiency",
    meaning:
      "Share of the energy released that the water gained. At a simmer it counts steam as gain, so it is not for ranking.",
    ...had("thermal efficiency"),
  },
  burningRate: {
    label: "burning rate",
    meaning: "Dry wood burnt in a minute, on average over the phase.",
    less: (amount) => `burned ${by(amount)}slower`,
    more: (amount) => `burned ${by(amount)}faster`,
  },
  firepower: {
    label: "firepower",
    meaning: "Energy that the fire released in a second, on average over the phase.",
    ...had("firepower"),
  },
  cookingPower: {
    label: "cooking power",
    meaning: "Heat that the water gained in a second, on average over the phase.",
    ...had("cooking power"),
  },
  duration: {
    label: "duration",
    meaning: "Length of the phase.",
    less: (amount) => `took ${by(amount)}less time`,
    more: (amount) => `took ${by(amount)}more time`,
  },
  timeToBoil: {
    label: "time to boil",
    meaning: "Time from lighting until the water boiled.",
    ...took("to boil"),
  },
  timeToBoilCorrected: {
    label: "time to boil, corrected",
    meaning:
      "Time to boil, as it would be for a rise of 75 K in the first pot, so that other days and altitudes compare.",
    ...took("to boil (corrected)"),
  },
  specificFuelConsumption: {
    label: "wood per litre",
    meaning: "Dry wood used for each litre boiled, or at a simmer, for each litre remaining.",
    ...used("wood per litre"),
  },
  specificFuelConsumptionCorrected: {
    label: "wood per litre, corrected",
    meaning: "Wood per litre, as it would be for a rise of 75 K in the first pot.",
    ...used("wood per litre (corrected)"),
  },
  specificEnergyConsumption: {
    label: "energy per litre",
    meaning: "Energy of the wood per litre: compares fuels of different calorific value.",
    ...used("energy per litre"),
  },
  specificEnergyConsumptionCorrected: {
    label: "energy per litre, corrected",
    meaning: "Energy per litre, as it would be for a rise of 75 K in the first pot.",
    ...used("energy per litre (corrected)"),
  },
  lowPowerSpecificEnergyRate: {
    label: "energy to keep a litre hot",
    meaning: "Energy of the wood for each minute and each litre that remains at a simmer.",
    ...used("energy to keep a litre hot"),
  },
  isoUsefulEnergy: {
    label: "useful energy",
    meaning: "Heat that warmed the water and boiled part of it away, with the latent heat at the local boiling point.",
    less: (amount) => `delivered ${by(amount)}less useful energy`,
    more: (amount) => `delivered ${by(amount)}more useful energy`,
  },
  isoEfficiencyWithoutChar: {
    label: "efficiency without char credit",
    meaning: "Useful energy over the energy of all wood fed; char left over counts as used.",
    ...hadAn("efficiency (without char credit)"),
  },
  isoEfficiencyWithChar: {
    label: "efficiency with char credit",
    meaning: "Useful energy over the energy of the wood fed, less that of the char left over.",
    ...hadAn("efficiency (with char credit)"),
  },
  isoFirepower: {
    label: "firepower, as received",
    meaning: "Energy of the wood fed in a second, as received and without char credit.",
    ...had("firepower (as received)"),
  },
  isoCookingPower: {
    label: "cooking power, useful energy",
    meaning: "Useful energy in a second, on average over the phase.",
    ...had("cooking power (useful energy)"),
  },
  coPerEnergyDelivered: {
    label: "carbon monoxide per energy delivered",
    meaning: "Carbon monoxide given off for each megajoule that reached the water.",
    ...gave("carbon monoxide per energy delivered"),
  },
  coRate: {
    label: "carbon monoxide per minute",
    meaning: "Carbon monoxide given off in a minute, on average over the phase.",
    ...gave("carbon monoxide per minute"),
  },
  coRatePerLitre: {
    label: "carbon monoxide per minute and litre",
    meaning: "Carbon monoxide given off in a minute for each litre that remains.",
    ...gave("carbon monoxide per minute and litre"),
  },
  coPerDryFuel: {
    label: "carbon monoxide per kilogram of dry wood",
    meaning: "Carbon monoxide given off for each kilogram of dry wood used.",
    ...gave("carbon monoxide per kilogram of dry wood"),
  },
  pm25PerEnergyDelivered: {
    label: "fine particles per energy delivered",
    meaning: "Particles under 2.5 micrometres (PM2.5) given off for each megajoule that reached the water.",
    ...gave("fine-particle mass per energy delivered"),
  },
  pm25Rate: {
    label: "fine particles per minute",
    meaning: "Particles under 2.5 micrometres (PM2.5) given off in a minute, on average over the phase.",
    ...gave("fine-particle mass per minute"),
  },
  pm25RatePerLitre: {
    label: "fine particles per minute and litre",
    meaning: "Particles under 2.5 micrometres (PM2.5) given off in a minute for each litre that remains.",
    ...gave("fine-particle mass per minute and litre"),
  },
  pm25PerDryFuel: {
    label: "fine particles per kilogram of dry wood",
    meaning: "Particles under 2.5 micrometres (PM2.5) given off for each kilogram of dry wood used.",
    ...gave("fine-particle mass per kilogram of dry wood"),
  },
  taskFuel5L: {
    label: "wood for 5 litres",
    meaning:
      "Dry wood to bring 5 litres to the boil (mean of cold and hot start, corrected) and keep them at a simmer.",
    ...used("wood for 5 litres"),
  },
  taskEnergy5L: {
    label: "energy for 5 litres",
    meaning: "Energy of the wood to bring 5 litres to the boil and keep them at a simmer.",
    ...used("energy for 5 litres"),
  },
  taskTime: {
    label: "time for the task",
    meaning: "Corrected time to boil (mean of cold and hot start) and the simmer's duration.",
    ...took("for the task"),
  },
  highPowerThermalEfficiency: {
    label: "thermal efficiency, high power",
    meaning: "Mean of the cold start's and the hot start's thermal efficiency.",
    ...had("thermal efficiency at high power"),
  },
  turnDownRatio: {
    label: "turn-down ratio",
    meaning: "Firepower of the hot start over firepower of the simmer: how far the fire can be turned down.",
    ...had("turn-down ratio"),
  },
  highPowerCoPerEnergyDelivered: {
    label: "carbon monoxide per energy delivered, high power",
    meaning: "Mean over cold and hot start.",
    ...gave("carbon monoxide per energy delivered at high power"),
  },
  highPowerPm25PerEnergyDelivered: {
    label: "fine particles per energy delivered, high power",
    meaning: "Mean over cold and hot start.",
    ...gave("fine-particle mass per energy delivered at high power"),
  },
  meanIsoEfficiencyWithoutChar: {
    label: "efficiency without char credit, mean of levels",
    meaning: "Mean over high, medium and low power.",
    ...hadAn("efficiency (without char credit, mean of levels)"),
  },
  meanIsoEfficiencyWithChar: {
    label: "efficiency with char credit, mean of levels",
    meaning: "Mean over high, medium and low power.",
    ...hadAn("efficiency (with char credit, mean of levels)"),
  },
  meanCoPerEnergyDelivered: {
    label: "carbon monoxide per energy delivered, mean of levels",
    meaning: "Mean over high, medium and low power.",
    ...gave("carbon monoxide per energy delivered (mean of levels)"),
  },
  meanPm25PerEnergyDelivered: {
    label: "fine particles per energy delivered, mean of levels",
    meaning: "Mean over high, medium and low power.",
    ...gave("fine-particle mass per energy delivered (mean of levels)"),
  },
};

const phases: Record<PhaseName, string> = {
  "cold-start": "cold start",
  "hot-start": "hot start",
  simmer: "simmer",
  "high-power": "high power",
  "medium-power": "medium power",
  "low-power": "low power",
};

export const quantityWords = {
  of: quantities,
  phase: phases,
  /** "thermal efficiency, cold start". */
  labelInPhase: (label: string, phase: PhaseName) => `${label}, ${phases[phase]}`,
  /** After a finding's phrase: "used 9 % less dry wood in the cold start". */
  inPhase: (phrase: string, phase: PhaseName) =>
    `${phrase} ${phase.endsWith("power") ? "at" : "in the"} ${phases[phase]}`,
  formulaOnly: "formula only: these runs follow another method",
  formulaOnlyNote: (names: string) => `Formula only, as these runs follow another method: ${names}.`,
  methods: {
    wbt: "Water Boiling Test 4.2.3",
    iso: "ISO 19867-1:2018",
  },
};
