import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { plainNumbers } from "../../core/numeric/arithmetic.ts";
import { ZERO_CELSIUS_KELVIN } from "../../core/water/kelvin.ts";
import {
  HIGHEST_LATENT_HEAT_TEMPERATURE_CELSIUS,
  LOWEST_LATENT_HEAT_TEMPERATURE_CELSIUS,
  latentHeat,
} from "../../core/water/latent-heat.ts";
import { saturationPressure } from "../../core/water/saturation-pressure.ts";
import { expectNumber } from "../numbers.ts";
import { latentHeatBySr186 } from "./latent-heat-by-sr1-86.ts";
import { inTrials } from "./trials.ts";

describe("latent heat of water", () => {
  // ASHRAE Handbook, Fundamentals (SI), 2021, chapter 1, Table 3, h_fg: after IAPWS R7-97(2012), printed to 0.01.
  it.each([
    [5, 2489.05],
    [10, 2477.21],
    [25, 2441.71],
    [40, 2406.0],
    [50, 2381.97],
    [60, 2357.69],
    [70, 2333.08],
    [80, 2308.07],
    [85, 2295.38],
    [90, 2282.56],
    [93, 2274.8],
    [95, 2269.6],
    [98, 2261.74],
    [100, 2256.47],
    [105, 2243.18],
    [120, 2202.15],
    [130, 2173.7],
    [140, 2144.24],
    [150, 2113.67],
    [160, 2081.86],
  ])("is h'' - h' of the steam table at %d degrees Celsius", (celsius, expected) => {
    expectNumber(latentHeat(plainNumbers, celsius), expected, { absolute: 0.0051 });
  });

  // Tables after another formulation, IAPWS-95, printed to 0.1: "Saturation Properties for Steam, Temperature Table" of Ohio
  // University.
  it.each([
    [25, 2441.7],
    [50, 2382.0],
    [70, 2333.0],
    [80, 2308.0],
    [85, 2295.3],
    [90, 2282.5],
  ])("agrees within 1e-4 with the tables after IAPWS-95 at %d degrees Celsius", (celsius, expected) => {
    expectNumber(latentHeat(plainNumbers, celsius), expected, { relative: 1e-4 });
  });

  // IAPWS SR1-86(1992), Table 1: published to 0.1 kJ/kg, each enthalpy rounded by itself.
  it("is h'' - h' at 373.1243 K within 1e-4 (IAPWS SR1-86(1992), Table 1)", () => {
    expectNumber(latentHeat(plainNumbers, 373.1243 - ZERO_CELSIUS_KELVIN), 2675.7 - 419.05, { relative: 1e-4 });
  });

  // The most that was found: 6.4e-5 at 105, 1.49e-4 at 0.01 and 3.3e-4 at 350 degrees Celsius.
  it.each([
    ["where water boils over a stove", 60, 105, 1e-4],
    ["below 200 degrees Celsius", LOWEST_LATENT_HEAT_TEMPERATURE_CELSIUS, 200, 1.5e-4],
    ["in the whole domain", LOWEST_LATENT_HEAT_TEMPERATURE_CELSIUS, HIGHEST_LATENT_HEAT_TEMPERATURE_CELSIUS, 4e-4],
  ])("agrees %s, %d to %d, within %d with the equations of IAPWS SR1-86(1992)", (_where, min, max, relative) => {
    for (const celsius of [min, max]) {
      expectNumber(latentHeat(plainNumbers, celsius), latentHeatBySr186(celsius), { relative });
    }
    fc.assert(
      fc.property(fc.double({ min, max, noNaN: true }), (celsius) => {
        expectNumber(latentHeat(plainNumbers, celsius), latentHeatBySr186(celsius), { relative });
      }),
    );
  });

  it("is the Clapeyron equation: published densities (SR1-86, Table 1), slope of the saturation line (IAPWS-IF97)", () => {
    const celsius = 373.1243 - ZERO_CELSIUS_KELVIN;
    const step = 0.01;
    const slopeKilopascalPerKelvin =
      (saturationPressure(plainNumbers, celsius + step) - saturationPressure(plainNumbers, celsius - step)) /
      (2 * step);
    const volumeGained = 1 / 0.597586 - 1 / 958.365;
    expectNumber(latentHeat(plainNumbers, celsius), 373.1243 * volumeGained * slopeKilopascalPerKelvin, {
      relative: 1e-4,
    });
  });

  it("falls as the temperature rises, everywhere in its domain", () => {
    const temperature = fc.double({
      min: LOWEST_LATENT_HEAT_TEMPERATURE_CELSIUS,
      max: HIGHEST_LATENT_HEAT_TEMPERATURE_CELSIUS - 0.5,
      noNaN: true,
    });
    fc.assert(
      fc.property(temperature, (celsius) => {
        expect(latentHeat(plainNumbers, celsius + 0.5)).toBeLessThan(latentHeat(plainNumbers, celsius));
      }),
    );
  });

  it("is one text for plain numbers and for trials", () => {
    const temperatures = [80, 93.3, 100];
    expect(latentHeat(inTrials, temperatures)).toEqual(
      temperatures.map((temperature) => latentHeat(plainNumbers, temperature)),
    );
  });
});
