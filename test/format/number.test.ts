import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { decimalsFor, formatFixed, formatSignificant } from "../../core/format/number.ts";
import { expectNumber } from "../numbers.ts";

const minus = "\u2212";
const space = "\u202f";

describe("a number with a fixed count of decimals", () => {
  it.each([
    // Halves that binary numbers hold exactly go away from zero.
    [0.5, 0, "1"],
    [1.5, 0, "2"],
    [2.5, 0, "3"],
    [-2.5, 0, `${minus}3`],
    [0.125, 2, "0.13"],
    [-0.125, 2, `${minus}0.13`],
    // 1.005 is 1.00499999999999989… and 2.675 is 2.67499999999999982…: rounded as what they are.
    [1.005, 2, "1.00"],
    [2.675, 2, "2.67"],
    [1.45, 1, "1.4"],
    [8.345, 2, "8.35"],
    [99.95, 1, "100.0"],
    [999.96, 1, `1${space}000.0`],
  ])("%d with %d decimals is %s", (value, decimals, text) => {
    expect(formatFixed(value, decimals, "en")).toBe(text);
  });

  it("has no sign where it comes out as zero", () => {
    expect(formatFixed(-0, 0, "en")).toBe("0");
    expect(formatFixed(-0, 2, "en")).toBe("0.00");
    expect(formatFixed(-0.004, 2, "en")).toBe("0.00");
    expect(formatFixed(-0.4, 0, "en")).toBe("0");
    expect(formatFixed(-0.005, 2, "en")).toBe(`${minus}0.01`);
  });

  it("has a narrow space between thousands of the whole part alone", () => {
    expect(formatFixed(999, 0, "en")).toBe("999");
    expect(formatFixed(1000, 0, "en")).toBe(`1${space}000`);
    expect(formatFixed(-1234567.891011, 6, "en")).toBe(`${minus}1${space}234${space}567.891011`);
  });

  it("takes at most 20 decimals and no fewer than none", () => {
    expect(formatFixed(1 / 3, 25, "en")).toBe(`0.${(1 / 3).toFixed(20).slice(2)}`);
    expect(formatFixed(12.5, -1, "en")).toBe("13");
  });

  it("is written out however large it is, never with an exponent", () => {
    expect(formatFixed(1e21, 0, "en")).toBe(`1${`${space}000`.repeat(7)}`);
    expect(formatFixed(-1e21, 1, "en")).toBe(`${minus}1${`${space}000`.repeat(7)}.0`);
    expect(formatFixed(2 ** 80, 0, "en")).toBe("1 208 925 819 614 629 174 706 176".replaceAll(" ", space));
  });

  it("reads back as the number it was, to half of the last decimal", () => {
    fc.assert(
      fc.property(
        fc.double({ min: -1e9, max: 1e9, noNaN: true }),
        fc.integer({ min: 0, max: 6 }),
        (value, decimals) => {
          const text = formatFixed(value, decimals, "en");
          expect(text).toMatch(/^\u2212?\d{1,3}(\u202f\d{3})*(\.\d+)?$/);
          expect(text.split(".")[1]?.length ?? 0).toBe(decimals);
          const back = Number(text.replaceAll(space, "").replace(minus, "-"));
          expectNumber(back, value, { absolute: 0.5 * 10 ** -decimals + 1e-7 });
        },
      ),
    );
  });
});

describe("decimals for so many significant digits (JCGM 100:2008, 7.2.6: at most two for an uncertainty)", () => {
  it.each([
    [0.0123, 2, 3],
    [0.0999, 2, 2],
    [0.0994, 2, 3],
    [1.23, 2, 1],
    // Rounds up to 10, which has two digits without decimals.
    [9.96, 2, 0],
    [9.94, 2, 1],
    [99.6, 2, 0],
    [123, 2, 0],
    [0.96, 1, 0],
    [0.94, 1, 1],
    [-0.0123, 2, 3],
    [1, 1, 0],
    [5e-324, 2, 12],
    [1e-13, 2, 12],
    [1e300, 2, 0],
  ])("of %d to %d digits: %d", (magnitude, digits, decimals) => {
    expect(decimalsFor(magnitude, digits)).toBe(decimals);
  });

  it("are none for zero and for what is no number", () => {
    for (const value of [0, -0, Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY]) {
      expect(decimalsFor(value)).toBe(0);
    }
  });

  it("show that many digits, and not one more", () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-8, max: 0.99, noNaN: true }), fc.integer({ min: 1, max: 3 }), (value, digits) => {
        const text = formatFixed(value, decimalsFor(value, digits), "en");
        expect(text.replace(/^0\.0*/, "").replace(".", "")).toHaveLength(digits);
      }),
    );
  });
});

describe("a number with so many significant digits", () => {
  it.each([
    [0, 3, "0"],
    [-0, 3, "0"],
    [0.00012345, 3, "0.000123"],
    [9.996, 3, "10.0"],
    [1234.5, 3, `1${space}235`],
    [-0.05, 2, `${minus}0.050`],
    [1e-6, 1, "0.000001"],
    [1e15, 2, `1${space}000${space}000${space}000${space}000${space}000`],
  ])("%d to %d digits is %s", (value, digits, text) => {
    expect(formatSignificant(value, digits, "en")).toBe(text);
  });
});
