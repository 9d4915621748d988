import fc from "fast-check";
import { describe, it } from "vitest";
import { moistureDryFromWet, moistureFromDrying, moistureWetFromDry } from "../../core/fuel/moisture.ts";
import { plainNumbers } from "../../core/numeric/arithmetic.ts";
import { expectNumber } from "../numbers.ts";

const tight = { relative: 1e-14 };

/** Both bases follow from two weighings of one specimen (definitions of ISO 18134). */
describe("moisture on the wet and the dry basis", () => {
  it.each([
    // wet g, dry g, wet basis, dry basis
    [120, 100, 1 / 6, 0.2],
    [250, 200, 0.2, 0.25],
    [100, 100, 0, 0],
    [300, 100, 2 / 3, 2],
  ])("of a specimen of %d g that dries to %d g", (wet, dry, wetBasis, dryBasis) => {
    expectNumber(moistureFromDrying(plainNumbers, wet, dry), wetBasis, tight);
    expectNumber(moistureWetFromDry(plainNumbers, dryBasis), wetBasis, tight);
    expectNumber(moistureDryFromWet(plainNumbers, wetBasis), dryBasis, { relative: 1e-14 });
  });

  it("convert back to what they came from", () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 0.9, noNaN: true }), (wet) => {
        const there = moistureDryFromWet(plainNumbers, wet);
        expectNumber(moistureWetFromDry(plainNumbers, there), wet, { relative: 1e-12, absolute: 1e-15 });
      }),
    );
  });
});
