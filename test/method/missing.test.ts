import { describe, expect, it } from "vitest";
import { wordsFor } from "../../core/words/index.ts";
import { missingOf, resultsOf, valuesOf } from "../build/expect-quantities.ts";
import { buildSettings, type PhaseSheet, plainPhase, plainRun } from "../build/readings.ts";
import { expectNumber } from "../numbers.ts";

/** What is missing where one reading of an otherwise whole phase is not there. */
function without(name: keyof PhaseSheet, phase: PhaseSheet["phase"] = "cold-start"): Record<string, string> {
  const { [name]: _, ...sheet } = plainPhase(phase);
  return missingOf(resultsOf({ run: "R", variant: "A", phases: [sheet as PhaseSheet] }), phase);
}

function changed(change: Partial<PhaseSheet>, phase: PhaseSheet["phase"] = "cold-start"): Record<string, string> {
  return missingOf(resultsOf({ run: "R", variant: "A", phases: [plainPhase(phase, change)] }), phase);
}

const all = (names: readonly string[], code: string) => Object.fromEntries(names.map((name) => [name, code]));

const fuelByWbt = [
  "burningRate",
  "firepower",
  "fuelConsumedDryEquivalent",
  "specificEnergyConsumption",
  "specificFuelConsumption",
  "thermalEfficiency",
];
const fuelAtBoiling = [...fuelByWbt, "specificEnergyConsumptionCorrected", "specificFuelConsumptionCorrected"];
const fuelByIso = ["isoEfficiencyWithChar", "isoEfficiencyWithoutChar", "isoFirepower"];
const pot = { empty: 600, start: 5600, end: 5400, from: 25, to: 98 };

describe("a missing reading leaves out what needs it, with the reason, and nothing else", () => {
  it("air temperature: the effective calorific value and what is built on it", () => {
    expect(without("air")).toEqual(all(["effectiveCalorificValue", ...fuelAtBoiling], "noAirTemperature"));
  });

  it("boiling point: also effective water and the latent heat of the ISO formulas", () => {
    const iso = ["isoUsefulEnergy", "isoCookingPower", "isoEfficiencyWithChar", "isoEfficiencyWithoutChar"];
    expect(without("boiling")).toEqual(
      all(["effectiveCalorificValue", "effectiveWaterBoiled", ...fuelAtBoiling, ...iso], "noBoilingPoint"),
    );
  });

  it("pressure or altitude that the water formulas do not cover", () => {
    const { boiling: _, ...sheet } = plainPhase("simmer");
    const at = (change: Partial<PhaseSheet>) =>
      missingOf(resultsOf({ run: "R", variant: "A", phases: [{ ...sheet, ...change }] }), "simmer");
    expect(at({ pressure: 0.5 }).effectiveCalorificValue).toBe("pressureOutOfRange");
    expect(at({ pressure: 25_000 }).isoUsefulEnergy).toBe("pressureOutOfRange");
    expect(at({ altitude: 11_500 }).firepower).toBe("pressureOutOfRange");
    expect(at({ altitude: 11_000 }).firepower).toBeUndefined();
  });

  it.each(["moisture", "calorific"] as const)("%s of any one fuel, named", (what) => {
    const second = { fuel: "bark", before: 90, after: 40, ...(what === "moisture" ? { net: 17_000 } : { wet: 12 }) };
    const [first] = plainPhase("simmer").fuels;
    if (first === undefined) throw new Error("no fuel");
    const results = resultsOf({ run: "R", variant: "A", phases: [plainPhase("simmer", { fuels: [first, second] })] });
    const code = what === "moisture" ? "noMoisture" : "noCalorific";
    expect(missingOf(results, "simmer")).toEqual(all([...fuelByWbt, "lowPowerSpecificEnergyRate", ...fuelByIso], code));
    // The first fuel's own effective calorific value is still there.
    expect(valuesOf(results, "simmer")).toHaveProperty("effectiveCalorificValue");
    const reason = results.phases[0]?.missing[0]?.reason;
    if (reason === undefined) throw new Error("nothing missing");
    expect(wordsFor("en").missing.because(reason, null)).toContain("“bark”");
  });

  it("a fuel without a name", () => {
    expect(changed({ fuels: [{ before: 500, after: 100, wet: 10 }] }).firepower).toBe("noCalorific");
  });
});

