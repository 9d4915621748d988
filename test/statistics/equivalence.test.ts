import { describe, expect, it } from "vitest";
import { equivalence } from "../../core/statistics/equivalence.ts";
import { expectNumber } from "../numbers.ts";
import { cellOf, numberOf, readExpected, readInput } from "../reference/read-reference.ts";
import { groupsOf } from "./groups.ts";

describe("two one-sided tests", () => {
  it.each(readExpected("equivalence"))("are R's: $case (reference equivalence, t.test)", (row) => {
    const { baseline, variant, confidence } = groupsOf("equivalence", row.case);
    const margin = Number(cellOf(readInput("equivalence").get(String(row.case)), "margin"));
    const result = equivalence(baseline, variant, margin, confidence);
    expect(result.because).toBeNull();
    expect(result.margin).toBe(margin);
    expectNumber(result.p, numberOf(row, "p"), { relative: 1e-9 });
    expect(result.equivalent).toBe(row.equivalent === "yes");
    expectNumber(result.interval?.level, 2 * confidence - 1, { relative: 1e-12 });
    expectNumber(result.interval?.lower, numberOf(row, "lower"), { relative: 1e-9 });
    expectNumber(result.interval?.upper, numberOf(row, "upper"), { relative: 1e-9 });
  });

  it("finds them the same just where the margin holds the 90 % interval", () => {
    const [one, other] = [
      [20.1, 20.3, 19.9, 20.2, 20],
      [20.3, 20.2, 20.5, 20.1],
    ];
    const upper = equivalence(one, other, 1, 0.95).interval?.upper ?? 0;
    expect(equivalence(one, other, upper * 1.0001, 0.95).equivalent).toBe(true);
    expect(equivalence(one, other, upper * 0.9999, 0.95).equivalent).toBe(false);
    expectNumber(equivalence(one, other, upper, 0.95).p, 0.05, { relative: 1e-9 });
  });

  it("says why it is missing", () => {
    const missing = { p: null, equivalent: null, interval: null };
    expect(equivalence([1, 2], [2, 3], 0, 0.95)).toEqual({ margin: 0, ...missing, because: "margin-not-positive" });
    expect(equivalence([1, 2], [2, 3], -1, 0.95).because).toBe("margin-not-positive");
    expect(equivalence([1, 2], [2], 1, 0.95)).toMatchObject({ ...missing, because: "one-value" });
    expect(equivalence([], [2], 1, 0.95)).toMatchObject({ ...missing, because: "no-values" });
    expect(equivalence([4, 4], [4, 4], 1, 0.95)).toMatchObject({ ...missing, because: "no-scatter" });
  });

  it("has no interval at a confidence of one half or less, and refuses a margin that is not a number", () => {
    expect(equivalence([1, 2, 1.5], [2, 3], 5, 0.5)).toMatchObject({ interval: null, because: null });
    expect(() => equivalence([1, 2], [2, 3], Number.NaN, 0.95)).toThrow(RangeError);
  });
});
