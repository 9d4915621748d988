import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { bracketedRoot } from "../../core/numeric/bracketed-root.ts";
import { expectNumber } from "../numbers.ts";

describe("bracketed root", () => {
  it("finds the square root of two", () => {
    expectNumber(
      bracketedRoot((x) => x * x - 2, 0, 2, 1e-14),
      Math.SQRT2,
      { absolute: 1e-14 },
    );
  });

  it("finds the root of cubics that it is given the root of, rising or falling", () => {
    const root = fc.double({ min: -50, max: 50, noNaN: true });
    fc.assert(
      fc.property(root, fc.boolean(), (expected, rising) => {
        const cubic = (x: number) => (rising ? 1 : -1) * (x - expected) * (1 + (x - expected) ** 2);
        expectNumber(bracketedRoot(cubic, -60, 70, 1e-10), expected, { absolute: 1e-10 });
      }),
    );
  });

  it("is quick: under 20 evaluations for a smooth function", () => {
    let evaluations = 0;
    const smooth = (x: number) => {
      evaluations += 1;
      return Math.exp(x) - 3;
    };
    expectNumber(bracketedRoot(smooth, 0, 10, 1e-10), Math.log(3), { absolute: 1e-10 });
    expect(evaluations).toBeLessThan(20);
  });

  it("takes an end that is the root", () => {
    expect(bracketedRoot((x) => x - 1, 1, 2, 1e-9)).toBe(1);
    expect(bracketedRoot((x) => x - 2, 1, 2, 1e-9)).toBe(2);
  });

  it("copes with values whose squares underflow", () => {
    expectNumber(
      bracketedRoot((x) => (x - 3) * 1e-200, 0, 10, 1e-9),
      3,
      { absolute: 1e-9 },
    );
  });

  it("refuses ends of the same sign", () => {
    expect(() => bracketedRoot((x) => x * x + 1, -1, 1, 1e-9)).toThrow(RangeError);
    expect(() => bracketedRoot(() => Number.NaN, -1, 1, 1e-9)).toThrow(RangeError);
  });
});
