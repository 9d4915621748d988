import { describe, expect, it } from "vitest";
import { grubbs } from "../../core/statistics/grubbs.ts";
import { expectNumber } from "../numbers.ts";
import { cellOf, numberOf, numbersOf, readExpected, readInput } from "../reference/read-reference.ts";

describe("Grubbs' test", () => {
  it.each(readExpected("grubbs"))("is R's: $case (reference grubbs, pt)", (row) => {
    const result = grubbs(numbersOf(cellOf(readInput("grubbs").get(String(row.case)), "values")));
    expect(result.because).toBeNull();
    expectNumber(result.statistic, numberOf(row, "statistic"), { relative: 1e-9 });
    expect(result.suspect).toBe(numberOf(row, "suspect"));
    expectNumber(result.p, numberOf(row, "p"), { relative: 1e-7 });
  });

  it("finds the e-Handbook's outlier (1.3.5.17.1, uranium by mass spectrometer, from memory): G = 2.4687, beyond 2.032", () => {
    const values = [199.31, 199.53, 200.19, 200.82, 201.92, 201.95, 202.18, 245.57];
    const result = grubbs(values);
    expectNumber(result.statistic, 2.4687, { absolute: 0.0001 });
    expect(values[result.suspect ?? 0]).toBe(245.57);
    expect(result.p).toBeLessThan(0.001);
  });

  it("has p 0.05 at the published two-sided critical value: n = 8, 2.126 (Grubbs 1969, from memory)", () => {
    // One value moved until its G is the tabled one: seven others of mean 0 with sum of squares 1.
    const others = [-3, -2, -1, 0, 1, 2, 3].map((value) => value / Math.sqrt(28));
    const g = 2.126;
    // G^2 = 49 x^2/8 / (8 (1 + 7 x^2/8)/...): solved for x by bisection.
    let [low, high] = [0.1, 100];
    for (let step = 0; step < 80; step += 1) {
      const middle = (low + high) / 2;
      if ((grubbs([...others, middle]).statistic ?? 0) < g) low = middle;
      else high = middle;
    }
    expectNumber(grubbs([...others, low]).p, 0.05, { absolute: 0.001 });
  });

  it("is at most 1, where no value is far", () => {
    expect(grubbs([1, 2, 3, 1, 2, 3]).p).toBe(1);
  });

  it("says why p is missing", () => {
    expect(grubbs([])).toEqual({ statistic: null, suspect: null, p: null, because: "no-values" });
    expect(grubbs([1, 2])).toMatchObject({ p: null, because: "too-few-values" });
    expect(grubbs([4, 4, 4, 4])).toMatchObject({ suspect: null, p: null, because: "no-scatter" });
    // G is as large as five values allow, (n - 1)/sqrt(n), whatever the one is: p would be 0.
    const result = grubbs([4, 4, 4.1, 4, 4]);
    expect(result).toMatchObject({ suspect: 2, p: null, because: "others-equal" });
    expectNumber(result.statistic, 4 / Math.sqrt(5), { relative: 1e-12 });
  });

  it("refuses a value that is not finite", () => {
    expect(() => grubbs([1, 2, Number.NaN])).toThrow(RangeError);
  });
});
