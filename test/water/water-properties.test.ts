import { describe, expect, it } from "vitest";
import { plainNumbers } from "../../core/numeric/arithmetic.ts";
import { boilingPointAtAltitude } from "../../core/water/boiling-point.ts";
import { waterAtAltitude, waterAtPressure } from "../../core/water/water-properties.ts";
import { expectNumber } from "../numbers.ts";

describe("water at a place", () => {
  it("boils at 99.97 degrees Celsius at sea level, with 2256.65 kJ/kg (IAPWS SR1-86(1992), Table 1)", () => {
    const water = waterAtAltitude(0);
    if (!water.ok) throw new Error(water.because);
    expectNumber(water.pressure, 101.325);
    expectNumber(water.boilingPoint, 99.9743, { absolute: 1e-3 });
    expectNumber(water.latentHeat, 2256.65, { absolute: 0.06 });
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

  it.each([0.7, 22_000])("answers at the end of its range, %d kPa, with finite numbers", (pressure) => {
    const water = waterAtPressure(pressure);
    if (!water.ok) throw new Error(water.because);
    expect(Number.isFinite(water.boilingPoint)).toBe(true);
    expect(water.latentHeat).toBeGreaterThan(0);
  });

  it.each([0.69, 22_001, 0, -80, Number.NaN, Number.POSITIVE_INFINITY])(
    "refuses %d kPa and gives the range",
    (pressure) => {
      expect(waterAtPressure(pressure)).toEqual({
        ok: false,
        because: "pressure-outside-range",
        lowest: 0.7,
        highest: 22_000,
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
