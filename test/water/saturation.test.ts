import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { plainNumbers } from "../../core/numeric/arithmetic.ts";
import { ZERO_CELSIUS_KELVIN } from "../../core/water/kelvin.ts";
import {
  HIGHEST_SATURATION_PRESSURE_KILOPASCAL,
  HIGHEST_SATURATION_TEMPERATURE_CELSIUS,
  LOWEST_SATURATION_PRESSURE_KILOPASCAL,
  LOWEST_SATURATION_TEMPERATURE_CELSIUS,
} from "../../core/water/saturation-line.ts";
import { saturationPressure } from "../../core/water/saturation-pressure.ts";
import { saturationTemperature } from "../../core/water/saturation-temperature.ts";
import { expectNumber } from "../numbers.ts";
import { inTrials } from "./trials.ts";

describe("saturation line", () => {
  it.each([
    [0.1, 372.755919],
    [1, 453.035632],
    [10, 584.149488],
  ])("boils at the published temperature under %d MPa (IAPWS-IF97, Table 36, nine figures)", (megapascal, kelvin) => {
    const celsius = saturationTemperature(plainNumbers, megapascal * 1000);
    expectNumber(celsius + ZERO_CELSIUS_KELVIN, kelvin, { absolute: 0.5e-6 });
  });

  it.each([
    [300, 0.00353658941],
    [500, 2.63889776],
    [600, 12.3443146],
  ])("has the published pressure at %d K (IAPWS-IF97, Table 35, nine figures)", (kelvin, megapascal) => {
    const kilopascal = saturationPressure(plainNumbers, kelvin - ZERO_CELSIUS_KELVIN);
    expectNumber(kilopascal, megapascal * 1000, { relative: 2e-9 });
  });

  it("boils at 99.974 degrees Celsius under one standard atmosphere (IAPWS SR1-86(1992), Table 1: 373.1243 K)", () => {
    expectNumber(saturationTemperature(plainNumbers, 101.325), 373.1243 - ZERO_CELSIUS_KELVIN, { absolute: 1e-3 });
  });

  it("ends where IAPWS-IF97 says it ends", () => {
    expectNumber(
      saturationPressure(plainNumbers, LOWEST_SATURATION_TEMPERATURE_CELSIUS),
      LOWEST_SATURATION_PRESSURE_KILOPASCAL,
      { relative: 1e-6 },
    );
    expectNumber(
      saturationPressure(plainNumbers, HIGHEST_SATURATION_TEMPERATURE_CELSIUS),
      HIGHEST_SATURATION_PRESSURE_KILOPASCAL,
      { relative: 1e-6 },
    );
  });

  it("comes back to the temperature it set out from, everywhere in its domain", () => {
    const temperature = fc.double({
      min: LOWEST_SATURATION_TEMPERATURE_CELSIUS,
      max: HIGHEST_SATURATION_TEMPERATURE_CELSIUS,
      noNaN: true,
    });
    fc.assert(
      fc.property(temperature, (celsius) => {
        const pressure = saturationPressure(plainNumbers, celsius);
        expectNumber(saturationTemperature(plainNumbers, pressure), celsius, { absolute: 1e-8 });
      }),
    );
  });

  it("comes back to the pressure it set out from, everywhere in its domain", () => {
    const pressure = fc.double({
      min: LOWEST_SATURATION_PRESSURE_KILOPASCAL,
      max: HIGHEST_SATURATION_PRESSURE_KILOPASCAL,
      noNaN: true,
    });
    fc.assert(
      fc.property(pressure, (kilopascal) => {
        const temperature = saturationTemperature(plainNumbers, kilopascal);
        expectNumber(saturationPressure(plainNumbers, temperature), kilopascal, { relative: 1e-9 });
      }),
    );
  });

  it("is one text for plain numbers and for trials", () => {
    const pressures = [70, 85.5, 101.325];
    expect(saturationTemperature(inTrials, pressures)).toEqual(
      pressures.map((pressure) => saturationTemperature(plainNumbers, pressure)),
    );
    const temperatures = [80, 93.3, 100];
    expect(saturationPressure(inTrials, temperatures)).toEqual(
      temperatures.map((temperature) => saturationPressure(plainNumbers, temperature)),
    );
  });
});
