import { describe, expect, it } from "vitest";
import { anova } from "../../core/statistics/anova.ts";
import { brownForsythe } from "../../core/statistics/brown-forsythe.ts";
import {
  studentizedRangeQuantile,
  studentizedRangeTail,
} from "../../core/statistics/distribution/studentized-range.ts";
import { gamesHowell } from "../../core/statistics/games-howell.ts";
import { tukey } from "../../core/statistics/tukey.ts";
import { welch } from "../../core/statistics/welch.ts";
import { welchAnova } from "../../core/statistics/welch-anova.ts";
import { expectNumber } from "../numbers.ts";
import { numberOf, readExpected } from "../reference/read-reference.ts";
import { severalGroups } from "./several-groups.ts";

const reference = readExpected("several-groups");
const rowsOf = (method: string) => reference.filter((row) => row.method === method);

describe("tests of several groups at once", () => {
  for (const [method, test] of [
    ["anova", anova],
    ["brown-forsythe", brownForsythe],
    ["welch-anova", welchAnova],
  ] as const) {
    it.each(rowsOf(method))(`are R's: ${method}, $case (reference several-groups)`, (row) => {
      const result = test(severalGroups("several-groups", row.case).groups);
      expect(result.because).toBeNull();
      // R loses digits of the set with the large offset; the groups' differences there have seven.
      const relative = row.case === "large-offset" ? 1e-6 : 1e-9;
      for (const field of ["f", "df1", "df2", "p"] as const) {
        expectNumber(result[field], numberOf(row, field), { relative });
      }
    });
  }

  it("are Welch's t-test for two groups", () => {
    const [baseline, variant] = [
      [21.2, 22.4, 20.9],
      [24.1, 23.8, 25.6, 24.4],
    ];
    const pair = welch({ baseline, variant, confidence: 0.95 });
    const several = welchAnova([baseline, variant]);
    expectNumber(several.f, (pair.t ?? Number.NaN) ** 2, { relative: 1e-13 });
    expectNumber(several.df2, pair.degreesOfFreedom ?? Number.NaN, { relative: 1e-13 });
    expectNumber(several.p, pair.p ?? Number.NaN, { relative: 1e-12 });
  });

  it("find F = 9.59 with 2 and 12 degrees of freedom (NIST/SEMATECH e-Handbook, 7.4.3.4, from memory)", () => {
    const result = anova([
      [6.9, 5.4, 5.8, 4.6, 4],
      [8.3, 6.8, 7.8, 9.2, 6.5],
      [8, 10.5, 8.1, 6.9, 9.3],
    ]);
    expectNumber(result.f, 9.59, { absolute: 0.005 });
    expect([result.df1, result.df2]).toEqual([2, 12]);
    expectNumber(result.p, 0.00325, { absolute: 5e-6 });
  });

  it("find F = 19.61 of hardwood and paper (Montgomery and Runger, Applied Statistics and Probability for Engineers, table S13-2)", () => {
    const result = anova(hardwood);
    expectNumber(result.f, 19.61, { absolute: 0.005 });
    expect([result.df1, result.df2]).toEqual([3, 20]);
  });

  it("say why they are missing", () => {
    const missing = { f: null, df1: null, df2: null, p: null };
    for (const test of [anova, brownForsythe, welchAnova]) {
      expect(test([])).toEqual({ ...missing, because: "no-values" });
      expect(test([[], []])).toEqual({ ...missing, because: "no-values" });
      expect(test([[], [1, 2, 4]])).toEqual({ ...missing, because: "one-group" });
      expect(test([[4], [5], [6]])).toEqual({ ...missing, because: "one-value" });
      expect(
        test([
          [4, 4, 4],
          [5, 5, 5],
        ]),
      ).toEqual({ ...missing, because: "no-scatter" });
      expect(() => test([[1, Number.NaN], [2]])).toThrow(RangeError);
    }
    expect(
      welchAnova([
        [4, 5],
        [6, 6, 6],
      ]).because,
    ).toBe("no-scatter");
    expect(welchAnova([[4, 5, 7], [6]]).because).toBe("one-value");
    expect(anova([[0.1 + 0.2, 0.3], [0.4]]).because).toBe("no-scatter");
  });

  it("do not take the rounding of large values for unequal scatter", () => {
    // Two values are equally far from their middle, whatever rounding makes of it.
    const pairs = [
      [1e12 + 0.1, 1e12 + 0.7],
      [1e12 + 0.3, 1e12 + 5.2],
    ];
    expect(brownForsythe(pairs).because).toBe("no-scatter");
    expect(brownForsythe([[1.1, 1.3], [2.2, 2.9], [7.4]]).because).toBe("no-scatter");
  });

  it("leave out groups without values, and count those with one where that has a meaning", () => {
    const [one, other] = [
      [1, 2, 4],
      [3, 5, 6, 9],
    ];
    expect(anova([one, [], other])).toEqual(anova([one, other]));
    expect(welchAnova([[], one, other])).toEqual(welchAnova([one, other]));
    expect(anova([one, other, [7]])).toMatchObject({ df1: 2, df2: 5, because: null });
    expect(anova([[4, 4, 4], one])).toMatchObject({ df1: 1, df2: 4, because: null });
  });
});

