import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { criticalByOctaves } from "../../core/statistics/distribution/critical-by-octaves.ts";
import { studentTTwoSidedTail } from "../../core/statistics/distribution/student-t.ts";
import {
  studentizedRangeQuantile,
  studentizedRangeTail,
} from "../../core/statistics/distribution/studentized-range.ts";
import { expectNumber } from "../numbers.ts";
import { numberOf, readExpected } from "../reference/read-reference.ts";

const endless = Number.POSITIVE_INFINITY;

describe("the studentized range", () => {
  const reference = readExpected("studentized-range");
  const degreesOfFreedom = (row: (typeof reference)[number]) => (row.df === null ? endless : numberOf(row, "df"));

  it("is the double integral by another rule of quadrature, to 1e-10 of itself in any tail (reference studentized-range)", () => {
    expect(reference.length).toBeGreaterThan(90);
    expect(reference.filter((row) => numberOf(row, "tail") < 1e-11).length).toBeGreaterThan(15);
    for (const row of reference) {
      const actual = studentizedRangeTail(numberOf(row, "q"), numberOf(row, "groups"), degreesOfFreedom(row));
      expectNumber(actual, numberOf(row, "tail"), { relative: 1e-10 });
    }
  });

  it("is exceeded for certain at the smallest numbers that there are", () => {
    for (const q of [-1, 0, 5e-324, 1e-310, 1e-301]) {
      for (const freedom of [1, 5.5, endless]) expect(studentizedRangeTail(q, 3, freedom)).toBe(1);
    }
  });

  it("is near R's ptukey where that has its digits: from five degrees of freedom, tails of 1e-3 (reference studentized-range)", () => {
    const rows = reference.filter(
      (row) =>
        row.ptukey !== null && degreesOfFreedom(row) >= 5 && numberOf(row, "q") < 9 && numberOf(row, "tail") > 1e-3,
    );
    expect(rows.length).toBeGreaterThan(20);
    for (const row of rows) {
      const actual = studentizedRangeTail(numberOf(row, "q"), numberOf(row, "groups"), degreesOfFreedom(row));
      expectNumber(actual, numberOf(row, "ptukey"), { relative: 1e-5 });
    }
  });

  it("is sqrt(2) |t| for two groups", () => {
    const q = fc.double({ min: 0.01, max: 1e4, noNaN: true });
    fc.assert(
      fc.property(q, fc.double({ min: 0.6, max: 2000, noNaN: true }), (value, df) => {
        const expected = studentTTwoSidedTail(value / Math.SQRT2, df);
        expectNumber(studentizedRangeTail(value, 2, df), expected, { relative: 1e-10, absolute: 1e-290 });
      }),
    );
  });

  it.each([
    [0.05, 2, 1, 17.97],
    [0.05, 3, 1, 26.98],
    [0.05, 3, 10, 3.877],
    [0.05, 4, 20, 3.958],
    [0.05, 5, 20, 4.232],
    [0.05, 10, 60, 4.646],
    [0.01, 3, 10, 5.27],
    [0.01, 5, 20, 5.294],
    [0.05, 20, endless, 5.012],
  ])(
    "has the printed point: tail %d, %d groups, %d degrees of freedom: %d (tables of H. L. Harter, 1960, from memory)",
    (tail, groups, df, q) => {
      const decimals = q === 17.97 || q === 26.98 || q === 5.27 ? 0.0051 : 0.00101;
      expectNumber(studentizedRangeQuantile(tail, groups, df), q, { absolute: decimals });
    },
  );

  it("is P(range > w) of three normal draws in closed form at w where the plane's wedge is known: mean range 3/sqrt(pi)", () => {
    // The mean is the integral of the tail; the trapezoidal rule over an analytic tail with its slope 0 at both ends.
    const step = 0.01;
    const tails = Array.from({ length: 1500 }, (_, index) => studentizedRangeTail((index + 0.5) * step, 3, endless));
    expectNumber(
      tails.reduce((sum, tail) => sum + tail * step, 0),
      3 / Math.sqrt(Math.PI),
      { relative: 1e-9 },
    );
  });

  it("undoes its quantile by its tail, from 1e-12 to nearly 1", () => {
    const logTail = fc.double({ min: -27.6, max: -0.001, noNaN: true });
    fc.assert(
      fc.property(
        logTail,
        fc.integer({ min: 2, max: 100 }),
        fc.double({ min: 1, max: 500, noNaN: true }),
        (log, groups, df) => {
          const tail = Math.exp(log);
          const q = studentizedRangeQuantile(tail, groups, df);
          expectNumber(studentizedRangeTail(q, groups, df), tail, { relative: 1e-9 });
        },
      ),
      { numRuns: 60 },
    );
  });

  it("rises with the number of groups and falls with q", () => {
    expect(studentizedRangeTail(4, 6, 9.5)).toBeGreaterThan(studentizedRangeTail(4, 5, 9.5));
    expect(studentizedRangeTail(4, 6, 9.5)).toBeGreaterThan(studentizedRangeTail(4.01, 6, 9.5));
  });

  it("gives the same for the same question, whatever was asked before", () => {
    const first = studentizedRangeTail(3.3, 7, 6.2);
    studentizedRangeTail(5e5, 7, 6.2);
    expect(studentizedRangeTail(3.3, 7, 6.2)).toBe(first);
  });

  it("has critical values for many pairs that are its quantiles", () => {
    const critical = criticalByOctaves((df) => studentizedRangeQuantile(0.05, 12, df));
    for (const df of [1, 1.9, 2, 3.3, 5, 9.99, 17.2, 63, 1000, 1e5, endless]) {
      expectNumber(critical(df), studentizedRangeQuantile(0.05, 12, df), { relative: 1e-10 });
    }
  });

  it("ends at 1 and 0, and refuses what has no meaning", () => {
    expect(studentizedRangeTail(0, 3, 8)).toBe(1);
    expect(studentizedRangeTail(endless, 3, 8)).toBe(0);
    expect(() => studentizedRangeTail(2, 1, 8)).toThrow(RangeError);
    expect(() => studentizedRangeTail(2, 2.5, 8)).toThrow(RangeError);
    expect(() => studentizedRangeTail(2, 3, 0.4)).toThrow(RangeError);
    expect(() => studentizedRangeTail(Number.NaN, 3, 8)).toThrow(RangeError);
    expect(() => studentizedRangeQuantile(0, 3, 8)).toThrow(RangeError);
  });
});
