import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { detectableDifference } from "../../core/statistics/detectable-difference.ts";
import { twoSamplePower } from "../../core/statistics/two-sample-power.ts";
import { expectNumber } from "../numbers.ts";

const usual = { standardDeviation: 1.5, baselineRuns: 10, variantRuns: 10, power: 0.8, confidence: 0.95 };

describe("what runs can detect", () => {
  it.each([
    // R 4.2.2: power.t.test(n = , sd = 1.5, power = , sig.level = , strict = TRUE, tol = 1e-12)$delta
    { runs: 10, power: 0.8, confidence: 0.95, delta: 1.98742108886798 },
    { runs: 3, power: 0.8, confidence: 0.95, delta: 4.60633839954012 },
    { runs: 6, power: 0.9, confidence: 0.9, delta: 2.72748349460282 },
    { runs: 60, power: 0.5, confidence: 0.99, delta: 0.715474454991162 },
  ])("is R's delta: $runs runs of each, power $power at $confidence", ({ runs, power, confidence, delta }) => {
    const question = { standardDeviation: 1.5, baselineRuns: runs, variantRuns: runs, power, confidence };
    expectNumber(detectableDifference(question).value, delta, { relative: 1e-9 });
  });

  it("has the wanted power, in any unit", () => {
    const runs = fc.integer({ min: 2, max: 40 });
    const deviation = fc.double({ min: 1e-6, max: 1e6, noNaN: true });
    fc.assert(
      fc.property(runs, runs, deviation, (baselineRuns, variantRuns, standardDeviation) => {
        const question = { ...usual, baselineRuns, variantRuns, standardDeviation };
        const { value } = detectableDifference(question);
        if (value === null) throw new Error("missing");
        expectNumber(twoSamplePower({ ...question, difference: value }), 0.8, { relative: 1e-9 });
      }),
      { numRuns: 40 },
    );
  });

  it("is missing without a degree of freedom or scatter, and nothing where chance alone is enough", () => {
    expect(detectableDifference({ ...usual, baselineRuns: 1, variantRuns: 1 })).toEqual({
      value: null,
      because: "too-few-runs",
    });
    expect(detectableDifference({ ...usual, standardDeviation: 0 })).toEqual({ value: null, because: "no-scatter" });
    expect(detectableDifference({ ...usual, power: 0.05 })).toEqual({ value: 0, because: null });
    expect(
      detectableDifference({ ...usual, baselineRuns: 1, variantRuns: 2, power: 0.9999, confidence: 0.9999 }),
    ).toEqual({ value: null, because: "too-large" });
  });

  it.each([{ power: 1 }, { confidence: 0 }, { standardDeviation: Number.NaN }, { variantRuns: 0 }])(
    "refuses %o",
    (wrong) => {
      expect(() => detectableDifference({ ...usual, ...wrong })).toThrow(RangeError);
    },
  );
});
