import { describe, expect, it } from "vitest";
import { drift } from "../../core/statistics/drift.ts";
import { expectNumber } from "../numbers.ts";
import { cellOf, numberOf, numbersOf, readExpected, readInput } from "../reference/read-reference.ts";

describe("drift against run order", () => {
  it.each(readExpected("drift"))("is R's: $case (reference drift, lm)", (row) => {
    const input = readInput("drift").get(String(row.case));
    const values = numbersOf(cellOf(input, "values"));
    const result = drift(values, numbersOf(cellOf(input, "orders")), cellOf(input, "levels").split(" "));
    expect(result.because).toBeNull();
    for (const field of ["slope", "standardError", "t", "degreesOfFreedom", "p"] as const) {
      expectNumber(result[field], numberOf(row, field), { relative: 1e-9 });
    }
  });

  it("is worked by hand: 1, 2, 4 in turn has slope 3/2, residuals 1/6, -1/3, 1/6", () => {
    const result = drift([1, 2, 4], [1, 2, 3]);
    expectNumber(result.slope, 1.5, { relative: 1e-15 });
    expectNumber(result.standardError, Math.sqrt(1 / 6 / 2), { relative: 1e-12 });
    expect(result.degreesOfFreedom).toBe(1);
  });

  it("does not take the difference of variants for drift", () => {
    // B runs after A and is higher; within each nothing moves.
    const result = drift([10, 10.2, 10, 20, 20.2, 20], [1, 2, 3, 4, 5, 6], ["A", "A", "A", "B", "B", "B"]);
    expectNumber(result.slope, 0, { absolute: 1e-12 });
    expectNumber(result.p, 1, { absolute: 1e-9 });
    expect(drift([10, 10.2, 10, 20, 20.2, 20], [1, 2, 3, 4, 5, 6]).p).toBeLessThan(0.05);
  });

  it("says why the test is missing", () => {
    expect(drift([], [])).toMatchObject({ slope: null, p: null, because: "no-values" });
    expect(drift([1, 2], [1, 2], ["A", "B"])).toMatchObject({ slope: null, p: null, because: "orders-equal" });
    expect(drift([1, 2, 3], [5, 5, 5])).toMatchObject({ p: null, because: "orders-equal" });
    expect(drift([1, 2], [1, 2])).toMatchObject({ slope: 1, p: null, because: "no-degrees-of-freedom" });
    expect(drift([4, 4, 4, 4], [1, 2, 3, 4])).toMatchObject({ slope: 0, p: null, because: "no-scatter" });
    expect(drift([0.1, 0.2, 0.3, 0.4], [1, 2, 3, 4])).toMatchObject({ p: null, because: "no-scatter" });
  });

  it("refuses lists of unequal length", () => {
    expect(() => drift([1, 2, 3], [1, 2])).toThrow(RangeError);
  });
});
