import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { plainNumbers } from "../../core/numeric/arithmetic.ts";
import {
  HIGHEST_ALTITUDE_METRES,
  LOWEST_ALTITUDE_METRES,
  standardAtmospherePressure,
} from "../../core/water/standard-atmosphere.ts";
import { expectNumber } from "../numbers.ts";

/** ISO 2533:1975, Table 1 (constants from memory): the barometric formula with its factors not rounded. */
function unroundedPressure(altitudeMetres: number): number {
  const [lapse, seaLevel, gravity, airConstant] = [0.0065, 288.15, 9.80665, 287.05287];
  return 101.325 * (1 - (lapse * altitudeMetres) / seaLevel) ** (gravity / (airConstant * lapse));
}

describe("standard atmosphere", () => {
  // ISO 2533:1975, Table 5 (geopotential altitude): six figures, from memory.
  it.each([
    [0, 101.325],
    [1000, 89.8746],
    [2000, 79.4952],
    [3000, 70.1085],
    [5000, 54.0199],
    [11_000, 22.632],
  ])("has the tabulated pressure at %d m (ISO 2533, from memory)", (altitude, kilopascal) => {
    expectNumber(standardAtmospherePressure(plainNumbers, altitude), kilopascal, { absolute: 0.6e-4 });
  });

  it("differs by less than 0.1 Pa from the formula whose factors are not rounded", () => {
    const altitude = fc.double({ min: LOWEST_ALTITUDE_METRES, max: HIGHEST_ALTITUDE_METRES, noNaN: true });
    fc.assert(
      fc.property(altitude, (metres) => {
        expectNumber(standardAtmospherePressure(plainNumbers, metres), unroundedPressure(metres), { absolute: 1e-4 });
      }),
    );
  });

  it("falls as the altitude rises", () => {
    for (let metres = LOWEST_ALTITUDE_METRES; metres < HIGHEST_ALTITUDE_METRES; metres += 100) {
      expect(standardAtmospherePressure(plainNumbers, metres + 100)).toBeLessThan(
        standardAtmospherePressure(plainNumbers, metres),
      );
    }
  });
});