/** Tensile strength of paper by hardwood content of the pulp (5, 10, 15, 20 %). */
const hardwood = [
  [7, 8, 15, 11, 9, 10],
  [12, 17, 13, 18, 19, 15],
  [14, 18, 19, 17, 16, 18],
  [19, 25, 22, 23, 18, 20],
];

describe("comparisons of all pairs", () => {
  for (const [method, compare] of [
    ["tukey", tukey],
    ["games-howell", gamesHowell],
  ] as const) {
    const names = [...new Set(rowsOf(method).map((row) => row.case))];
    it.each(names)(`are R's: ${method}, %s (reference several-groups)`, (name) => {
      const { groups, confidence } = severalGroups("several-groups", name);
      const pairs = compare(groups, confidence);
      const rows = rowsOf(method).filter((row) => row.case === name);
      for (const row of rows) {
        const pair = pairs.find(({ first, second }) => first === row.first && second === row.second);
        const difference = numberOf(row, "difference");
        // R's own rounding of the set with the large offset leaves its differences eight digits.
        const relative = name === "large-offset" ? 1e-6 : 1e-9;
        expectNumber(pair?.difference, difference, { relative, absolute: 1e-12 });
        // R's ptukey and qtukey are off by up to 1e-4 of themselves for the few degrees of freedom of some of these pairs.
        const half = (numberOf(row, "upper") - numberOf(row, "lower")) / 2;
        expectNumber(pair?.lower, numberOf(row, "lower"), { absolute: 3e-5 * half });
        expectNumber(pair?.upper, numberOf(row, "upper"), { absolute: 3e-5 * half });
        expectNumber(pair?.p, numberOf(row, "p"), { relative: 2e-4, absolute: 1.5e-5 });
        // What q and the degrees of freedom of R give by the distribution that reference studentized-range has checked.
        const [error, df] = [numberOf(row, "error"), numberOf(row, "degreesOfFreedom")];
        const p = studentizedRangeTail(Math.abs(difference) / error, groups.length, df);
        expectNumber(pair?.p, p, { relative: 100 * relative, absolute: 1e-12 });
        const critical = studentizedRangeQuantile(1 - confidence, groups.length, df);
        expectNumber(pair?.upper, difference + critical * error, {
          absolute: relative * (half + Math.abs(difference)),
        });
      }
    });
  }

  it("have the printed limits (Montgomery and Runger, table S13-2, whose sign is the other way round; critical value 3.96)", () => {
    const printed = [
      [0, 1, 1.542, 9.791],
      [0, 2, 2.876, 11.124],
      [0, 3, 7.042, 15.291],
      [1, 2, -2.791, 5.458],
      [1, 3, 1.376, 9.624],
      [2, 3, 0.042, 8.291],
    ] as const;
    const pairs = tukey(hardwood, 0.95);
    for (const [index, [first, second, lower, upper]] of printed.entries()) {
      expect(pairs[index]).toMatchObject({ first, second, because: null });
      // The printed critical value has two decimals: 0.005 sp/sqrt(6).
      expectNumber(pairs[index]?.lower, lower, { absolute: 0.006 });
      expectNumber(pairs[index]?.upper, upper, { absolute: 0.006 });
    }
  });

  it("are the tests of two groups where there are only two", () => {
    const [baseline, variant] = [
      [21.2, 22.4, 20.9],
      [24.1, 23.8, 25.6, 24.4],
    ];
    const alone = welch({ baseline, variant, confidence: 0.9 });
    const [pair] = gamesHowell([baseline, variant], 0.9);
    expectNumber(pair?.p, alone.p ?? Number.NaN, { relative: 1e-11 });
    expectNumber(pair?.lower, alone.interval?.lower ?? Number.NaN, { relative: 1e-9 });
    expectNumber(pair?.degreesOfFreedom, alone.degreesOfFreedom ?? Number.NaN, { relative: 1e-13 });
    const [pooled] = tukey([baseline, variant], 0.9);
    expectNumber(pooled?.p, anova([baseline, variant]).p ?? Number.NaN, { relative: 1e-11 });
  });

  it("have limits that just touch zero at the confidence 1 - p", () => {
    const groups = [
      [3.1, 2.9, 3.6],
      [3.9, 4.4, 3.7, 4.1],
      [3.3, 3.4, 3.2],
    ];
    for (const compare of [tukey, gamesHowell]) {
      const p = compare(groups, 0.95)[0]?.p ?? Number.NaN;
      expectNumber(compare(groups, 1 - p)[0]?.lower, 0, { absolute: 1e-9 });
    }
  });

  it("are given for pairs that can be compared, and say why the others are not", () => {
    const groups = [[1, 2, 4], [], [5], [6, 6, 6], [8, 9.5, 9]];
    const howell = gamesHowell(groups, 0.95);
    expect(howell).toHaveLength(10);
    const reasons = howell.map(({ first, second, because }) => `${first}${second} ${because}`);
    expect(reasons).toEqual([
      "01 no-values",
      "02 one-value",
      "03 null",
      "04 null",
      "12 no-values",
      "13 no-values",
      "14 no-values",
      "23 one-value",
      "24 one-value",
      "34 null",
    ]);
    expect(howell[1]).toMatchObject({ lower: null, upper: null, p: null, degreesOfFreedom: null });
    expectNumber(howell[1]?.difference, 5 - 7 / 3, { relative: 1e-14 });
    // Four groups have values: the empty one does not make the others' limits wider.
    expect(howell[3]?.p).toBe(gamesHowell([[1, 2, 4], [5], [6, 6, 6], [8, 9.5, 9]], 0.95)[2]?.p);
    expect(tukey(groups, 0.95).filter(({ because }) => because === null)).toHaveLength(6);
    expect(tukey([[1], [2]], 0.95)[0]).toMatchObject({ difference: 1, p: null, because: "one-value" });
    for (const compare of [tukey, gamesHowell]) {
      expect(compare([], 0.95)).toEqual([]);
      expect(compare([[1, 2]], 0.95)).toEqual([]);
      const still = [
        [4, 4],
        [5, 5, 5],
      ];
      expect(compare(still, 0.95)[0]).toMatchObject({ difference: 1, lower: null, p: null, because: "no-scatter" });
      expect(() => compare([[1, 2], [3]], 95)).toThrow(RangeError);
      expect(() => compare([[1, Number.POSITIVE_INFINITY], [3]], 0.95)).toThrow(RangeError);
    }
  });

  it("keep the digits of differences beside a large offset", () => {
    // Multiples of 1/8 are held exactly beside 1e12.
    const small = [
      [0.125, 0.5, 0.25],
      [0.875, 0.625, 0.75],
      [0.5, 0.375, 0.125],
    ];
    const large = small.map((values) => values.map((value) => value + 1e12));
    for (const compare of [tukey, gamesHowell]) {
      const [near, far] = [compare(small, 0.95), compare(large, 0.95)];
      for (const [index, pair] of near.entries()) {
        expectNumber(far[index]?.difference, pair.difference ?? Number.NaN, { relative: 1e-13 });
        expectNumber(far[index]?.p, pair.p ?? Number.NaN, { relative: 1e-11 });
      }
    }
    expectNumber(welchAnova(large).f, welchAnova(small).f ?? Number.NaN, { relative: 1e-12 });
  });
});
