import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { compensatedSum } from "../../core/numeric/compensated-sum.ts";
import { expectNumber } from "../numbers.ts";

describe("compensated sum", () => {
  it("keeps what plain addition loses (the usual example: 1 + 1e100 + 1 - 1e100 = 2)", () => {
    expect(compensatedSum([1, 1e100, 1, -1e100])).toBe(2);
    expect([1, 1e100, 1, -1e100].reduce((total, term) => total + term, 0)).toBe(0);
  });

  it("adds a tenth ten times to one", () => {
    expect(compensatedSum(Array.from({ length: 10 }, () => 0.1))).toBe(1);
  });

  it("is zero for an empty list", () => {
    expect(compensatedSum([])).toBe(0);
  });

  it("adds whole numbers exactly, in any order (integers below 2^53 are exact)", () => {
    const wholeNumbers = fc.array(fc.integer({ min: -1e12, max: 1e12 }), { maxLength: 200 });
    fc.assert(
      fc.property(wholeNumbers, (terms) => {
        const exact = Number(terms.reduce((total, term) => total + BigInt(term), 0n));
        expectNumber(compensatedSum(terms), exact);
        expectNumber(compensatedSum(terms.toReversed()), exact);
      }),
    );
  });
});
