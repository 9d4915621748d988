import { describe, it } from "vitest";
import { moistureWetFromDry } from "../../core/fuel/moisture.ts";
import { plainNumbers } from "../../core/numeric/arithmetic.ts";
import { expectNumber } from "../numbers.ts";

// Both bases follow from two weighings of one specimen: water over the mass as fired, and over the dry mass (ISO 18134-1:2022, definitions).
describe("moisture on the wet basis from the dry one", () => {
  it.each([
    // wet g, dry g, wet basis, dry basis
    [120, 100, 1 / 6, 0.2],
    [250, 200, 0.2, 0.25],
    [100, 100, 0, 0],
    [300, 100, 2 / 3, 2],
  ])("of a specimen of %d g that dries to %d g", (wet, dry, wetBasis, dryBasis) => {
    expectNumber(dryBasis, (wet - dry) / dry, { relative: 1e-14 });
    expectNumber(wetBasis, (wet - dry) / wet, { relative: 1e-14 });
    expectNumber(moistureWetFromDry(plainNumbers, dryBasis), wetBasis, { relative: 1e-14 });
  });
});
