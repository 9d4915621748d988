import { describe, expect, it } from "vitest";
import { betaStep } from "../../core/statistics/distribution/beta-step.ts";
import { lowerIncompleteBeta } from "../../core/statistics/distribution/incomplete-beta.ts";
import { expectNumber } from "../numbers.ts";

describe("the step of the incomplete beta function", () => {
  it("is x^a (1 - x) for b = 1, where the function is x^a, however large a is", () => {
    for (const [x, a] of [
      [0.5, 1],
      [0.9, 2.5],
      [0.3, 0.5],
      [0.01, 20],
      [0.999, 400.5],
    ] as const) {
      expectNumber(betaStep(x, 1 - x, a, 1), x ** a * (1 - x), { relative: 1e-12 });
    }
  });

  it("is the difference of the library's values where both have digits", () => {
    for (const [x, a, b] of [
      [0.4, 3.5, 5],
      [0.7, 12, 2.5],
      [0.95, 150, 8],
      [0.2, 0.5, 40],
    ] as const) {
      const difference = lowerIncompleteBeta(x, a, b) - lowerIncompleteBeta(x, a + 1, b);
      expectNumber(betaStep(x, 1 - x, a, b), difference, { relative: 1e-12, absolute: 1e-15 });
    }
  });

  it("is nothing at the ends", () => {
    expect(betaStep(0, 1, 2, 3)).toBe(0);
    expect(betaStep(1, 0, 2, 3)).toBe(0);
  });
});
