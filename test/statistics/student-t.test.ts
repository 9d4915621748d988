import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { criticalByOctaves } from "../../core/statistics/distribution/critical-by-octaves.ts";
import {
  studentTCritical,
  studentTQuantile,
  studentTTwoSidedTail,
  studentTUpperTail,
} from "../../core/statistics/distribution/student-t.ts";
import { expectNumber } from "../numbers.ts";
import { numberOf, readExpected } from "../reference/read-reference.ts";

const reference = readExpected("student-t");

describe("Student's t", () => {
  it("has R's quantiles, also for fractions of degrees of freedom (reference student-t, qt)", () => {
    const quantiles = reference.filter((row) => row.kind === "quantile");
    expect(quantiles.length).toBeGreaterThan(100);
    for (const row of quantiles) {
      const actual = studentTQuantile(numberOf(row, "x"), numberOf(row, "df"));
      expectNumber(actual, numberOf(row, "value"), { relative: 1e-9 });
    }
  });

  it("has R's upper tails, down to where a computer's numbers end (reference student-t, pt)", () => {
    const tails = reference.filter((row) => row.kind === "upper-tail");
    expect(tails.length).toBeGreaterThan(100);
    expect(tails.some((row) => numberOf(row, "value") < 1e-100)).toBe(true);
    for (const row of tails) {
      const actual = studentTUpperTail(numberOf(row, "x"), numberOf(row, "df"));
      expectNumber(actual, numberOf(row, "value"), { relative: 1e-9 });
    }
  });

  it.each([
    [0.95, 1, 12.706],
    [0.95, 2, 4.303],
    [0.95, 4, 2.776],
    [0.9, 4, 2.132],
    [0.99, 9, 3.25],
    [0.95, Number.POSITIVE_INFINITY, 1.96],
  ])(
    "has the printed factor for %d with %d degrees of freedom: %d (tables of t, three decimals)",
    (level, df, factor) => {
      expectNumber(studentTCritical(level, df), factor, { absolute: 0.0005 });
    },
  );

  it("goes over into the normal distribution, whose factors are 1.959964 and 2.575829, however many degrees of freedom", () => {
    // Abramowitz and Stegun 26.7.5: t = z + (z^3 + z)/(4 nu). Welch and Satterthwaite's sum gives 1e60 and more.
    fc.assert(
      fc.property(fc.double({ min: 7, max: 300, noNaN: true }), (exponent) => {
        const nu = 10 ** exponent;
        for (const [level, z] of [
          [0.95, 1.959963984540054],
          [0.99, 2.5758293035489004],
        ] as const) {
          expectNumber(studentTCritical(level, nu), z + (z ** 3 + z) / (4 * nu), { relative: 1e-9 });
        }
      }),
    );
  });

  it("has closed forms: Cauchy's tail for one degree of freedom, 1/2 - t/(2 sqrt(2 + t^2)) for two", () => {
    const positive = fc.double({ min: 0, max: 50, noNaN: true });
    fc.assert(
      fc.property(positive, (t) => {
        expectNumber(studentTUpperTail(t, 1), 0.5 - Math.atan(t) / Math.PI, { relative: 1e-9, absolute: 1e-15 });
        expectNumber(studentTUpperTail(t, 2), 0.5 - t / (2 * Math.sqrt(2 + t * t)), {
          relative: 1e-9,
          absolute: 1e-15,
        });
      }),
    );
  });

  it("keeps its digits next to zero, where the density of Cauchy's distribution is 1/pi", () => {
    for (const t of [1e-12, 1.57e-9, 1e-8]) {
      expectNumber(0.5 - studentTUpperTail(t, 1), t / Math.PI, { absolute: 1e-15 });
    }
  });

  it("undoes its quantile by its tail", () => {
    const tail = fc.double({ min: 1e-9, max: 0.499, noNaN: true });
    const degreesOfFreedom = fc.double({ min: 1, max: 500, noNaN: true });
    fc.assert(
      fc.property(tail, degreesOfFreedom, (probability, df) => {
        expectNumber(studentTUpperTail(-studentTQuantile(probability, df), df), probability, { relative: 1e-9 });
      }),
    );
  });

  it("is symmetric, and half lies above zero", () => {
    expectNumber(studentTUpperTail(0, 3.3), 0.5, { relative: 1e-15 });
    expectNumber(studentTUpperTail(-1.2, 3.3) + studentTUpperTail(1.2, 3.3), 1, { relative: 1e-15 });
    expect(studentTTwoSidedTail(-1.2, 3.3)).toBe(studentTTwoSidedTail(1.2, 3.3));
    expect(studentTUpperTail(Number.POSITIVE_INFINITY, 3)).toBe(0);
    expect(studentTUpperTail(Number.NEGATIVE_INFINITY, 3)).toBe(1);
  });

  it("becomes normal with endless degrees of freedom (P(Z > 1.959963985) = 0.025, tables)", () => {
    expectNumber(studentTUpperTail(1.959963984540054, Number.POSITIVE_INFINITY), 0.025, { relative: 1e-12 });
    // The lead term of Mills' ratio bounds a far tail: phi(z)/z (1 - 1/z^2) < P < phi(z)/z.
    const tail = studentTUpperTail(30, Number.POSITIVE_INFINITY);
    const mills = Math.exp(-450) / Math.sqrt(2 * Math.PI) / 30;
    expect(tail).toBeLessThan(mills);
    expect(tail).toBeGreaterThan(mills * (1 - 1 / 900));
  });

  it("has critical values for many pairs that are its own", () => {
    const critical = criticalByOctaves((df) => studentTCritical(0.95, df));
    for (const df of [1, 1.0001, 1.5, 2, 2.7, 5.43, 9.99, 17.2, 63, 1000, 1e5, Number.POSITIVE_INFINITY]) {
      expectNumber(critical(df), studentTCritical(0.95, df), { relative: 1e-10 });
    }
  });

  it("refuses what has no meaning", () => {
    expect(() => studentTUpperTail(1, 0)).toThrow(RangeError);
    expect(() => studentTUpperTail(Number.NaN, 3)).toThrow(RangeError);
    expect(() => studentTQuantile(1, 3)).toThrow(RangeError);
    expect(() => studentTCritical(0, 3)).toThrow(RangeError);
    expect(() => studentTCritical(0.95, Number.NaN)).toThrow(RangeError);
  });
});
