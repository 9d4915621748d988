import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { studentTCritical } from "../../core/statistics/distribution/student-t.ts";
import { fiellerRatio } from "../../core/statistics/fieller-ratio.ts";
import { expectNumber } from "../numbers.ts";
import { numberOf, readExpected } from "../reference/read-reference.ts";
import { groupsOf } from "./groups.ts";

const confidence = 0.95;

describe("Fieller's ratio of means", () => {
  it.each(readExpected("fieller-ratio"))(
    "is the set of its definition: $case (reference fieller-ratio, root search)",
    (row) => {
      const result = fiellerRatio(groupsOf("fieller-ratio", row.case));
      expectNumber(result.ratio, numberOf(row, "ratio"), { relative: 1e-12 });
      expectNumber(result.degreesOfFreedom, numberOf(row, "degreesOfFreedom"), { relative: 1e-9 });
      expect(result.set).toBe(row.set);
      if (row.set === "bounded") {
        expect(result.because).toBeNull();
        expect(result.excluded).toBeNull();
        expectNumber(result.lower, numberOf(row, "first"), { relative: 1e-9 });
        expectNumber(result.upper, numberOf(row, "second"), { relative: 1e-9 });
        return;
      }
      expect([result.lower, result.upper]).toEqual([null, null]);
      if (row.set === "complement") {
        expect(result.because).toBe("baseline-indistinct-from-zero");
        expectNumber(result.excluded?.lower, numberOf(row, "first"), { relative: 1e-9 });
        expectNumber(result.excluded?.upper, numberOf(row, "second"), { relative: 1e-9 });
      } else {
        expect(result.because).toBe("both-means-indistinct-from-zero");
        expect(result.excluded).toBeNull();
      }
    },
  );

  it("holds the estimate, and its limits sit exactly on the statistic's critical value", () => {
    const runs = fc.array(fc.double({ min: 50, max: 60, noNaN: true }), { minLength: 3, maxLength: 10 });
    fc.assert(
      fc.property(runs, runs, (baseline, variant) => {
        const { ratio, degreesOfFreedom, lower, upper, set } = fiellerRatio({ baseline, variant, confidence });
        if (ratio === null || degreesOfFreedom === null || lower === null || upper === null) return;
        expect(set).toBe("bounded");
        expect(lower).toBeLessThanOrEqual(ratio);
        expect(upper).toBeGreaterThanOrEqual(ratio);
        const [first, second] = [meanAndSquaredError(baseline), meanAndSquaredError(variant)];
        const t = studentTCritical(confidence, degreesOfFreedom);
        for (const limit of [lower, upper]) {
          const width = t * Math.sqrt(second.squaredError + limit ** 2 * first.squaredError);
          expectNumber(Math.abs(second.mean - limit * first.mean), width, { relative: 1e-6, absolute: 1e-12 });
        }
      }),
    );
  });

  it("does not depend on the unit", () => {
    const [baseline, variant] = [
      [612.4, 598.1, 640.7],
      [488.2, 512.6, 476],
    ];
    const inGrams = fiellerRatio({ baseline, variant, confidence });
    const inKilograms = fiellerRatio({
      baseline: baseline.map((value) => value / 1000),
      variant: variant.map((value) => value / 1000),
      confidence,
    });
    expectNumber(inKilograms.lower, inGrams.lower ?? 0, { relative: 1e-12 });
    expectNumber(inKilograms.upper, inGrams.upper ?? 0, { relative: 1e-12 });
  });

  it("says why limits are missing, and keeps the ratio where there is one", () => {
    const nothing = { set: "none", lower: null, upper: null, excluded: null };
    expect(fiellerRatio({ baseline: [], variant: [1, 2], confidence })).toMatchObject({
      ...nothing,
      ratio: null,
      because: "no-values",
    });
    expect(fiellerRatio({ baseline: [4], variant: [1, 3], confidence })).toMatchObject({
      ...nothing,
      ratio: 0.5,
      because: "one-value",
    });
    expect(fiellerRatio({ baseline: [4, 4], variant: [3, 3], confidence })).toMatchObject({
      ...nothing,
      ratio: 0.75,
      because: "no-scatter",
    });
    expect(fiellerRatio({ baseline: [4, 5], variant: [0, 0], confidence })).toMatchObject({
      ...nothing,
      ratio: 0,
      because: "no-scatter",
    });
    for (const baseline of [
      [-1, 1],
      [-4, -5],
    ]) {
      expect(fiellerRatio({ baseline, variant: [3, 4], confidence })).toMatchObject({
        ...nothing,
        ratio: null,
        because: "baseline-mean-not-positive",
      });
    }
    expect(fiellerRatio({ baseline: [1e-200, 2e-200], variant: [1e200, 2e200], confidence })).toMatchObject({
      ...nothing,
      ratio: null,
      because: "too-large",
    });
  });
});

function meanAndSquaredError(values: readonly number[]): { mean: number; squaredError: number } {
  const mean = values.reduce((total, value) => total + value, 0) / values.length;
  const squares = values.reduce((total, value) => total + (value - mean) ** 2, 0);
  return { mean, squaredError: squares / (values.length - 1) / values.length };
}
