import { describe, expect, it } from "vitest";
import { expectQuantities, missingOf, resultsOf, valuesOf } from "../build/expect-quantities.ts";
import { buildSettings, type RunSheet } from "../build/readings.ts";

/**
 * An ISO 19867-1:2018 run of three levels worked by hand, arithmetic beside each line, computed apart from the program with 40
 * digits and written with 15. Beside the ISO quantities stand the Water Boiling Test's of each phase ("formula only").
 * The latent heat at 98 °C, 2261.74159723762 kJ/kg, is computed so from IAPWS R7-97(2012), IAPWS-IF97, regions 1, 2 and 4.
 *
 * One pot of 700 g; wood of 18 000 kJ/kg dry at 12.5 % moisture on the dry basis; char of 30 000 kJ/kg; air 22 °C, boiling 98 °C.
 * The 30 minutes of a level, 4.18 kJ/(kg K) and 2443 kJ/kg are from memory of the standards.
 */
const common = { air: 22, boiling: 98 } as const;
const wood = { fuel: "__proto__", dry: 12.5 } as const;
const run: RunSheet = {
  run: "I1",
  variant: "A",
  phases: [
    {
      ...common,
      phase: "high-power",
      start: 540,
      end: 570,
      boiledAt: 562.5,
      fuels: [{ ...wood, before: 1600, after: 760 }],
      char: 95,
      pots: [{ empty: 700, start: 5700, end: 4950, from: 22.4, to: 98.1 }],
      co: 14,
      pm25: 480,
    },
    {
      ...common,
      phase: "medium-power",
      start: 580,
      end: 610,
      boiledAt: 608,
      fuels: [{ ...wood, before: 1100, after: 640 }],
      char: 52,
      charAtStart: 12,
      pots: [{ empty: 700, start: 5700, end: 5390, from: 23, to: 97.9 }],
      co: 7.5,
      pm25: 250,
    },
    {
      ...common,
      phase: "low-power",
      start: 620,
      end: 650,
      fuels: [{ ...wood, before: 900, after: 610 }],
      char: { container: 180, withContainer: 180 },
      pots: [{ empty: 700, start: 5700, end: 5640, from: 23.5, to: 84 }],
      co: 4.8,
    },
  ],
};
// A fuel may be called anything: its name is data.
const fuels = Object.fromEntries([["__proto__", { net: 18_000 }]]);
const settings = buildSettings(fuels, { method: "iso", charNetCalorific: { value: 30_000, components: [] } });
const results = resultsOf(run, settings);

