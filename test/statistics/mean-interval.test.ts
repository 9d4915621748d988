import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { coefficientOfVariation } from "../../core/statistics/coefficient-of-variation.ts";
import { meanInterval } from "../../core/statistics/mean-interval.ts";
import { moments } from "../../core/statistics/moments.ts";
import { expectNumber } from "../numbers.ts";
import { cellOf, numberOf, numbersOf, readExpected, readInput } from "../reference/read-reference.ts";

const input = readInput("mean-interval");

function alternating(middle: number, low: number, high: number): number[] {
  return [middle, ...Array.from({ length: 1000 }, (_, index) => (index % 2 === 0 ? low : high))];
}

describe("mean and standard deviation (n - 1)", () => {
  // NIST Statistical Reference Datasets, univariate summary statistics: data and certified values from memory. The data of
  // the last two are not exact in binary, so the certified standard deviation itself can only be met to the tolerance.
  it.each([
    ["NumAcc1", [10000001, 10000003, 10000002], 10000002, 1, 1e-15],
    ["NumAcc2", alternating(1.2, 1.1, 1.3), 1.2, 0.1, 1e-14],
    ["NumAcc3", alternating(1000000.2, 1000000.1, 1000000.3), 1000000.2, 0.1, 1e-9],
    ["NumAcc4", alternating(10000000.2, 10000000.1, 10000000.3), 10000000.2, 0.1, 1e-7],
  ] as const)(
    "meets the certified values of %s (NIST StRD)",
    (_, values, certifiedMean, certifiedDeviation, relative) => {
      expectNumber(moments(values).mean, certifiedMean, { relative: 1e-15 });
      expectNumber(moments(values).standardDeviation, certifiedDeviation, { relative });
    },
  );

  it("meets the certified values of Michelso (NIST StRD, from memory; the data as in R's morley)", () => {
    const values = numbersOf(cellOf(input.get("michelson"), "values"));
    expect(values).toHaveLength(100);
    expectNumber(moments(values).mean, 299.8524, { relative: 1e-14 });
    expectNumber(moments(values).standardDeviation, 0.0790105478190518, { relative: 1e-12 });
  });

  it("is worked by hand: 2, 4, 4, 4, 5, 5, 7, 9 has mean 5 and sum of squares 32", () => {
    const values = [2, 4, 4, 4, 5, 5, 7, 9];
    expect(moments(values).mean).toBe(5);
    expectNumber(moments(values).standardDeviation, Math.sqrt(32 / 7), { relative: 1e-15 });
    expectNumber(coefficientOfVariation(values).value, Math.sqrt(32 / 7) / 5, { relative: 1e-15 });
  });

  it("finds no scatter at all in equal values, whatever they are", () => {
    const value = fc.double({ min: -1e9, max: 1e9, noNaN: true });
    fc.assert(
      fc.property(value, fc.integer({ min: 2, max: 30 }), (same, count) => {
        const values = Array.from({ length: count }, () => same);
        expectNumber(moments(values).mean, same);
        expectNumber(moments(values).standardDeviation, 0);
      }),
    );
  });

  it("does not over- or underflow in the squares", () => {
    expectNumber(moments([1e200, 3e200]).standardDeviation, Math.SQRT2 * 1e200, { relative: 1e-15 });
    expectNumber(moments([1e-200, 3e-200]).standardDeviation, Math.SQRT2 * 1e-200, { relative: 1e-15 });
  });

  it("says why a figure is missing", () => {
    expect(moments([])).toEqual({ n: 0, mean: null, standardDeviation: null });
    expect(moments([5])).toEqual({ n: 1, mean: 5, standardDeviation: null });
    expect(coefficientOfVariation([])).toEqual({ value: null, because: "no-values" });
    expect(coefficientOfVariation([5])).toEqual({ value: null, because: "one-value" });
    expect(coefficientOfVariation([-1, 1])).toEqual({ value: null, because: "mean-not-positive" });
    expect(coefficientOfVariation([-4, -5])).toEqual({ value: null, because: "mean-not-positive" });
    expect(coefficientOfVariation([-1e300, 1e300, 1e-12])).toEqual({ value: null, because: "too-large" });
    expect(coefficientOfVariation([3, 3])).toEqual({ value: 0, because: null });
  });

  it("refuses values that are not finite numbers", () => {
    expect(() => moments([1, Number.NaN])).toThrow(RangeError);
    expect(() => moments([1, Number.POSITIVE_INFINITY])).toThrow(RangeError);
  });
});

describe("t interval of a mean", () => {
  it.each(readExpected("mean-interval"))("is R's: $case (reference mean-interval, t.test)", (row) => {
    const given = input.get(String(row.case));
    const result = meanInterval(numbersOf(cellOf(given, "values")), Number(cellOf(given, "confidence")));
    expect(result.because).toBeNull();
    expect(result.n).toBe(row.n);
    expectNumber(result.mean, numberOf(row, "mean"), { relative: 1e-15 });
    expectNumber(result.standardDeviation, numberOf(row, "standardDeviation"), { relative: 1e-9 });
    expectNumber(result.standardError, numberOf(row, "standardError"), { relative: 1e-9 });
    expectNumber(result.degreesOfFreedom, numberOf(row, "degreesOfFreedom"));
    // The half-width, not the limits, so that a large mean does not hide an error in it.
    const half = (numberOf(row, "upper") - numberOf(row, "lower")) / 2;
    const tolerance = { relative: 1e-9, absolute: 1e-15 * numberOf(row, "mean") };
    expectNumber(((result.interval?.upper ?? 0) - (result.interval?.lower ?? 0)) / 2, half, tolerance);
    expectNumber(result.interval?.lower, numberOf(row, "lower"), { relative: 1e-9 });
    expectNumber(result.interval?.upper, numberOf(row, "upper"), { relative: 1e-9 });
  });

  it("says why it is missing, and keeps what is known", () => {
    expect(meanInterval([], 0.95)).toEqual({
      n: 0,
      mean: null,
      standardDeviation: null,
      standardError: null,
      degreesOfFreedom: null,
      interval: null,
      because: "no-values",
    });
    expect(meanInterval([7], 0.95)).toMatchObject({ n: 1, mean: 7, interval: null, because: "one-value" });
    expect(meanInterval([7, 7, 7], 0.95)).toMatchObject({
      mean: 7,
      standardDeviation: 0,
      interval: null,
      because: "no-scatter",
    });
    // 0.1 + 0.2 is not 0.3 in binary: that is rounding, not scatter.
    expect(meanInterval([0.1 + 0.2, 0.3], 0.95)).toMatchObject({ interval: null, because: "no-scatter" });
  });

  it.each([0, 1, 95, Number.NaN])("refuses the confidence %d", (confidence) => {
    expect(() => meanInterval([1, 2], confidence)).toThrow(RangeError);
  });
});
