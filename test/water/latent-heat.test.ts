import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { plainNumbers } from "../../core/numeric/arithmetic.ts";
import { ZERO_CELSIUS_KELVIN } from "../../core/water/kelvin.ts";
import { LOWEST_LATENT_HEAT_TEMPERATURE_CELSIUS, latentHeat } from "../../core/water/latent-heat.ts";
import { saturationPressure } from "../../core/water/saturation-pressure.ts";
import { expectNumber } from "../numbers.ts";
import { inTrials } from "./trials.ts";

describe("latent heat of water", () => {
  // Published to 0.1 kJ/kg, each enthalpy rounded by itself, so the difference is good to 0.1.
  it.each([
    [273.16, 2500.5, 0.000611786],
    [373.1243, 2675.7, 419.05],
  ])("is the published h'' - h' at %d K (IAPWS SR1-86(1992), Table 1)", (kelvin, vapour, liquid) => {
    const celsius = kelvin - ZERO_CELSIUS_KELVIN;
    expectNumber(latentHeat(plainNumbers, celsius), vapour - liquid, { absolute: 0.06 });
  });

  // Tables after IAPWS-95, printed to 0.1: the university tables "Saturation Properties for Steam, Temperature Table" of
  // Ohio University; 95 and 100 degrees Celsius from memory, 100 as in the steam tables after IAPWS-IF97.
  it.each([
    [50, 2382.0],
    [70, 2333.0],
    [80, 2308.0],
    [85, 2295.3],
    [90, 2282.5],
    [95, 2269.6],
    [100, 2256.5],
  ])("agrees within 1e-4 with the steam tables at %d degrees Celsius", (celsius, expected) => {
    expectNumber(latentHeat(plainNumbers, celsius), expected, { relative: 1e-4 });
  });

  it("is the Clapeyron equation: published densities (SR1-86, Table 1), slope of another formulation (IAPWS-IF97)", () => {
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

  it("falls as the temperature rises, and vanishes at the critical point", () => {
    const temperature = fc.double({ min: LOWEST_LATENT_HEAT_TEMPERATURE_CELSIUS, max: 373, noNaN: true });
    fc.assert(
      fc.property(temperature, (celsius) => {
        expect(latentHeat(plainNumbers, celsius + 0.5)).toBeLessThan(latentHeat(plainNumbers, celsius));
      }),
    );
    expectNumber(latentHeat(plainNumbers, 373.945999), 0, { absolute: 10 });
  });

  it("is one text for plain numbers and for trials", () => {
    const temperatures = [80, 93.3, 100];
    expect(latentHeat(inTrials, temperatures)).toEqual(
      temperatures.map((temperature) => latentHeat(plainNumbers, temperature)),
    );
  });
});
