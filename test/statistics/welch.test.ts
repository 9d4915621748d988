import { describe, expect, it } from "vitest";
import { welch } from "../../core/statistics/welch.ts";
import { expectNumber } from "../numbers.ts";
import { numberOf, readExpected } from "../reference/read-reference.ts";
import { groupsOf } from "./groups.ts";

const confidence = 0.95;

describe("Welch's comparison", () => {
  it.each(readExpected("welch"))("is R's: $case (reference welch, t.test)", (row) => {
    const groups = groupsOf("welch", row.case);
    const result = welch(groups);
    expect(result.because).toBeNull();
    expect(result.runs).toEqual({ baseline: groups.baseline.length, variant: groups.variant.length });
    expectNumber(result.difference, numberOf(row, "difference"), { relative: 1e-9 });
    expectNumber(result.standardError, numberOf(row, "standardError"), { relative: 1e-9 });
    expectNumber(result.t, numberOf(row, "t"), { relative: 1e-9 });
    expectNumber(result.degreesOfFreedom, numberOf(row, "degreesOfFreedom"), { relative: 1e-9 });
    expectNumber(result.p, numberOf(row, "p"), { relative: 1e-9 });
    expectNumber(result.interval?.lower, numberOf(row, "lower"), { relative: 1e-9 });
    expectNumber(result.interval?.upper, numberOf(row, "upper"), { relative: 1e-9 });
    expect(result.interval?.level).toBe(groups.confidence);
  });

  it("is worked by hand: 1, 2, 3 against 4, 6, 8", () => {
    const result = welch({ baseline: [1, 2, 3], variant: [4, 6, 8], confidence });
    expect(result.difference).toBe(4);
    expectNumber(result.standardError, Math.sqrt(1 / 3 + 4 / 3), { relative: 1e-15 });
    expectNumber(result.t, 4 / Math.sqrt(5 / 3), { relative: 1e-15 });
    // (1/3 + 4/3)^2 / [(1/9)/2 + (16/9)/2] = 25/9 * 18/17
    expectNumber(result.degreesOfFreedom, 50 / 17, { relative: 1e-15 });
  });

  it("turns its sign, and nothing else, when the groups change places", () => {
    const [one, other] = [
      [21, 22.5, 20.1],
      [24.2, 23.9, 25.5, 24.8],
    ];
    const forth = welch({ baseline: one, variant: other, confidence });
    const back = welch({ baseline: other, variant: one, confidence });
    expectNumber(back.difference, -(forth.difference ?? 0));
    expectNumber(back.p, forth.p ?? 0, { relative: 1e-12 });
    expectNumber(back.interval?.lower, -(forth.interval?.upper ?? 0), { relative: 1e-12 });
  });

  it("says why the test is missing, and keeps the difference", () => {
    const missing = { t: null, degreesOfFreedom: null, p: null, interval: null };
    expect(welch({ baseline: [], variant: [1, 2], confidence })).toMatchObject({
      ...missing,
      difference: null,
      because: "no-values",
    });
    expect(welch({ baseline: [1, 2], variant: [5], confidence })).toMatchObject({
      ...missing,
      runs: { baseline: 2, variant: 1 },
      difference: 3.5,
      standardError: null,
      because: "one-value",
    });
    expect(welch({ baseline: [4, 4], variant: [5, 5, 5], confidence })).toMatchObject({
      ...missing,
      difference: 1,
      standardError: 0,
      because: "no-scatter",
    });
    expect(welch({ baseline: [0, 0], variant: [0, 0], confidence })).toMatchObject({
      difference: 0,
      because: "no-scatter",
    });
    expect(welch({ baseline: [0.1 + 0.2, 0.3], variant: [0.4, 0.4], confidence }).because).toBe("no-scatter");
  });

  it("works where one group has no scatter: the other's degrees of freedom alone", () => {
    const result = welch({ baseline: [4, 4, 4], variant: [5, 6, 5.5], confidence });
    expect(result.because).toBeNull();
    expectNumber(result.degreesOfFreedom, 2, { relative: 1e-15 });
  });

  it("refuses a value that is not finite, and a confidence in per cent", () => {
    expect(() => welch({ baseline: [1, Number.NaN], variant: [1, 2], confidence })).toThrow(RangeError);
    expect(() => welch({ baseline: [1, 2], variant: [1, 2], confidence: 95 })).toThrow(RangeError);
  });
});
