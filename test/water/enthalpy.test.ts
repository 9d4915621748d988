import { describe, expect, it } from "vitest";
import { plainNumbers } from "../../core/numeric/arithmetic.ts";
import { ZERO_CELSIUS_KELVIN } from "../../core/water/kelvin.ts";
import { liquidEnthalpy } from "../../core/water/liquid-enthalpy.ts";
import { saturationPressure } from "../../core/water/saturation-pressure.ts";
import { vapourEnthalpy } from "../../core/water/vapour-enthalpy.ts";
import { expectNumber } from "../numbers.ts";
import { inTrials } from "./trials.ts";

describe("enthalpy of liquid water", () => {
  it.each([
    [300, 3, 115.331273],
    [300, 80, 184.142828],
    [500, 3, 975.542239],
  ])("is the published one at %d K and %d MPa (IAPWS R7-97(2012), Table 5, nine figures)", (kelvin, megapascal, h) => {
    const celsius = kelvin - ZERO_CELSIUS_KELVIN;
    expectNumber(liquidEnthalpy(plainNumbers, celsius, megapascal * 1000), h, { absolute: 0.51e-6 });
  });

  it("is 0.000611783 kJ/kg at the triple point, 273.16 K and 611.657 Pa (IAPWS R7-97(2012), equation 9, from memory)", () => {
    expectNumber(liquidEnthalpy(plainNumbers, 0.01, 0.611657), 0.000611783, { absolute: 2e-6 });
  });
});

describe("enthalpy of steam", () => {
  it.each([
    [300, 0.0035, 2549.91145],
    [700, 0.0035, 3335.68375],
    [700, 30, 2631.49474],
  ])("is the published one at %d K and %d MPa (IAPWS R7-97(2012), Table 15, nine figures)", (kelvin, megapascal, h) => {
    const celsius = kelvin - ZERO_CELSIUS_KELVIN;
    expectNumber(vapourEnthalpy(plainNumbers, celsius, megapascal * 1000), h, { absolute: 0.51e-5 });
  });
});

// ASHRAE Handbook, Fundamentals (SI), 2021, chapter 1, Table 3, h_f and h_g: after IAPWS R7-97(2012), printed to 0.01.
describe.each([
  [10, 42.02, 2519.23],
  [50, 209.34, 2591.31],
  [90, 376.97, 2659.53],
  [100, 419.1, 2675.57],
  [120, 503.78, 2705.93],
  [160, 675.57, 2757.43],
])("on the saturation line at %d degrees Celsius", (celsius, liquid, vapour) => {
  const pressure = saturationPressure(plainNumbers, celsius);

  it("the two are those of the steam table", () => {
    expectNumber(liquidEnthalpy(plainNumbers, celsius, pressure), liquid, { absolute: 0.0051 });
    expectNumber(vapourEnthalpy(plainNumbers, celsius, pressure), vapour, { absolute: 0.0051 });
  });
});

it("enthalpies are one text for plain numbers and for trials", () => {
  const temperatures = [80, 93.3, 100];
  const pressures = [70, 85.5, 101.325];
  for (const enthalpy of [liquidEnthalpy, vapourEnthalpy]) {
    expect(enthalpy(inTrials, temperatures, pressures)).toEqual(
      temperatures.map((temperature, trial) => enthalpy(plainNumbers, temperature, pressures[trial] ?? Number.NaN)),
    );
  }
});