describe("a reading that leaves no meaning gives the true reason", () => {
  it("no water left", () => {
    expect(changed({ pots: [{ ...pot, end: 600 }] })).toEqual(
      all(
        [
          "specificEnergyConsumption",
          "specificEnergyConsumptionCorrected",
          "specificFuelConsumption",
          "specificFuelConsumptionCorrected",
        ],
        "noWaterLeft",
      ),
    );
    const simmer = { pots: [{ ...pot, end: 600, from: 97, to: 96 }] };
    expect(changed({ ...simmer, co: 2 }, "simmer")).toEqual(
      all(
        ["specificEnergyConsumption", "specificFuelConsumption", "lowPowerSpecificEnergyRate", "coRatePerLitre"],
        "noWaterLeft",
      ),
    );
  });

  it("water that did not get warmer, which is not the same as no water left", () => {
    expect(changed({ pots: [{ ...pot, to: 25 }] })).toEqual(
      all(
        [
          "specificEnergyConsumption",
          "specificEnergyConsumptionCorrected",
          "specificFuelConsumption",
          "specificFuelConsumptionCorrected",
          "timeToBoilCorrected",
        ],
        "noTemperatureRise",
      ),
    );
  });

  it("water that was at boiling from the start", () => {
    const missing = changed({ pots: [{ ...pot, from: 98, to: 98.5 }] });
    expect(missing.effectiveWaterBoiled).toBe("startedAtBoiling");
    expect(missing.specificFuelConsumption).toBe("startedAtBoiling");
    expect(missing).not.toHaveProperty("timeToBoilCorrected");
  });

  it("no fuel used, which is not the char's doing", () => {
    const [fuel] = plainPhase("cold-start").fuels;
    if (fuel === undefined) throw new Error("no fuel");
    const missing = changed({ fuels: [{ ...fuel, after: fuel.before }], char: 0, co: 3 });
    expect(missing).toEqual({
      ...all(["thermalEfficiency", "isoEfficiencyWithChar", "isoEfficiencyWithoutChar"], "noFuelEnergy"),
      coPerDryFuel: "noEnergyFromFuel",
    });
  });

  it("char that holds all the energy of the fuel", () => {
    // 600 g at 16.4 kJ/g is 9836 kJ, 400 g of char at 29.5 kJ/g 11 800 kJ.
    expect(changed({ char: 400 })).toEqual(all(["thermalEfficiency", "isoEfficiencyWithChar"], "noEnergyFromFuel"));
  });

  it("no heat gained, for emissions per energy delivered", () => {
    // 5000 g * 4.186 * -1 K + 2260 * 5 g < 0
    const cooled = { pots: [{ ...pot, end: 5595, from: 97, to: 96 }], co: 2, pm25: 3 };
    expect(changed(cooled, "simmer")).toEqual(all(["coPerEnergyDelivered", "pm25PerEnergyDelivered"], "noHeatGained"));
  });

  it("a simmer without firepower, for the turn-down ratio", () => {
    const sheet = plainRun("R", "A");
    const [cold, hot] = sheet.phases;
    if (cold === undefined || hot === undefined) throw new Error("no phases");
    const simmer = plainPhase("simmer", { charAtStart: 60, char: 400 });
    const results = resultsOf({ ...sheet, phases: [cold, hot, simmer] });
    expect(missingOf(results, "run")).toEqual({ turnDownRatio: "noFirepower" });
  });

  it("a result too large to be a number: never Infinity", () => {
    const [fuel] = plainPhase("cold-start").fuels;
    if (fuel === undefined) throw new Error("no fuel");
    const results = resultsOf({
      run: "R",
      variant: "A",
      phases: [plainPhase("cold-start", { fuels: [{ ...fuel, before: 1e305, after: 0 }] })],
    });
    expect(missingOf(results, "cold-start").fuelConsumedDryEquivalent).toBe("tooLarge");
    expect(Object.values(valuesOf(results, "cold-start")).every(Number.isFinite)).toBe(true);
  });
});

