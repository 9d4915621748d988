import { describe, it } from "vitest";
import { resultsOf, valuesOf } from "../build/expect-quantities.ts";
import { buildSettings, type PhaseSheet, plainPhase } from "../build/readings.ts";
import { expectNumber } from "../numbers.ts";

const exact = { relative: 1e-9 };

function expectSome(actual: Readonly<Record<string, number>>, expected: Readonly<Record<string, number>>): void {
  for (const [name, value] of Object.entries(expected)) expectNumber(actual[name], value, exact);
}

function phaseValues(change: Partial<PhaseSheet>, settings = buildSettings()): Record<string, number> {
  return valuesOf(
    resultsOf({ run: "R", variant: "A", phases: [plainPhase("cold-start", change)] }, settings),
    "cold-start",
  );
}

describe("several pots (Water Boiling Test 4.2.3: sums over the pots weighed in the phase)", () => {
  const coldPots: PhaseSheet["pots"] = [
    { pot: 1, empty: 500, start: 3000, end: 2900, from: 25, to: 98 },
    { pot: 2, empty: 400, start: 2400, end: 2390, from: 25, to: 80 },
    { pot: 3, empty: 300, start: 1300, end: 1299, from: 26, to: 50 },
    { pot: 4, waterStart: 1500, waterEnd: 1495, from: 25, to: 60 },
  ];
  const hotPots: PhaseSheet["pots"] = [
    { pot: 1, empty: 500, start: 3000, end: 2880, from: 25, to: 98 },
    { pot: 2, empty: 400, start: 2400, end: 2400, from: 25, to: 70 },
  ];
  const results = resultsOf({
    run: "R",
    variant: "A",
    phases: [plainPhase("cold-start", { pots: coldPots }), plainPhase("hot-start", { pots: hotPots })],
  });

  it("adds up four pots, one of them weighed net; corrections go by pot 1 alone", () => {
    expectSome(valuesOf(results, "cold-start"), {
      // 100 + 10 + 1 + 5
      waterEvaporated: 116,
      // 2400 + 1990 + 999 + 1495
      waterRemaining: 6884,
      // 2400 * 73 / 73 + 1990 * 55 / 73 + 999 * 24 / 72 + 1495 * 35 / 73
      effectiveWaterBoiled: 4949.09589041096,
      // (4.186 * (2500 * 73 + 2000 * 55 + 1000 * 24 + 1500 * 35) + 2260 * 116) / 1000 = (4.186 * 369000 + 2260 * 116) / 1000
      heatGainedByWater: 1806.794,
      // (4.18 * 369000 + 2261.74159723762 * 116) / 1000, latent heat at 98 °C by IAPWS R7-97(2012), regions 1, 2 and 4
      isoUsefulEnergy: 1804.78202527956,
      // 25 * 75 / 73
      timeToBoilCorrected: 25.6849315068493,
      // EHV = 18500 * 0.9 - 0.1 * (4.186 * 73 + 2257) = 16393.7422; (600 * 16393.7422 - 60 * 29500) / 18500
      fuelConsumedDryEquivalent: 436.013260540541,
      // 1000 * 436.013260540541 / 4949.09589041096
      specificFuelConsumption: 88.0995782250514,
      // 88.0995782250514 * 75 / 73
      specificFuelConsumptionCorrected: 90.5132652997103,
      // 1806794 / 8066245.32
      thermalEfficiency: 0.223994427186601,
    });
  });

  it("counts in another phase only the pots that were there", () => {
    expectSome(valuesOf(results, "hot-start"), {
      // 120 + 0
      waterEvaporated: 120,
      // 2380 + 2000
      waterRemaining: 4380,
      // 2380 * 73 / 73 + 2000 * 45 / 73
      effectiveWaterBoiled: 3612.87671232877,
      // (4.186 * (2500 * 73 + 2000 * 45) + 2260 * 120) / 1000
      heatGainedByWater: 1411.885,
    });
  });

  it("gives the same for net masses as for masses with the pot", () => {
    const weighed = phaseValues({ pots: [{ empty: 512, start: 5512, end: 5330, from: 25, to: 97 }] });
    const net = phaseValues({ pots: [{ waterStart: 5000, waterEnd: 4818, from: 25, to: 97 }] });
    expectSome(net, weighed);
  });
});

