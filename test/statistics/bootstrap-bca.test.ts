import { describe, expect, it } from "vitest";
import { bcaInterval } from "../../core/statistics/bootstrap-bca.ts";
import { expectNumber } from "../numbers.ts";
import { cellOf, numberOf, numbersOf, readExpected, readInput } from "../reference/read-reference.ts";

const settings = { confidence: 0.95, resamples: 2000, seed: 7 };

describe("the BCa bootstrap interval", () => {
  it.each(readExpected("bca-interval"))(
    "is R's within its resampling error: $case (reference bca-interval, boot)",
    (row) => {
      const input = readInput("bca-interval").get(String(row.case));
      const confidence = Number(cellOf(input, "confidence"));
      const result = bcaInterval(numbersOf(cellOf(input, "values")), { confidence, resamples: 200_000, seed: 1 });
      expect(result.because).toBeNull();
      expectNumber(result.acceleration, numberOf(row, "acceleration"), { relative: 1e-10 });
      // Of 200 000 resamples: the bias correction's standard error is 0.003, a limit's about 0.01 of the mean's; the means of few runs
      // also lie in steps.
      expectNumber(result.biasCorrection, numberOf(row, "biasCorrection"), { absolute: 0.015 });
      const error = numberOf(row, "standardError");
      expectNumber(result.lower, numberOf(row, "lower"), { absolute: 0.08 * error });
      expectNumber(result.upper, numberOf(row, "upper"), { absolute: 0.08 * error });
    },
  );

  it("is the same for the same seed, and another for another", () => {
    const values = [28.1, 31.4, 29.9, 33, 27.6, 30.2, 32.5];
    expect(bcaInterval(values, settings)).toEqual(bcaInterval(values, settings));
    expect(bcaInterval(values, { ...settings, seed: 8 }).lower).not.toBe(bcaInterval(values, settings).lower);
  });

  it("moves with an offset and a unit", () => {
    const values = [28.1, 31.4, 29.9, 33, 27.6, 30.2, 32.5];
    const plain = bcaInterval(values, settings);
    const moved = bcaInterval(
      values.map((value) => 1e6 + 10 * value),
      settings,
    );
    expectNumber(moved.lower, 1e6 + 10 * (plain.lower ?? 0), { relative: 1e-10 });
    expectNumber(moved.upper, 1e6 + 10 * (plain.upper ?? 0), { relative: 1e-10 });
  });

  it("is longer on the side of the far value than the plain interval is", () => {
    const { lower, upper, acceleration } = bcaInterval([1, 1.1, 0.9, 1.2, 1, 1.1, 3], settings);
    const mean = 9.3 / 7;
    expect(acceleration).toBeGreaterThan(0);
    expect((upper ?? 0) - mean).toBeGreaterThan(mean - (lower ?? 0));
  });

  it("cautions under six runs, and where a limit is the outermost resample", () => {
    expect(bcaInterval([1, 2, 3, 4, 6], settings).cautions).toContain("few-values");
    expect(bcaInterval([1, 2, 3, 4, 5, 7], settings).cautions).toEqual([]);
    const few = bcaInterval([1, 2, 3, 4, 5, 7], { ...settings, resamples: 20 });
    expect(few.cautions).toEqual(["extreme-resamples"]);
  });

  it("says why the limits are missing", () => {
    const missing = { lower: null, upper: null };
    expect(bcaInterval([], settings)).toMatchObject({ ...missing, because: "no-values" });
    expect(bcaInterval([3], settings)).toMatchObject({ ...missing, because: "one-value" });
    expect(bcaInterval([3, 3, 3, 3, 3, 3, 3], settings)).toMatchObject({
      ...missing,
      cautions: [],
      because: "no-scatter",
    });
    const because = [1, 2, 3, 4].map(
      (seed) => bcaInterval([1, 2, 3, 4, 5, 7], { ...settings, resamples: 1, seed }).because,
    );
    expect(new Set(because)).toEqual(new Set(["too-few-resamples"]));
  });

  it("refuses settings outside their domain", () => {
    expect(() => bcaInterval([1, 2], { ...settings, resamples: 0 })).toThrow(RangeError);
    expect(() => bcaInterval([1, 2], { ...settings, seed: -1 })).toThrow(RangeError);
    expect(() => bcaInterval([1, 2], { ...settings, confidence: 95 })).toThrow(RangeError);
  });
});