describe("an ISO 19867-1:2018 run worked by hand", () => {
  it("gives every quantity of high power", () => {
    expectQuantities(valuesOf(results, "high-power"), {
      // 1600 - 760
      fuelConsumedMoist: 840,
      // 95
      charFormed: 95,
      // moisture on the wet basis: 0.125 / (1 + 0.125) = 0.111111111111111
      // 18000 * (1 - 0.111111111111111) - 0.111111111111111 * (4.186 * (98 - 22) + 2257)
      effectiveCalorificValue: 15713.8737777778,
      // energy, J: 840 * 15713.8737777778 - 95 * 30000 = 10349653.9733333
      // 10349653.9733333 / 18000
      fuelConsumedDryEquivalent: 574.980776296296,
      // 5700 - 4950
      waterEvaporated: 750,
      // 4950 - 700
      waterRemaining: 4250,
      // (4.186 * (5700 - 700) * (98.1 - 22.4) + 2260 * 750) / 1000
      heatGainedByWater: 3279.401,
      // 1000 * 3279.401 / 10349653.9733333
      thermalEfficiency: 0.316860931626277,
      // 574.980776296296 / 30
      burningRate: 19.1660258765432,
      // 10349653.9733333 / (60 * 30)
      firepower: 5749.80776296296,
      // 1000 * 3279.401 / (60 * 30)
      cookingPower: 1821.88944444444,
      // 30
      duration: 30,
      // 562.5 - 540
      timeToBoil: 22.5,
      // useful energy Q1, J: 4.18 * (5700 - 700) * (98.1 - 22.4) + 2261.74159723762 * 750 = 3278436.19792821
      // 3278436.19792821 / 1000
      isoUsefulEnergy: 3278.43619792821,
      // net value as received, kJ/kg: 18000 * (1 - 0.111111111111111) - 2443 * 0.111111111111111 = 15728.5555555556
      // energy as received, J: 840 * 15728.5555555556 = 13211986.6666667
      // 3278436.19792821 / 13211986.6666667
      isoEfficiencyWithoutChar: 0.248141046508893,
      // 3278436.19792821 / (13211986.6666667 - 95 * 30000)
      isoEfficiencyWithChar: 0.316390698366227,
      // 13211986.6666667 / (60 * 30)
      isoFirepower: 7339.99259259259,
      // 3278436.19792821 / (60 * 30)
      isoCookingPower: 1821.35344329345,
      // 14 / (3278.43619792821 / 1000)
      coPerEnergyDelivered: 4.27032864292043,
      // 14 / 30
      coRate: 0.466666666666667,
      // 14 / (30 * 4250 / 1000)
      coRatePerLitre: 0.109803921568627,
      // 14 / (574.980776296296 / 1000)
      coPerDryFuel: 24.3486401235536,
      // 480 / (3278.43619792821 / 1000)
      pm25PerEnergyDelivered: 146.411267757272,
      // 480 / 30
      pm25Rate: 16,
      // 480 / (30 * 4250 / 1000)
      pm25RatePerLitre: 3.76470588235294,
      // 480 / (574.980776296296 / 1000)
      pm25PerDryFuel: 834.810518521838,
    });
  });

  it("gives every quantity of medium power", () => {
    expectQuantities(valuesOf(results, "medium-power"), {
      // 1100 - 640
      fuelConsumedMoist: 460,
      // 52 - 12
      charFormed: 40,
      // moisture on the wet basis: 0.125 / (1 + 0.125) = 0.111111111111111
      // 18000 * (1 - 0.111111111111111) - 0.111111111111111 * (4.186 * (98 - 22) + 2257)
      effectiveCalorificValue: 15713.8737777778,
      // energy, J: 460 * 15713.8737777778 - 40 * 30000 = 6028381.93777778
      // 6028381.93777778 / 18000
      fuelConsumedDryEquivalent: 334.910107654321,
      // 5700 - 5390
      waterEvaporated: 310,
      // 5390 - 700
      waterRemaining: 4690,
      // (4.186 * (5700 - 700) * (97.9 - 23) + 2260 * 310) / 1000
      heatGainedByWater: 2268.257,
      // 1000 * 2268.257 / 6028381.93777778
      thermalEfficiency: 0.376262987881644,
      // 334.910107654321 / 30
      burningRate: 11.163670255144,
      // 6028381.93777778 / (60 * 30)
      firepower: 3349.10107654321,
      // 1000 * 2268.257 / (60 * 30)
      cookingPower: 1260.14277777778,
      // 30
      duration: 30,
      // 608 - 580
      timeToBoil: 28,
      // useful energy Q1, J: 4.18 * (5700 - 700) * (97.9 - 23) + 2261.74159723762 * 310 = 2266549.89514366
      // 2266549.89514366 / 1000
      isoUsefulEnergy: 2266.54989514366,
      // net value as received, kJ/kg: 18000 * (1 - 0.111111111111111) - 2443 * 0.111111111111111 = 15728.5555555556
      // energy as received, J: 460 * 15728.5555555556 = 7235135.55555556
      // 2266549.89514366 / 7235135.55555556
      isoEfficiencyWithoutChar: 0.313269858973585,
      // 2266549.89514366 / (7235135.55555556 - 40 * 30000)
      isoEfficiencyWithChar: 0.375559069763929,
      // 7235135.55555556 / (60 * 30)
      isoFirepower: 4019.51975308642,
      // 2266549.89514366 / (60 * 30)
      isoCookingPower: 1259.19438619092,
      // 7.5 / (2266.54989514366 / 1000)
      coPerEnergyDelivered: 3.30899399835388,
      // 7.5 / 30
      coRate: 0.25,
      // 7.5 / (30 * 4690 / 1000)
      coRatePerLitre: 0.0533049040511727,
      // 7.5 / (334.910107654321 / 1000)
      coPerDryFuel: 22.394068822017,
      // 250 / (2266.54989514366 / 1000)
      pm25PerEnergyDelivered: 110.299799945129,
      // 250 / 30
      pm25Rate: 8.33333333333333,
      // 250 / (30 * 4690 / 1000)
      pm25RatePerLitre: 1.77683013503909,
      // 250 / (334.910107654321 / 1000)
      pm25PerDryFuel: 746.468960733901,
    });
  });

  it("gives every quantity of low power", () => {
    expectQuantities(valuesOf(results, "low-power"), {
      // 900 - 610
      fuelConsumedMoist: 290,
      // 0
      charFormed: 0,
      // moisture on the wet basis: 0.125 / (1 + 0.125) = 0.111111111111111
      // 18000 * (1 - 0.111111111111111) - 0.111111111111111 * (4.186 * (98 - 22) + 2257)
      effectiveCalorificValue: 15713.8737777778,
      // energy, J: 290 * 15713.8737777778 - 0 * 30000 = 4557023.39555556
      // 4557023.39555556 / 18000
      fuelConsumedDryEquivalent: 253.167966419753,
      // 5700 - 5640
      waterEvaporated: 60,
      // 5640 - 700
      waterRemaining: 4940,
      // (4.186 * (5700 - 700) * (84 - 23.5) + 2260 * 60) / 1000
      heatGainedByWater: 1401.865,
      // 1000 * 1401.865 / 4557023.39555556
      thermalEfficiency: 0.307627343183542,
      // 253.167966419753 / 30
      burningRate: 8.43893221399177,
      // 4557023.39555556 / (60 * 30)
      firepower: 2531.67966419753,
      // 1000 * 1401.865 / (60 * 30)
      cookingPower: 778.813888888889,
      // 30
      duration: 30,
      // useful energy Q1, J: 4.18 * (5700 - 700) * (84 - 23.5) + 2261.74159723762 * 60 = 1400154.49583426
      // 1400154.49583426 / 1000
      isoUsefulEnergy: 1400.15449583426,
      // net value as received, kJ/kg: 18000 * (1 - 0.111111111111111) - 2443 * 0.111111111111111 = 15728.5555555556
      // energy as received, J: 290 * 15728.5555555556 = 4561281.11111111
      // 1400154.49583426 / 4561281.11111111
      isoEfficiencyWithoutChar: 0.30696518406277,
      // 1400154.49583426 / (4561281.11111111 - 0 * 30000)
      isoEfficiencyWithChar: 0.30696518406277,
      // 4561281.11111111 / (60 * 30)
      isoFirepower: 2534.0450617284,
      // 1400154.49583426 / (60 * 30)
      isoCookingPower: 777.863608796809,
      // 4.8 / (1400.15449583426 / 1000)
      coPerEnergyDelivered: 3.42819311317499,
      // 4.8 / 30
      coRate: 0.16,
      // 4.8 / (30 * 4940 / 1000)
      coRatePerLitre: 0.0323886639676113,
      // 4.8 / (253.167966419753 / 1000)
      coPerDryFuel: 18.9597446623306,
    });
  });

  it("gives every quantity of the run as a whole", () => {
    expectQuantities(valuesOf(results, "run"), {
      // (0.248141046508893 + 0.313269858973585 + 0.30696518406277) / 3
      meanIsoEfficiencyWithoutChar: 0.289458696515083,
      // (0.316390698366227 + 0.375559069763929 + 0.30696518406277) / 3
      meanIsoEfficiencyWithChar: 0.332971650730975,
      // (4.27032864292043 + 3.30899399835388 + 3.42819311317499) / 3
      meanCoPerEnergyDelivered: 3.66917191814977,
    });
  });

  it("has no time to boil of a level that did not boil, and no mean of particles where a level did not measure them", () => {
    expect(missingOf(results, "high-power")).toEqual({});
    expect(missingOf(results, "medium-power")).toEqual({});
    expect(missingOf(results, "low-power")).toEqual({});
    expect(missingOf(results, "run")).toEqual({ meanPm25PerEnergyDelivered: "low-power: notMeasured" });
    expect(results.notes).toEqual([]);
  });

  it("asks for the moment it boiled at high power: the level's length is not a time to boil", () => {
    const [high, ...others] = run.phases;
    if (high === undefined) throw new Error("no high power");
    const { boiledAt: _, ...unobserved } = high;
    const withoutMoment = resultsOf({ ...run, phases: [unobserved, ...others] }, settings);
    expect(missingOf(withoutMoment, "high-power")).toEqual({ timeToBoil: "noBoiledAt" });
    expect(valuesOf(withoutMoment, "high-power")).not.toHaveProperty("timeToBoil");
  });

  it("names the level that is missing", () => {
    const partial = resultsOf({ ...run, phases: run.phases.slice(0, 2) }, settings);
    expect(missingOf(partial, "run")).toEqual({
      meanIsoEfficiencyWithoutChar: "noPhase low-power",
      meanIsoEfficiencyWithChar: "noPhase low-power",
      meanCoPerEnergyDelivered: "noPhase low-power",
      meanPm25PerEnergyDelivered: "noPhase low-power",
    });
    expect(valuesOf(partial, "run")).toEqual({});
  });
});
