import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { chiSquaredQuantile, chiSquaredTail } from "../../core/statistics/distribution/chi-squared.ts";
import { fQuantile, fTail } from "../../core/statistics/distribution/f.ts";
import { studentTTwoSidedTail } from "../../core/statistics/distribution/student-t.ts";
import { expectNumber } from "../numbers.ts";
import { numberOf, readExpected } from "../reference/read-reference.ts";

describe("the F distribution", () => {
  const reference = readExpected("f-distribution");

  it.each(["tail", "quantile"])("has R's values: %s (reference f-distribution, pf and qf)", (kind) => {
    const rows = reference.filter((row) => row.kind === kind);
    expect(rows.length).toBeGreaterThan(50);
    const compute = kind === "tail" ? fTail : fQuantile;
    for (const row of rows) {
      const actual = compute(numberOf(row, "x"), numberOf(row, "df1"), numberOf(row, "df2"));
      expectNumber(actual, numberOf(row, "value"), { relative: 1e-10 });
    }
  });

  it("is the square of t for one degree of freedom above", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 60, noNaN: true }),
        fc.double({ min: 1, max: 300, noNaN: true }),
        (t, df) => {
          expectNumber(fTail(t * t, 1, df), studentTTwoSidedTail(t, df), { relative: 1e-10, absolute: 1e-15 });
        },
      ),
    );
  });

  it("has the closed form (1 + 2 f/df2)^(-df2/2) for two degrees of freedom above", () => {
    for (const [f, df2] of [
      [0.3, 5],
      [4, 11.5],
      [250, 8],
    ] as const) {
      expectNumber(fTail(f, 2, df2), (1 + (2 * f) / df2) ** (-df2 / 2), { relative: 1e-12 });
    }
  });

  it("becomes chi-squared with endless degrees of freedom below", () => {
    expectNumber(fTail(2.5, 4, Number.POSITIVE_INFINITY), chiSquaredTail(10, 4), { relative: 1e-14 });
    expectNumber(fTail(2.5, 4, 1e9), chiSquaredTail(10, 4), { relative: 1e-6 });
  });

  it("ends at 1 and 0, and refuses what has no meaning", () => {
    expect(fTail(0, 3, 7)).toBe(1);
    expect(fTail(Number.POSITIVE_INFINITY, 3, 7)).toBe(0);
    expect(() => fTail(1, 0, 7)).toThrow(RangeError);
    expect(() => fTail(1, Number.POSITIVE_INFINITY, 7)).toThrow(RangeError);
    expect(() => fTail(Number.NaN, 3, 7)).toThrow(RangeError);
    expect(() => fQuantile(0, 3, 7)).toThrow(RangeError);
  });
});

describe("the chi-squared distribution", () => {
  const reference = readExpected("chi-squared");

  it.each(["tail", "quantile"])("has R's values: %s (reference chi-squared, pchisq and qchisq)", (kind) => {
    const rows = reference.filter((row) => row.kind === kind);
    expect(rows.length).toBeGreaterThan(50);
    const compute = kind === "tail" ? chiSquaredTail : chiSquaredQuantile;
    for (const row of rows) {
      const actual = compute(numberOf(row, "x"), numberOf(row, "df"));
      expectNumber(actual, numberOf(row, "value"), { relative: 1e-11 });
    }
  });

  it("is exponential for two degrees of freedom", () => {
    for (const x of [1e-9, 0.4, 3, 50, 1300]) expectNumber(chiSquaredTail(x, 2), Math.exp(-x / 2), { relative: 1e-12 });
  });

  it("ends at 1 and 0, and refuses what has no meaning", () => {
    expect(chiSquaredTail(0, 3)).toBe(1);
    expect(chiSquaredTail(Number.POSITIVE_INFINITY, 3)).toBe(0);
    expect(() => chiSquaredTail(1, -1)).toThrow(RangeError);
    expect(() => chiSquaredTail(1, Number.POSITIVE_INFINITY)).toThrow(RangeError);
    expect(() => chiSquaredQuantile(1, 3)).toThrow(RangeError);
  });
});
