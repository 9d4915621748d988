import { describe, expect, it } from "vitest";
import { constants } from "../../core/quantity/constants.ts";
import { allQuantityKeys, keyText, parseKey } from "../../core/quantity/quantity-key.ts";
import { phaseQuantityNames, runQuantityNames } from "../../core/quantity/quantity-name.ts";
import { quantityEntry, quantityTable } from "../../core/quantity/quantity-table.ts";
import { tierSchemes } from "../../core/rating/tiers.ts";
import { expectNumber } from "../numbers.ts";

const table = quantityTable("en");

describe("the table of quantities", () => {
  it("has each quantity once", () => {
    const names = [...phaseQuantityNames, ...runQuantityNames];
    expect(table.map(({ name }) => name).sort()).toEqual([...names].sort());
    expect(new Set(names).size).toBe(names.length);
    expect(new Set(table.map(({ label }) => label)).size).toBe(table.length);
  });

  it.each(table)("says of $name what it is, how it is computed, where that stands, and what is better", (entry) => {
    expect(entry.label).toMatch(/^\S(.*\S)?$/);
    expect(entry.meaning).toMatch(/^[A-Z].*\.$/);
    expect(["more", "less", "neither"]).toContain(entry.direction);
    expect(["wbt", "iso", "both"]).toContain(entry.method);
    // A formula is written in signs that every keyboard, terminal and PDF has.
    expect(entry.formula).toMatch(/^[\x20-\x7e]+$/);
    expect(entry.formula).toMatch(/[-+*/=]/);
    for (const [open, close] of ["()", "[]"]) {
      expect(entry.formula.split(open ?? "").length).toBe(entry.formula.split(close ?? "").length);
    }
    const procedure = {
      wbt: /Water Boiling Test .*4\.2\.3/,
      iso: /ISO 19867-1:2018/,
      both: /Water Boiling Test .*4\.2\.3/,
    };
    expect(entry.source).toMatch(procedure[entry.method]);
  });

  it.each(table)("shows $name in the unit that it is computed in, a share in per cent", (entry) => {
    const { unit, shownUnit, shownFactor } = entry;
    if (shownUnit === "%") expect([unit, shownFactor]).toEqual(["1", 100]);
    else expect([shownUnit, shownFactor]).toEqual([unit === "1" ? "" : unit, 1]);
    // A ratio that is no share (turn-down) has no unit; everything else has one.
    expect(shownUnit === "").toBe(entry.name === "turnDownRatio");
  });

  it("has the units of the results file", () => {
    const units = Object.fromEntries(table.map(({ name, unit }) => [name, unit]));
    expect(units).toEqual({
      fuelConsumedMoist: "g",
      charFormed: "g",
      effectiveCalorificValue: "kJ/kg",
      fuelConsumedDryEquivalent: "g",
      waterEvaporated: "g",
      waterRemaining: "g",
      effectiveWaterBoiled: "g",
      heatGainedByWater: "kJ",
      thermalEfficiency: "1",
      burningRate: "g/min",
      firepower: "W",
      cookingPower: "W",
      duration: "min",
      timeToBoil: "min",
      timeToBoilCorrected: "min",
      specificFuelConsumption: "g/L",
      specificFuelConsumptionCorrected: "g/L",
      specificEnergyConsumption: "kJ/L",
      specificEnergyConsumptionCorrected: "kJ/L",
      lowPowerSpecificEnergyRate: "MJ/(min·L)",
      isoUsefulEnergy: "kJ",
      isoEfficiencyWithoutChar: "1",
      isoEfficiencyWithChar: "1",
      isoFirepower: "W",
      isoCookingPower: "W",
      coPerEnergyDelivered: "g/MJ",
      coRate: "g/min",
      coRatePerLitre: "g/(min·L)",
      coPerDryFuel: "g/kg",
      pm25PerEnergyDelivered: "mg/MJ",
      pm25Rate: "mg/min",
      pm25RatePerLitre: "mg/(min·L)",
      pm25PerDryFuel: "mg/kg",
      turnDownRatio: "1",
      highPowerThermalEfficiency: "1",
      taskFuel5L: "g",
      taskEnergy5L: "kJ",
      taskTime: "min",
      highPowerCoPerEnergyDelivered: "g/MJ",
      highPowerPm25PerEnergyDelivered: "mg/MJ",
      meanIsoEfficiencyWithoutChar: "1",
      meanIsoEfficiencyWithChar: "1",
      meanCoPerEnergyDelivered: "g/MJ",
      meanPm25PerEnergyDelivered: "mg/MJ",
    });
  });
});

describe("keys of quantities", () => {
  it("name each quantity of each phase and of the run, and read back to what they name", () => {
    const texts = allQuantityKeys.map(keyText);
    expect(new Set(texts).size).toBe(texts.length);
    // Three phases of either method.
    expect(texts).toHaveLength(6 * phaseQuantityNames.length + runQuantityNames.length);
    for (const key of allQuantityKeys) expect(parseKey(keyText(key))).toEqual(key);
    expect(texts).toContain("cold-start.thermalEfficiency");
    expect(texts).toContain("taskFuel5L");
  });

  it.each(["", "thermalEfficiency", "cold-start.taskFuel5L", "cold-start.", "Cold-start.firepower", "__proto__"])(
    "are not %j",
    (text) => {
      expect(parseKey(text)).toBeNull();
    },
  );

  it("of tiers are quantities of the table, in its units and its direction", () => {
    for (const { rows } of tierSchemes) {
      for (const row of rows) {
        if (row.key === null) continue;
        const key = parseKey(row.key);
        if (key === null) throw new Error(`no quantity ${row.key}`);
        const entry = quantityEntry(key.quantity, "en");
        expect([row.key, row.unit, row.better]).toEqual([row.key, entry.unit, entry.direction]);
      }
    }
  });
});

describe("constants", () => {
  it("have the procedures' values", () => {
    // Water Boiling Test protocol 4.2.3 (2014); ISO 19867-1:2018, ISO 18125:2017 and the default of char from memory.
    const values = Object.fromEntries(
      Object.entries(constants).map(([name, { value, unit }]) => [name, `${value} ${unit}`]),
    );
    expect(values).toEqual({
      specificHeatOfWaterWbt: "4.186 kJ/(kg·K)",
      latentHeatInFuelMoisture: "2257 kJ/kg",
      latentHeatOfEvaporatedWater: "2260 kJ/kg",
      referenceTemperatureRise: "75 K",
      taskVolume: "5 L",
      densityOfWater: "1 g/mL",
      specificHeatOfWaterIso: "4.18 kJ/(kg·K)",
      latentHeatAsReceived: "2443 kJ/kg",
      latentHeatAt25C: "2442 kJ/kg",
      waterFromHydrogen: "8.936 1",
      hydrogenOfWood: "6 % of dry fuel",
      charNetCalorific: "29500 kJ/kg",
    });
  });

  it("of nature follow from other sources", () => {
    // IUPAC abridged atomic weights 2021: H 1.0080, O 15.999.
    expectNumber(constants.waterFromHydrogen.value, (2 * 1.008 + 15.999) / (2 * 1.008), { absolute: 5e-4 });
    // IAPWS-IF97, latent heat at 25 °C: 2441.7 kJ/kg.
    expectNumber(constants.latentHeatAt25C.value, 2441.7, { absolute: 0.5 });
  });

  it.each(Object.entries(constants))("%s has a source", (_name, { source }) => {
    expect(source).toMatch(/WBT|Water Boiling Test|ISO|IAPWS|molar masses|common practice/);
  });
});
