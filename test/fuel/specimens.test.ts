import { describe, test } from "vitest";
import { moistureDryFromWet, moistureFromDrying } from "../../core/fuel/moisture.ts";
import { dryMoistureFromOven, wetMoistureFromOven } from "../../core/fuel/specimens.ts";
import { plainNumbers } from "../../core/numeric/arithmetic.ts";
import { expectNumber } from "../numbers.ts";

describe("moisture of an oven-dried specimen in its dish", () => {
  // Worked by hand from the definition of ISO 18134-1:2022 (from memory): loss over the mass as fired, net of the dish.
  test.for([
    [150, 138, 50, 0.12, 12 / 88],
    [412.6, 361.3, 0, 51.3 / 412.6, 51.3 / 361.3],
    [80, 80, 20, 0, 0],
    [110, 60, 10, 0.5, 1],
  ] as const)("%f g to %f g in a dish of %f g", ([before, after, dish, wet, dry]) => {
    const specimen = { before, after, dish };
    expectNumber(wetMoistureFromOven(plainNumbers, specimen), wet, { relative: 1e-12 });
    expectNumber(dryMoistureFromOven(plainNumbers, specimen), dry, { relative: 1e-12 });
    // Both bases of one specimen are one moisture.
    expectNumber(
      moistureDryFromWet(plainNumbers, wetMoistureFromOven(plainNumbers, specimen)),
      dryMoistureFromOven(plainNumbers, specimen),
      { relative: 1e-12, absolute: 1e-15 },
    );
  });

  test("without a dish it is the drying of the specimen alone", () => {
    const specimen = { before: 51.7, after: 44.9, dish: 0 };
    expectNumber(wetMoistureFromOven(plainNumbers, specimen), moistureFromDrying(plainNumbers, 51.7, 44.9), {
      relative: 1e-12,
    });
  });
});
