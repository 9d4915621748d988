import { describe, expect, it } from "vitest";
import { shapiroWilk } from "../../core/statistics/shapiro-wilk.ts";
import { expectNumber } from "../numbers.ts";
import { cellOf, numberOf, numbersOf, readExpected, readInput } from "../reference/read-reference.ts";

describe("Shapiro and Wilk's test", () => {
  const input = readInput("shapiro-wilk");

  it.each(readExpected("shapiro-wilk"))("is R's: $case (reference shapiro-wilk, shapiro.test)", (row) => {
    const result = shapiroWilk(numbersOf(cellOf(input.get(String(row.case)), "values")));
    expect(result.because).toBeNull();
    expectNumber(result.statistic, numberOf(row, "statistic"), { relative: 1e-9 });
    expectNumber(result.p, numberOf(row, "p"), { relative: 1e-6, absolute: 1e-14 });
  });

  it("finds W = 0.79 of eleven weights (S. S. Shapiro and M. B. Wilk, Biometrika 52, 591, 1965, from memory)", () => {
    const result = shapiroWilk([148, 154, 158, 160, 161, 162, 166, 170, 182, 195, 236]);
    expectNumber(result.statistic, 0.79, { absolute: 0.005 });
    expect(result.p).toBeLessThan(0.01);
  });

  it("is exact for three values: W = 27/28 of 1, 2, 4", () => {
    // Half the range squared, 9/2, over the sum of squares, 14/3.
    const { statistic, p } = shapiroWilk([1, 2, 4]);
    expectNumber(statistic, 27 / 28, { relative: 1e-14 });
    expectNumber(p, (6 / Math.PI) * (Math.asin(Math.sqrt(27 / 28)) - Math.PI / 3), { relative: 1e-12 });
    expectNumber(shapiroWilk([7, 9, 9]).statistic, 0.75, { relative: 1e-14 });
  });

  it("does not depend on order, offset, unit or direction", () => {
    const values = [14.1, 15.2, 13.9, 14.4, 14.8, 19.7];
    const { statistic, p } = shapiroWilk(values);
    for (const other of [values.toReversed(), values.map((x) => x * 1e-30), values.map((x) => 5 - x * 8)]) {
      expectNumber(shapiroWilk(other).statistic, statistic ?? Number.NaN, { relative: 1e-12 });
      expectNumber(shapiroWilk(other).p, p ?? Number.NaN, { relative: 1e-10 });
    }
  });

  it("says why it is missing", () => {
    const missing = { statistic: null, p: null };
    expect(shapiroWilk([])).toEqual({ ...missing, because: "too-few-values" });
    expect(shapiroWilk([1, 2])).toEqual({ ...missing, because: "too-few-values" });
    expect(shapiroWilk([3, 3, 3, 3])).toEqual({ ...missing, because: "no-scatter" });
    expect(shapiroWilk([0.1 + 0.2, 0.3, 0.3])).toEqual({ ...missing, because: "no-scatter" });
    expect(shapiroWilk(Array.from({ length: 5001 }, (_, index) => index))).toEqual({
      ...missing,
      because: "too-many-values",
    });
    expect(shapiroWilk([1.5e308, -1.5e308, 1.6e308])).toEqual({ ...missing, because: "too-large" });
    expect(() => shapiroWilk([1, 2, Number.NaN])).toThrow(RangeError);
  });
});
