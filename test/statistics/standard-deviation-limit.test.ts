import { describe, expect, it } from "vitest";
import { standardDeviationUpperLimit } from "../../core/statistics/standard-deviation-limit.ts";
import { expectNumber } from "../numbers.ts";

describe("the upper limit of a standard deviation", () => {
  it.each([
    // R 4.2.2: s * sqrt(df / qchisq(1 - level, df))
    { s: 8, df: 5, level: 0.8, limit: 11.6877794898685 },
    { s: 1, df: 2, level: 0.8, limit: 2.11693649355018 },
    { s: 0.011, df: 1, level: 0.95, limit: 0.17541963342402 },
    { s: 25, df: 30, level: 0.5, limit: 25.281332136116 },
  ])("is R's: s = $s, $df degrees of freedom, $level", ({ s, df, level, limit }) => {
    expectNumber(standardDeviationUpperLimit(s, df, level), limit, { relative: 1e-10 });
  });

  it("is zero where nothing scatters, and grows as runs get fewer", () => {
    expect(standardDeviationUpperLimit(0, 5, 0.8)).toBe(0);
    const limits = [40, 10, 5, 2, 1].map((df) => standardDeviationUpperLimit(1, df, 0.8) ?? 0);
    expect(limits).toEqual(limits.toSorted((one, other) => one - other));
  });

  it.each([
    [-1, 5, 0.8],
    [1, 0, 0.8],
    [1, 5, 1],
  ])("refuses %s, %s, %s", (s, df, level) => {
    expect(() => standardDeviationUpperLimit(s, df, level)).toThrow(RangeError);
  });
});
