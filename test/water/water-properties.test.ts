import { describe, expect, it } from "vitest";
import { plainNumbers } from "../../core/numeric/arithmetic.ts";
import { boilingPointAtAltitude } from "../../core/water/boiling-point.ts";
import {
  HIGHEST_LATENT_HEAT_TEMPERATURE_CELSIUS,
  LOWEST_LATENT_HEAT_TEMPERATURE_CELSIUS,
} from "../../core/water/latent-heat.ts";
import { waterAtAltitude, waterAtPressure } from "../../core/water/water-properties.ts";
import { expectNumber } from "../numbers.ts";

describe("water at a place", () => {
  // Latent heat between those at 99 and 100 degrees Celsius, 2259.11 and 2256.47: 2259.11 - 0.9743 * 2.64 = 2256.538 (ASHRAE
  // Handbook, Fundamentals (SI), 2021, chapter 1, Table 3).
  it("boils at 99.974 degrees Celsius at sea level (IAPWS SR1-86(1992), Table 1), with 2256.54 kJ/kg", () => {
    const water = waterAtAltitude(0);
    if (!water.ok) throw new Error(water.because);
    expectNumber(water.pressure, 101.325);
    expectNumber(water.boilingPoint, 99.9743, { absolute: 1e-3 });
    expectNumber(water.latentHeat, 2256.538, { absolute: 0.01 });
  });

  it("boils at 93.3 degrees Celsius at 2000 m, 79.4952 kPa, with 2274 kJ/kg (ISO 2533 and steam tables, from memory)", () => {
    const water = waterAtAltitude(2000);
    if (!water.ok) throw new Error(water.because);
    expectNumber(water.pressure, 79.4952, { absolute: 1e-4 });
    expectNumber(water.boilingPoint, 93.3, { absolute: 0.05 });
    expectNumber(water.latentHeat, 2274, { absolute: 0.3 });
  });

  it("answers the same through altitude as through that altitude's pressure", () => {
    const byAltitude = waterAtAltitude(1500);
    if (!byAltitude.ok) throw new Error(byAltitude.because);
    expect(waterAtPressure(byAltitude.pressure)).toEqual(byAltitude);
    expect(boilingPointAtAltitude(plainNumbers, 1500)).toBe(byAltitude.boilingPoint);
  });

  it.each([0.7, 16_529])("answers at the end of its range, %d kPa, where latent heat is known", (pressure) => {
    const water = waterAtPressure(pressure);
    if (!water.ok) throw new Error(water.because);
    expect(water.boilingPoint).toBeGreaterThan(LOWEST_LATENT_HEAT_TEMPERATURE_CELSIUS);
    expect(water.boilingPoint).toBeLessThan(HIGHEST_LATENT_HEAT_TEMPERATURE_CELSIUS);
    expect(water.latentHeat).toBeGreaterThan(0);
  });

  it.each([0.69, 16_530, 0, -80, Number.NaN, Number.POSITIVE_INFINITY])(
    "refuses %d kPa and gives the range",
    (pressure) => {
      expect(waterAtPressure(pressure)).toEqual({
        ok: false,
        because: "pressure-outside-range",
        lowest: 0.7,
        highest: 16_529,
      });
    },
  );

  it.each([-501, 11_001, Number.NaN, Number.NEGATIVE_INFINITY])("refuses %d m and gives the range", (altitude) => {
    expect(waterAtAltitude(altitude)).toEqual({
      ok: false,
      because: "altitude-outside-range",
      lowest: -500,
      highest: 11_000,
    });
  });

  it.each([-500, 11_000])("answers at the end of its range, %d m", (altitude) => {
    expect(waterAtAltitude(altitude).ok).toBe(true);
  });
});
