import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { mannWhitney } from "../../core/statistics/mann-whitney.ts";
import { rankSumCounts } from "../../core/statistics/rank-sum.ts";
import { expectNumber } from "../numbers.ts";
import { cellOf, numberOf, numbersOf, readExpected, readInput } from "../reference/read-reference.ts";

const cases = readExpected("mann-whitney");

describe("the Wilcoxon-Mann-Whitney test", () => {
  it.each(cases)("is R's: $case (reference mann-whitney, wilcox.test and combn)", (row) => {
    const input = readInput("mann-whitney").get(String(row.case));
    const [first, second] = [numbersOf(cellOf(input, "first")), numbersOf(cellOf(input, "second"))];
    const result = mannWhitney(first, second);
    expect(result.because).toBeNull();
    expect(result.isExact).toBe(first.length < 50 && second.length < 50);
    expectNumber(result.u, numberOf(row, "u"));
    expectNumber(result.p, numberOf(row, "p"), { relative: 1e-12 });
    expectNumber(result.smallestP, numberOf(row, "smallestP"), { relative: 1e-12 });
    expectNumber(result.normalP, numberOf(row, "normalP"), { relative: 1e-12 });
  });

  it("has R's exact p also by enumeration, where R's own and the enumeration can be compared", () => {
    for (const row of cases.filter((one) => one.enumeratedP !== null)) {
      expectNumber(numberOf(row, "p"), numberOf(row, "enumeratedP"), { relative: 1e-12 });
    }
  });

  it("is tabled: 3 and 3, one of 20 arrangements in each tail, so no p is below 0.1", () => {
    const apart = mannWhitney([1, 2, 3], [4, 5, 6]);
    expect(apart).toMatchObject({ u: 9, ties: 0 });
    expectNumber(apart.p, 0.1, { relative: 1e-15 });
    expectNumber(apart.smallestP, 0.1, { relative: 1e-15 });
  });

  it("counts 8, 7, 5 and 3 arrangements of 4 and 4 up to U = 3 and so on (Mann and Whitney 1947, recurrence, worked by hand)", () => {
    // Partitions into at most 4 parts of at most 4: 1 1 2 3 5 5 7 7 8 7 7 5 5 3 2 1 1.
    const counts = rankSumCounts([1, 2, 3, 4, 5, 6, 7, 8], 4);
    const byU = Array.from({ length: 17 }, (_, u) => counts[u + 10]);
    expect(byU).toEqual([1, 1, 2, 3, 5, 5, 7, 7, 8, 7, 7, 5, 5, 3, 2, 1, 1]);
  });

  it("names how many values are tied", () => {
    expect(mannWhitney([25, 25, 26], [24, 24, 25]).ties).toBe(5);
    expect(mannWhitney([1, 2], [3, 4]).ties).toBe(0);
  });

  it("has the same p and the rest of the pairs when the groups change places; p is never below the smallest", () => {
    const values = fc.array(fc.integer({ min: 0, max: 6 }), { minLength: 1, maxLength: 6 });
    fc.assert(
      fc.property(values, values, (one, other) => {
        const [forth, back] = [mannWhitney(one, other), mannWhitney(other, one)];
        expectNumber((forth.u ?? 0) + (back.u ?? 0), one.length * other.length);
        if (forth.p === null) return;
        expectNumber(back.p, forth.p, { relative: 1e-12 });
        expect(forth.p).toBeGreaterThanOrEqual((forth.smallestP ?? 1) * (1 - 1e-12));
      }),
    );
  });

  it("says why p is missing", () => {
    expect(mannWhitney([], [1, 2])).toMatchObject({ u: null, p: null, smallestP: null, because: "no-values" });
    expect(mannWhitney([3, 3], [3, 3, 3])).toMatchObject({ u: 3, p: null, ties: 5, because: "no-scatter" });
    // One against one: p would be 1 whatever they are.
    expect(mannWhitney([3], [4])).toMatchObject({
      u: 1,
      p: null,
      smallestP: null,
      normalP: null,
      because: "one-value",
    });
    expect(mannWhitney([4], [3]).u).toBe(0);
    expect(mannWhitney([4], [4]).u).toBe(0.5);
  });

  it("gives the same for the same question, whatever was asked before", () => {
    const first = mannWhitney([1, 2, 5, 9], [3, 4, 6, 7, 8]).p;
    mannWhitney([1, 2, 3], [4, 5, 6]);
    expect(mannWhitney([10, 20, 50, 90], [30, 40, 60, 70, 80]).p).toBe(first);
  });

  it("refuses a value that is not finite", () => {
    expect(() => mannWhitney([1], [Number.POSITIVE_INFINITY])).toThrow(RangeError);
  });
});
