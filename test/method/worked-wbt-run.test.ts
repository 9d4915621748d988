import { describe, expect, it } from "vitest";
import { expectQuantities, resultsOf, valuesOf } from "../build/expect-quantities.ts";
import { buildSettings, type RunSheet } from "../build/readings.ts";

/**
 * A whole Water Boiling Test worked by hand after the formulas of the protocol, version 4.2.3 (2014), and for the ISO formulas
 * after ISO 19867-1:2018. Every line's arithmetic stands beside it, computed apart from the program with 40 digits and written
 * with 15; the latent heat at 98 °C, 2261.74159723762 kJ/kg, was computed so from IAPWS R7-97(2012), regions 1, 2 and 4.
 *
 * One pot of 512 g; dry eucalyptus of 18 400 kJ/kg at 10 % moisture (wet basis); char of 29 500 kJ/kg; air 24 °C, boiling 98 °C.
 */
const common = { air: 24, boiling: 98 } as const;
const wood = { fuel: "dry eucalyptus", wet: 10 } as const;
const workedRun: RunSheet = {
  run: "R1",
  variant: "A",
  phases: [
    {
      ...common,
      phase: "cold-start",
      start: 8 * 60,
      end: 8 * 60 + 26,
      fuels: [{ ...wood, before: 1520, after: 805 }],
      char: { container: 250, withContainer: 320 },
      pots: [{ empty: 512, start: 5520, end: 5330, from: 24.5, to: 97.6 }],
      co: 12.5,
      pm25: 640,
    },
    {
      ...common,
      phase: "hot-start",
      minutes: 21.5,
      fuels: [{ ...wood, before: 1310, after: 700 }],
      char: { container: 250, withContainer: 311 },
      pots: [{ empty: 512, start: 5498, end: 5318, from: 25, to: 97.8 }],
      co: 10.2,
      pm25: 512,
    },
    {
      ...common,
      phase: "simmer",
      // Past midnight: 23:40 to 0:25.
      start: 23 * 60 + 40,
      end: 24 * 60 + 25,
      fuels: [{ ...wood, before: 900, after: 455 }],
      char: { container: 250, withContainer: 336 },
      pots: [{ empty: 512, start: 5318, end: 4466, from: 97.2, to: 95.8 }],
      co: 8.4,
      pm25: 300,
    },
  ],
};
const results = resultsOf(workedRun, buildSettings({ "dry eucalyptus": { net: 18_400 } }));

