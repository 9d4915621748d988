import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  noncentralT,
  noncentralTLowerTail,
  noncentralTUpperTail,
} from "../../core/statistics/distribution/noncentral-t.ts";
import { normalLowerTail } from "../../core/statistics/distribution/normal.ts";
import { studentTUpperTail } from "../../core/statistics/distribution/student-t.ts";
import { expectNumber } from "../numbers.ts";
import { numberOf, readExpected } from "../reference/read-reference.ts";

const anyT = fc.double({ min: -20, max: 20, noNaN: true });
const anyDegreesOfFreedom = fc.double({ min: 1, max: 200, noNaN: true });
const anyNoncentrality = fc.double({ min: -20, max: 20, noNaN: true });

describe("noncentral t", () => {
  it.each(readExpected("noncentral-t"))("is the integral of its definition: $case (reference noncentral-t)", (row) => {
    const actual = noncentralTLowerTail(numberOf(row, "t"), numberOf(row, "df"), numberOf(row, "noncentrality"));
    expectNumber(actual, numberOf(row, "integrated"), { relative: 1e-9, absolute: 1e-13 });
    if (row.pt !== null) expectNumber(actual, numberOf(row, "pt"), { relative: 1e-6, absolute: 1e-12 });
  });

  it("is Student's t where the noncentrality is zero", () => {
    fc.assert(
      fc.property(anyT, anyDegreesOfFreedom, (t, df) => {
        expectNumber(noncentralTUpperTail(t, df, 0), studentTUpperTail(t, df), { relative: 1e-12, absolute: 1e-14 });
      }),
    );
  });

  it("is the normal distribution at t = 0", () => {
    fc.assert(
      fc.property(anyDegreesOfFreedom, anyNoncentrality, (df, delta) => {
        expectNumber(noncentralTLowerTail(0, df, delta), normalLowerTail(-delta), { absolute: 1e-14 });
      }),
    );
  });

  it("has tails that add to one and mirror each other", () => {
    fc.assert(
      fc.property(anyT, anyDegreesOfFreedom, anyNoncentrality, (t, df, delta) => {
        const below = noncentralTLowerTail(t, df, delta);
        expectNumber(below + noncentralTUpperTail(t, df, delta), 1, { absolute: 1e-12 });
        expectNumber(noncentralTUpperTail(-t, df, -delta), below, { absolute: 1e-12 });
      }),
    );
  });

  it("gives the same for the same question, whatever was asked before at that t", () => {
    for (const [t, df] of [
      [1, 18],
      [-1, 18],
      [0.3, 7],
      [4, 10],
    ] as const) {
      for (const far of [25, -25, 300, -300, 1000]) {
        const kept = noncentralT(t, df);
        kept.lowerTail(far);
        kept.upperTail(far);
        for (const delta of [2.97, -1, 0]) {
          expectNumber(kept.lowerTail(delta), noncentralTLowerTail(t, df, delta), { absolute: 1e-13 });
          expectNumber(kept.upperTail(delta), noncentralTUpperTail(t, df, delta), { absolute: 1e-13 });
        }
      }
    }
  });

  it("refuses what has no meaning", () => {
    expect(() => noncentralTLowerTail(Number.NaN, 5, 1)).toThrow(RangeError);
    expect(() => noncentralTLowerTail(1, 0, 1)).toThrow(RangeError);
    expect(() => noncentralTUpperTail(1, Number.POSITIVE_INFINITY, 1)).toThrow(RangeError);
    expect(() => noncentralTUpperTail(1, 5, 1001)).toThrow(RangeError);
  });
});