describe("several fuels (each by its own effective calorific value, in terms of the first fuel's)", () => {
  const fuels: PhaseSheet["fuels"] = [
    { fuel: "pine", before: 1200, after: 700, wet: 12, gross: 20_000, hydrogen: 6.2 },
    { fuel: "kindling", before: 150, after: 20, dry: 8 },
    { fuel: "briquette", before: 90, after: 0, wet: 0, net: 15_000 },
  ];
  // The row's net value of the briquette wins over the settings'.
  const settings = buildSettings({ kindling: { gross: 19_500 }, briquette: { net: 99_999 }, pine: { net: 99_999 } });
  const sheet = plainPhase("cold-start", { fuels, char: 60, charNet: 31_000 });
  const results = resultsOf({ run: "R", variant: "A", phases: [sheet] }, settings);

  it("converts gross values with their hydrogen, and moisture from the dry basis", () => {
    expectSome(valuesOf(results, "cold-start"), {
      // 500 + 130 + 90
      fuelConsumedMoist: 720,
      // LHV = 20000 - 2442 * 8.936 * 0.062 = 18647.053856; EHV = LHV * 0.88 - 0.12 * (4.186 * 73 + 2257)
      effectiveCalorificValue: 16101.89803328,
      // Second: LHV = 19500 - 2442 * 8.936 * 0.06 = 18190.69728, m = 0.08 / 1.08, EHV = 16653.4176296296. Third: 15000.
      // (500 * 16101.89803328 + 130 * 16653.4176296296 + 90 * 15000 - 60 * 31000) / 18647.053856
      fuelConsumedDryEquivalent: 520.505458044184,
      // 9705893.30849185 / (60 * 25)
      firepower: 6470.59553899457,
      // As received: 500 * (18647.053856 * 0.88 - 2443 * 0.12)
      //   + 130 * (18190.69728 / 1.08 - 2443 * 0.08 / 1.08) + 90 * 15000 = 11574219.4803437; over 60 * 25
      isoFirepower: 7716.14632022914,
    });
  });

  it("notes the hydrogen that it assumed, of that fuel only", ({ expect }) => {
    expect(results.notes).toEqual([
      "Hydrogen of “kindling” was not given: 6 % of the dry fuel is taken to get the net from the gross calorific value.",
    ]);
  });
});

describe("local boiling point", () => {
  const effective = (change: Partial<PhaseSheet>) => {
    const { boiling: _, ...sheet } = plainPhase("cold-start", {
      fuels: [{ before: 1500, after: 900, wet: 50, net: 18_500 }],
      ...change,
    });
    const results = resultsOf({ run: "R", variant: "A", phases: [sheet] });
    // EHV = 18500 * 0.5 - 0.5 * (4.186 * (Tb - 25) + 2257), solved for Tb.
    const value = valuesOf(results, "cold-start").effectiveCalorificValue ?? Number.NaN;
    return 25 + ((9250 - value) / 0.5 - 2257) / 4.186;
  };

  it("follows from the pressure: 93.31667 °C at 79.5 kPa (IAPWS SR1-86(1992), eq. 1, solved apart from the program)", () => {
    expectNumber(effective({ pressure: 79.5 }), 93.3166669707, { absolute: 2e-4 });
    expectNumber(effective({ pressure: 101.325 }), 99.9742958054, { absolute: 2e-4 });
  });

  it("follows from the altitude: 93.31504 °C at 2000 m (79.4952 kPa by ISO 2533, then the same equation)", () => {
    expectNumber(effective({ altitude: 2000 }), 93.3150427918, { absolute: 2e-4 });
  });

  it("takes the measured one before the pressure, and the pressure before the altitude", () => {
    const measured = phaseValues({ boiling: 97, pressure: 79.5, altitude: 0 });
    expectNumber(measured.effectiveCalorificValue, phaseValues({ boiling: 97 }).effectiveCalorificValue ?? 0);
    expectNumber(effective({ pressure: 79.5, altitude: 0 }), 93.3166669707, { absolute: 2e-4 });
  });
});