describe("a run with a phase missing gives what can be computed, and says which results are missing and why", () => {
  const reasons = (kept: readonly number[]) => {
    const sheet = plainRun("R", "A");
    return resultsOf({ ...sheet, phases: sheet.phases.filter((_, index) => kept.includes(index)) });
  };
  const task = ["taskFuel5L", "taskEnergy5L", "taskTime"];

  it("no simmer", () => {
    const results = reasons([0, 1]);
    expect(missingOf(results, "run")).toEqual(all([...task, "turnDownRatio"], "noPhase simmer"));
    expect(Object.keys(valuesOf(results, "run"))).toEqual(["highPowerThermalEfficiency"]);
  });

  it("no hot start", () => {
    expect(missingOf(reasons([0, 2]), "run")).toEqual(
      all([...task, "highPowerThermalEfficiency", "turnDownRatio"], "noPhase hot-start"),
    );
  });

  it("no cold start", () => {
    const results = reasons([1, 2]);
    expect(missingOf(results, "run")).toEqual(all([...task, "highPowerThermalEfficiency"], "noPhase cold-start"));
    expect(Object.keys(valuesOf(results, "run"))).toEqual(["turnDownRatio"]);
  });

  it("a reading missing within a phase: the run names the phase", () => {
    const sheet = plainRun("R", "A");
    const [cold, hot, simmer] = sheet.phases;
    if (cold === undefined || hot === undefined || simmer === undefined) throw new Error("no phases");
    const { air: _, ...hotWithoutAir } = hot;
    expect(missingOf(resultsOf({ ...sheet, phases: [cold, hotWithoutAir, simmer] }), "run")).toEqual(
      all(["taskFuel5L", "taskEnergy5L", "highPowerThermalEfficiency", "turnDownRatio"], "hot-start: noAirTemperature"),
    );
  });

  it("emissions measured in one phase only", () => {
    const sheet = plainRun("R", "A");
    const phases = sheet.phases.map((phase, index) => (index === 0 ? { ...phase, co: 12 } : phase));
    const results = resultsOf({ ...sheet, phases });
    expect(missingOf(results, "run")).toEqual({ highPowerCoPerEnergyDelivered: "hot-start: notMeasured" });
    expect(valuesOf(results, "hot-start")).not.toHaveProperty("coRate");
  });

  it("a run without any phase", () => {
    const results = resultsOf({ run: "R", variant: "A", phases: [] });
    expect(valuesOf(results, "run")).toEqual({});
    expect(Object.keys(missingOf(results, "run"))).toHaveLength(5);
  });

  it("has words for every reason, that can stand after a colon", () => {
    const { missing } = wordsFor("en");
    expect(missing.because({ code: "noPhase", phase: "simmer" }, null)).toBe("no simmer phase");
    expect(missing.because({ code: "noChar" }, "hot-start")).toBe("hot start: no char was weighed");
    expect(missing.because({ code: "noCalorific", fuel: null }, null)).toBe(
      "no calorific value of the fuel, in the row or in the settings",
    );
  });
});

describe("phase settings", () => {
  it("a row's char calorific value wins over the settings'", () => {
    const settings = buildSettings({}, { charNetCalorific: { value: 30_000, components: [] } });
    const dry = (change: Partial<PhaseSheet>) =>
      valuesOf(
        resultsOf({ run: "R", variant: "A", phases: [plainPhase("cold-start", change)] }, settings),
        "cold-start",
      ).fuelConsumedDryEquivalent ?? Number.NaN;
    // 60 g of char: 60 * (30 000 - 29 500) / 18 500 g more dry fuel with the lower value.
    expectNumber(dry({ charNet: 29_500 }) - dry({}), (60 * 500) / 18_500, { relative: 1e-9 });
  });
});
