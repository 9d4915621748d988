import { describe, expect, it } from "vitest";
import { type BlockedRow, blockedAnalysis } from "../../core/statistics/blocked.ts";
import { expectNumber } from "../numbers.ts";
import { cellOf, numberOf, numbersOf, readExpected, readInput } from "../reference/read-reference.ts";

function rowsOf(values: readonly number[], levels: string, blocks: string): BlockedRow[] {
  const [level, block] = [levels.split(" "), blocks.split(" ")];
  return values.map((value, index) => ({ value, level: level[index] ?? "", block: block[index] ?? "" }));
}

function caseOf(name: unknown) {
  const input = readInput("blocked").get(String(name));
  const rows = rowsOf(numbersOf(cellOf(input, "values")), cellOf(input, "levels"), cellOf(input, "blocks"));
  const levels = [...new Set(rows.map((row) => row.level))];
  return { rows, levels, confidence: Number(cellOf(input, "confidence")) };
}

describe("the analysis of randomised blocks", () => {
  it.each(readExpected("blocked"))("is R's: $case (reference blocked, lm)", (row) => {
    const { rows, levels, confidence } = caseOf(row.case);
    const result = blockedAnalysis(rows, levels, confidence);
    expect(result.because).toBeNull();
    for (const field of ["variantF", "df1", "df2", "p", "residualDeviation"] as const) {
      expectNumber(result[field], numberOf(row, field), { relative: 1e-8 });
    }
    expect(result.pairs).toHaveLength((levels.length * (levels.length - 1)) / 2);
    for (const pair of result.pairs) {
      expect(pair.because).toBeNull();
      for (const field of ["difference", "standardError", "lower", "upper", "p"] as const) {
        const name = `${field}${levels[pair.first]}${levels[pair.second]}`;
        expectNumber(pair[field], numberOf(row, name), { relative: 1e-8, absolute: 1e-10 });
      }
    }
  });

  it("is the paired t-test for two variants in complete pairs: Student's sleep data (1908), t = 4.0621, p = 0.002833", () => {
    const { rows, levels } = caseOf("sleep");
    const result = blockedAnalysis(rows, levels, 0.95);
    const [pair] = result.pairs;
    expectNumber(pair?.t, 4.0621, { absolute: 0.00005 });
    expectNumber(pair?.p, 0.002833, { absolute: 5e-7 });
    expectNumber(pair?.difference, 1.58, { relative: 1e-12 });
    expectNumber(pair?.lower, 0.7001142, { absolute: 5e-8 });
    expectNumber(pair?.upper, 2.4598858, { absolute: 5e-8 });
    expectNumber(result.variantF, (pair?.t ?? 0) ** 2, { relative: 1e-10 });
    expect(result.df2).toBe(9);
    expect(result.isBalanced).toBe(true);
  });

  it("takes nothing on a difference from a block with one variant, and names it", () => {
    const { rows, levels } = caseOf("pairs");
    const lone = { value: 9999, level: "A", block: "d9" };
    const plain = blockedAnalysis(rows, levels, 0.95);
    const more = blockedAnalysis([...rows, lone], levels, 0.95);
    expect(plain.uninformativeBlocks).toEqual([]);
    expect(more.uninformativeBlocks).toEqual(["d9"]);
    expect(more.isBalanced).toBe(false);
    expectNumber(more.variantF, plain.variantF ?? 0, { relative: 1e-9 });
    expectNumber(more.pairs[0]?.difference, plain.pairs[0]?.difference ?? 0, { relative: 1e-9 });
  });

  it("adjusts for blocks: a bad day on which only A and B were run does not count against them", () => {
    // Every day B is 2 and C is 3 above A; the second day is 10 worse and has no C.
    const rows = rowsOf([10, 12, 13.1, 0.1, 2, 10, 12.1, 13], "A B C A B A B C", "d1 d1 d1 d2 d2 d3 d3 d3");
    const { pairs } = blockedAnalysis(rows, ["A", "B", "C"], 0.95);
    expectNumber(pairs[1]?.difference, 3, { absolute: 0.1 });
  });

  it("has no difference for variants that no block joins, and still the others'", () => {
    const rows = rowsOf([1, 2.1, 1.3, 2.2, 5, 7.1, 5.2, 7], "A B A B C D C D", "d1 d1 d2 d2 d3 d3 d4 d4");
    const { pairs, df1, p } = blockedAnalysis(rows, ["A", "B", "C", "D"], 0.95);
    const reasons = Object.fromEntries(pairs.map(({ first, second, because }) => [`${first}${second}`, because]));
    const none = "never-together";
    expect(reasons).toEqual({ "01": null, "02": none, "03": none, "12": none, "13": none, "23": null });
    expect(df1).toBe(2);
    expect(p).toBeGreaterThan(0);
    expectNumber(pairs[5]?.difference, 1.95, { relative: 1e-12 });
  });

  it("says why F is missing", () => {
    const missing = { variantF: null, p: null };
    expect(blockedAnalysis([], ["A", "B"], 0.95)).toMatchObject({ ...missing, because: "no-values" });
    const apart = rowsOf([1, 2, 3, 4], "A A B B", "d1 d1 d2 d2");
    const never = blockedAnalysis(apart, ["A", "B"], 0.95);
    expect(never).toMatchObject({ ...missing, because: "never-together", uninformativeBlocks: ["d1", "d2"] });
    expect(never.pairs[0]).toMatchObject({ difference: null, p: null, because: "never-together" });
    const one = blockedAnalysis(rowsOf([1, 3], "A B", "d1 d1"), ["A", "B"], 0.95);
    expect(one).toMatchObject({ ...missing, because: "no-degrees-of-freedom" });
    expect(one.pairs[0]).toMatchObject({ p: null, because: "no-degrees-of-freedom" });
    expectNumber(one.pairs[0]?.difference, 2, { relative: 1e-14 });
    const exact = blockedAnalysis(rowsOf([1, 3, 1.1, 3.1, 7, 9], "A B A B A B", "a a b b c c"), ["A", "B"], 0.95);
    expect(exact).toMatchObject({ ...missing, because: "no-scatter" });
    const absent = blockedAnalysis(rowsOf([1, 3, 2, 5], "A B A B", "a a b b"), ["A", "B", "C"], 0.95);
    expect(absent.pairs.map((pair) => pair.because)).toEqual([null, "no-values", "no-values"]);
  });

  it("refuses a level that is not listed", () => {
    expect(() => blockedAnalysis(rowsOf([1], "Z", "d"), ["A", "B"], 0.95)).toThrow(RangeError);
  });
});