describe("a Water Boiling Test worked by hand", () => {
  it("gives every quantity of the cold start", () => {
    expectQuantities(valuesOf(results, "cold-start"), {
      // 1520 - 805
      fuelConsumedMoist: 715,
      // 320 - 250
      charFormed: 70,
      // 18400 * (1 - 0.1) - 0.1 * (4.186 * (98 - 24) + 2257)
      effectiveCalorificValue: 16303.3236,
      // energy of the wood less that of the char, J: 715 * 16303.3236 - 70 * 29500 = 9591876.374
      // 9591876.374 / 18400
      fuelConsumedDryEquivalent: 521.297629021739,
      // 5520 - 5330
      waterEvaporated: 190,
      // 5330 - 512
      waterRemaining: 4818,
      // heat, J: 4.186 * (5520 - 512) * (97.6 - 24.5) + 2260 * 190 = 1961830.9728
      // 1961830.9728 / 1000
      heatGainedByWater: 1961.8309728,
      // 1961830.9728 / 9591876.374
      thermalEfficiency: 0.204530468941175,
      // 521.297629021739 / 26
      burningRate: 20.0499088085284,
      // 9591876.374 / (60 * 26)
      firepower: 6148.63870128205,
      // 1961830.9728 / (60 * 26)
      cookingPower: 1257.58395692308,
      // 26
      duration: 26,
      // 4818 * (97.6 - 24.5) / (98 - 24.5)
      effectiveWaterBoiled: 4791.77959183673,
      // 1000 * 521.297629021739 / 4791.77959183673
      specificFuelConsumption: 108.789984812703,
      // 108.789984812703 * 18400 / 1000
      specificEnergyConsumption: 2001.73572055374,
      // 26
      timeToBoil: 26,
      // 26 * 75 / (97.6 - 24.5)
      timeToBoilCorrected: 26.6757865937073,
      // 108.789984812703 * 75 / (97.6 - 24.5)
      specificFuelConsumptionCorrected: 111.617631476782,
      // 111.617631476782 * 18400 / 1000
      specificEnergyConsumptionCorrected: 2053.76441917278,
      // useful energy, J: 4.18 * (5520 - 512) * (97.6 - 24.5) + 2261.74159723762 * 190 = 1959965.36747515
      // 1959965.36747515 / 1000
      isoUsefulEnergy: 1959.96536747515,
      // net value as received, kJ/kg: 18400 * (1 - 0.1) - 2443 * 0.1 = 16315.7
      // energy of the wood as received, J: 715 * 16315.7 = 11665725.5
      // 1959965.36747515 / 11665725.5
      isoEfficiencyWithoutChar: 0.168010585151789,
      // 1959965.36747515 / (11665725.5 - 70 * 29500)
      isoEfficiencyWithChar: 0.204147631080083,
      // 11665725.5 / (60 * 26)
      isoFirepower: 7478.02916666667,
      // 1959965.36747515 / (60 * 26)
      isoCookingPower: 1256.38805607381,
      // 12.5 / (1961.8309728 / 1000)
      coPerEnergyDelivered: 6.37159886519659,
      // 12.5 / 26
      coRate: 0.480769230769231,
      // 12.5 / (26 * 4818 / 1000)
      coRatePerLitre: 0.0997860586901683,
      // 12.5 / (521.297629021739 / 1000)
      coPerDryFuel: 23.9786243099884,
      // 640 / (1961.8309728 / 1000)
      pm25PerEnergyDelivered: 326.225861898065,
      // 640 / 26
      pm25Rate: 24.6153846153846,
      // 640 / (26 * 4818 / 1000)
      pm25RatePerLitre: 5.10904620493662,
      // 640 / (521.297629021739 / 1000)
      pm25PerDryFuel: 1227.70556467141,
    });
  });

  it("gives every quantity of the hot start", () => {
    expectQuantities(valuesOf(results, "hot-start"), {
      // 1310 - 700
      fuelConsumedMoist: 610,
      // 311 - 250
      charFormed: 61,
      // 18400 * (1 - 0.1) - 0.1 * (4.186 * (98 - 24) + 2257)
      effectiveCalorificValue: 16303.3236,
      // energy of the wood less that of the char, J: 610 * 16303.3236 - 61 * 29500 = 8145527.396
      // 8145527.396 / 18400
      fuelConsumedDryEquivalent: 442.691706304348,
      // 5498 - 5318
      waterEvaporated: 180,
      // 5318 - 512
      waterRemaining: 4806,
      // heat, J: 4.186 * (5498 - 512) * (97.8 - 25) + 2260 * 180 = 1926237.6288
      // 1926237.6288 / 1000
      heatGainedByWater: 1926.2376288,
      // 1926237.6288 / 8145527.396
      thermalEfficiency: 0.236477951046597,
      // 442.691706304348 / 21.5
      burningRate: 20.5903119211325,
      // 8145527.396 / (60 * 21.5)
      firepower: 6314.36232248062,
      // 1926237.6288 / (60 * 21.5)
      cookingPower: 1493.20746418605,
      // 21.5
      duration: 21.5,
      // 4806 * (97.8 - 25) / (98 - 25)
      effectiveWaterBoiled: 4792.83287671233,
      // 1000 * 442.691706304348 / 4792.83287671233
      specificFuelConsumption: 92.3653542053014,
      // 92.3653542053014 * 18400 / 1000
      specificEnergyConsumption: 1699.52251737755,
      // 21.5
      timeToBoil: 21.5,
      // 21.5 * 75 / (97.8 - 25)
      timeToBoilCorrected: 22.1497252747253,
      // 92.3653542053014 * 75 / (97.8 - 25)
      specificFuelConsumptionCorrected: 95.1566149093077,
      // 95.1566149093077 * 18400 / 1000
      specificEnergyConsumptionCorrected: 1750.88171433126,
      // useful energy, J: 4.18 * (5498 - 512) * (97.8 - 25) + 2261.74159723762 * 180 = 1924373.23150277
      // 1924373.23150277 / 1000
      isoUsefulEnergy: 1924.37323150277,
      // net value as received, kJ/kg: 18400 * (1 - 0.1) - 2443 * 0.1 = 16315.7
      // energy of the wood as received, J: 610 * 16315.7 = 9952577.0
      // 1924373.23150277 / 9952577.0
      isoEfficiencyWithoutChar: 0.193354267091103,
      // 1924373.23150277 / (9952577 - 61 * 29500)
      isoEfficiencyWithChar: 0.236030302608791,
      // 9952577 / (60 * 21.5)
      isoFirepower: 7715.17596899225,
      // 1924373.23150277 / (60 * 21.5)
      isoCookingPower: 1491.76219496339,
      // 10.2 / (1926.2376288 / 1000)
      coPerEnergyDelivered: 5.2952968250103,
      // 10.2 / 21.5
      coRate: 0.474418604651163,
      // 10.2 / (21.5 * 4806 / 1000)
      coRatePerLitre: 0.0987138170310368,
      // 10.2 / (442.691706304348 / 1000)
      coPerDryFuel: 23.0408653578605,
      // 512 / (1926.2376288 / 1000)
      pm25PerEnergyDelivered: 265.803134745615,
      // 512 / 21.5
      pm25Rate: 23.8139534883721,
      // 512 / (21.5 * 4806 / 1000)
      pm25RatePerLitre: 4.95504650195008,
      // 512 / (442.691706304348 / 1000)
      pm25PerDryFuel: 1156.56108462986,
    });
  });

  it("gives every quantity of the simmer", () => {
    expectQuantities(valuesOf(results, "simmer"), {
      // 900 - 455
      fuelConsumedMoist: 445,
      // 336 - 250 - (311 - 250)
      charFormed: 25,
      // 18400 * (1 - 0.1) - 0.1 * (4.186 * (98 - 24) + 2257)
      effectiveCalorificValue: 16303.3236,
      // energy of the wood less that of the char, J: 445 * 16303.3236 - 25 * 29500 = 6517479.002
      // 6517479.002 / 18400
      fuelConsumedDryEquivalent: 354.210815326087,
      // 5318 - 4466
      waterEvaporated: 852,
      // 4466 - 512
      waterRemaining: 3954,
      // heat, J: 4.186 * (5318 - 512) * (95.8 - 97.2) + 2260 * 852 = 1897354.9176
      // 1897354.9176 / 1000
      heatGainedByWater: 1897.3549176,
      // 1897354.9176 / 6517479.002
      thermalEfficiency: 0.291117917989113,
      // 354.210815326087 / 45
      burningRate: 7.87135145169082,
      // 6517479.002 / (60 * 45)
      firepower: 2413.88111185185,
      // 1897354.9176 / (60 * 45)
      cookingPower: 702.724043555556,
      // 45
      duration: 45,
      // 1000 * 354.210815326087 / 3954.0
      specificFuelConsumption: 89.58290726507,
      // 89.58290726507 * 18400 / 1000
      specificEnergyConsumption: 1648.32549367729,
      // 354.210815326087 * 18400 / (1000 * 3954 * 45)
      lowPowerSpecificEnergyRate: 0.0366294554150509,
      // useful energy, J: 4.18 * (5318 - 512) * (95.8 - 97.2) + 2261.74159723762 * 852 = 1898879.12884645
      // 1898879.12884645 / 1000
      isoUsefulEnergy: 1898.87912884645,
      // net value as received, kJ/kg: 18400 * (1 - 0.1) - 2443 * 0.1 = 16315.7
      // energy of the wood as received, J: 445 * 16315.7 = 7260486.5
      // 1898879.12884645 / 7260486.5
      isoEfficiencyWithoutChar: 0.261536073215817,
      // 1898879.12884645 / (7260486.5 - 25 * 29500)
      isoEfficiencyWithChar: 0.29110578855965,
      // 7260486.5 / (60 * 45)
      isoFirepower: 2689.06907407407,
      // 1898879.12884645 / (60 * 45)
      isoCookingPower: 703.288566239426,
      // 8.4 / (1897.3549176 / 1000)
      coPerEnergyDelivered: 4.42721597423919,
      // 8.4 / 45
      coRate: 0.186666666666667,
      // 8.4 / (45 * 3954 / 1000)
      coRatePerLitre: 0.0472095767998651,
      // 8.4 / (354.210815326087 / 1000)
      coPerDryFuel: 23.7146909031192,
      // 300 / (1897.3549176 / 1000)
      pm25PerEnergyDelivered: 158.114856222828,
      // 300 / 45
      pm25Rate: 6.66666666666667,
      // 300 / (45 * 3954 / 1000)
      pm25RatePerLitre: 1.6860563142809,
      // 300 / (354.210815326087 / 1000)
      pm25PerDryFuel: 846.953246539973,
    });
  });

  it("gives every quantity of the run as a whole", () => {
    expectQuantities(valuesOf(results, "run"), {
      // 6314.36232248062 / 2413.88111185185
      turnDownRatio: 2.61585472933108,
      // (0.204530468941175 + 0.236477951046597) / 2
      highPowerThermalEfficiency: 0.220504209993886,
      // 5 * ((111.617631476782 + 95.1566149093077) / 2 + 89.58290726507)
      taskFuel5L: 964.850152290574,
      // 5 * ((2053.76441917278 + 1750.88171433126) / 2 + 1648.32549367729)
      taskEnergy5L: 17753.2428021465,
      // (26.6757865937073 + 22.1497252747253) / 2 + 45
      taskTime: 69.4127559342163,
      // (6.37159886519659 + 5.2952968250103) / 2
      highPowerCoPerEnergyDelivered: 5.83344784510344,
      // (326.225861898065 + 265.803134745615) / 2
      highPowerPm25PerEnergyDelivered: 296.01449832184,
    });
  });

  it("misses nothing, and notes whose char the simmer began with", () => {
    expect(results.phases.map(({ missing }) => missing)).toEqual([[], [], []]);
    expect(results.missing).toEqual([]);
    expect(results.notes).toEqual(["Simmer: the char at its start is taken from the end of the hot start."]);
    expect(results.phases.map(({ phase }) => phase)).toEqual(["cold-start", "hot-start", "simmer"]);
  });
});
