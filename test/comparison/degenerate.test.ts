import { describe, expect, it } from "vitest";
import { type ComparedTable, type ComparisonSettings, compareTable, type TableComparison } from "../../core/index.ts";
import { expectNumber } from "../numbers.ts";
import { numbersWithin } from "../statistics/groups.ts";
import { tableFrom } from "./tables.ts";

const usual: ComparisonSettings = {
  baseline: null,
  margin: null,
  confidence: 0.95,
  resampling: { resamples: 500, seed: 1 },
};
const compare = (table: ComparedTable, more: Partial<ComparisonSettings> = {}) =>
  compareTable(table, { ...usual, ...more }, "en");

/** Rows with their blocks. */
function inBlocks(rows: readonly (readonly [level: string, block: string, value: number])[]): ComparedTable {
  return {
    ...tableFrom({}),
    hasBlocks: true,
    rows: rows.map(([level, block, value], index) => {
      return { row: index + 2, level, block, value, factors: [], order: null };
    }),
  };
}

function everything({ sentences, warnings, notes }: TableComparison): string {
  return [...sentences, ...warnings, ...notes].join("\n");
}

describe("an impossible request", () => {
  it("one run: the difference stands, interval and test are null, and it is said", () => {
    const comparison = compare(tableFrom({ A: [1, 2, 3], B: [5] }));
    expect(comparison.leads).toBe("welch");
    expect(comparison.pairs[0]).toMatchObject({
      difference: { value: 3, lower: null, upper: null },
      welch: { t: null, degreesOfFreedom: null, p: null, holmP: null },
      ratio: { value: 2.5, fieller: { lower: null, upper: null } },
    });
    expect(comparison.groups.B).toMatchObject({
      n: 1,
      mean: 5,
      standardDeviation: null,
      interval: null,
      grubbs: null,
      shapiroWilk: null,
      bootstrap: null,
    });
    expect(comparison.welchAnova).toBeNull();
    expect(comparison.notes).toContainEqual(expect.stringMatching(/^“B” has one run: no interval/));
    expect(everything(comparison)).toContain("how sure that is cannot be said");
  });

  it("no variation: no scatter is made up", () => {
    const comparison = compare(tableFrom({ A: [4, 4, 4], B: [5, 5, 5] }));
    expect(comparison.pairs[0]).toMatchObject({
      difference: { value: 1, lower: null, upper: null },
      welch: { t: null, p: null },
      hedgesG: { value: null },
    });
    expect([comparison.anova, comparison.welchAnova, comparison.brownForsythe]).toEqual([null, null, null]);
    expect(comparison.tukey).toEqual([
      { baseline: "A", variant: "B", difference: 1, lower: null, upper: null, p: null },
    ]);
    expect(everything(comparison)).toContain("do not vary");
    expect(comparison.warnings.filter((warning) => warning.includes("do not vary at all"))).toHaveLength(2);
  });

  it("one variant: nothing leads, its own numbers are there", () => {
    const comparison = compare(tableFrom({ A: [4, 5, 6] }));
    expect(comparison).toMatchObject({ leads: null, pairs: [], tukey: [], gamesHowell: [], anova: null });
    expect(comparison.because).toContain("nothing to compare");
    expectNumber(comparison.groups.A?.mean, 5);
    expect(comparison.notes.join(" ")).toContain("one variant only");
  });

  it("a block with one variant says nothing, and the other blocks are still used", () => {
    const shared = [
      ["A", "1", 10],
      ["B", "1", 13],
      ["A", "2", 12],
      ["B", "2", 14.5],
      ["A", "3", 11],
      ["B", "3", 14],
    ] as const;
    const whole = compare(inBlocks(shared));
    const withSingle = compare(inBlocks([...shared, ["B", "4", 99]]));
    expect(withSingle.leads).toBe("blocked");
    expectNumber(withSingle.blocked?.pairs[0]?.difference, whole.blocked?.pairs[0]?.difference ?? 0, {
      relative: 1e-12,
    });
    // Paired differences 3, 2.5, 3: mean 17/6, by hand.
    expectNumber(withSingle.blocked?.pairs[0]?.difference, 17 / 6, { relative: 1e-12 });
    expect(withSingle.notes.join(" ")).toContain("“4”");
  });

  it("blocks that hold one variant each cannot be taken out: another analysis leads, and it is said", () => {
    const comparison = compare(
      inBlocks([
        ["A", "1", 4],
        ["A", "1", 5],
        ["B", "2", 7],
        ["B", "2", 6],
      ]),
    );
    expect(comparison.leads).toBe("welch");
    expect(comparison.blocked).toBeNull();
    expect(comparison.because).toContain("cannot be taken out");
    expect(everything(comparison)).toContain("no block joins the variants");
  });

  it("a margin of zero: no equivalence, and why", () => {
    const comparison = compare(tableFrom({ A: [1, 2, 3], B: [1.5, 2.5, 2] }), { margin: 0 });
    expect(comparison.pairs[0]?.equivalence).toEqual({ margin: 0, p: null, equivalent: null });
    expect(comparison.notes.join(" ")).toContain("margin of zero");
  });

  it("a baseline whose mean may be zero: no bounded ratio, told in words", () => {
    const comparison = compare(tableFrom({ A: [0.8, -0.5, 1.1, 0.2, -0.3], B: [1.9, 2.4, 1.2] }));
    expect(comparison.pairs[0]?.ratio.fieller).toEqual({ lower: null, upper: null });
    expect(comparison.warnings.join(" ")).toContain("the mean below the line may be zero");
    expect(numbersWithin(comparison).every(Number.isFinite)).toBe(true);
  });

  it("factors of one level and of runs that are too few: null, with a note", () => {
    const table: ComparedTable = {
      ...tableFrom({}),
      factors: ["skirt", "gap"],
      rows: [
        { row: 2, value: 1, level: "A", block: null, factors: ["no", "wide"], order: null },
        { row: 3, value: 2, level: "B", block: null, factors: ["yes", "wide"], order: null },
      ],
    };
    const comparison = compare(table);
    expect(comparison.leads).toBe("factors");
    expect(comparison.factors.find(({ term }) => term === "gap")?.effect).toBeNull();
    expect(comparison.factors.find(({ term }) => term === "skirt")).toMatchObject({ effect: 1, lower: null, p: null });
    expect(comparison.warnings.join(" ")).toContain("one level only");
  });

  it("a baseline that is not there is a programmer's error: the door has looked", () => {
    expect(() => compareTable(tableFrom({ A: [1] }), { ...usual, baseline: "B" }, "en")).toThrow(RangeError);
  });
});
