import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { readComparisonTable } from "../../app/import/read-comparison-table.ts";
import { type ComparedTable, type ComparisonSettings, compareTable } from "../../core/index.ts";
import { comparedCase, tableFrom, tableOf } from "./tables.ts";

const settings: ComparisonSettings = { baseline: null, margin: null, confidence: 0.95, resampling: null };
const compare = (table: ComparedTable, more: Partial<ComparisonSettings> = {}) =>
  compareTable(table, { ...settings, ...more }, "en");

describe("the words of a comparison", () => {
  it("say direction, size, interval, number of runs and how sure", () => {
    const [, , sentence = ""] = comparedCase("two-usual").sentences;
    // R 4.2.2 (reference compare-tables): ratio 0.826764, Fieller 0.789 to 0.866; p = 3.2e-5
    expect(sentence).toBe(
      "“skirt” was 17 % lower in “value” than “no skirt” (95 % interval 13 to 21 % less; 4 runs against 5; " +
        "if the two were alike, runs would differ this much less than once in 1\u202f000 such tests).",
    );
  });

  it("say where the runs cannot tell, the range, and how many more would", () => {
    const { sentences } = compare(tableFrom({ A: [10, 12, 11, 13], B: [10.5, 12.5, 12, 11] }));
    const pair = sentences.find((sentence) => sentence.startsWith("These runs cannot tell"));
    expect(pair).toMatch(/“B” from “A” in “value”: the difference lies between \d+ % less and \d+ % more/);
    expect(pair).toMatch(/With \d+ more runs of each there would be an 80 % chance of showing a difference of 10 %\./);
  });

  it("say one of the program's own quantities in its own words and shown unit", () => {
    const table = {
      ...tableFrom({ A: [0.2, 0.21, 0.19, 0.2], B: [0.26, 0.27, 0.25, 0.26] }),
      value: "cold-start.thermalEfficiency",
    };
    const { sentences } = compare(table, { margin: 0.02 });
    expect(sentences.join(" ")).toContain("alike to within 2 percentage points either way");
    expect(sentences.join(" ")).toMatch(
      /“B” had a thermal efficiency 6 percentage points higher in the cold start than “A”/,
    );
  });

  it("name what makes intervals wider: all pairs together, or blocks", () => {
    expect(comparedCase("three-outlier").sentences.join(" ")).toContain("made to hold for all 3 pairs together");
    const blocked = comparedCase("blocks-complete");
    expect(blocked.sentences.join(" ")).toContain("within blocks");
    expect(blocked.sentences.join(" ")).toContain("All 3 variants taken together: if all were alike");
  });

  it("say each factor's effect between its levels, and what cannot be told", () => {
    const { sentences } = comparedCase("factorial-unbalanced");
    const [skirt, gap, both] = sentences.filter((sentence) => /^“(skirt|gap)/.test(sentence));
    // R (reference compare-tables): 4.927, 3.83 to 6.02; 3.062, 1.97 to 4.16; interaction 0.473, -0.62 to 1.57
    expect(skirt).toMatch(
      /^“skirt”: “value” was 5 higher with “yes” than with “no”.*95 % interval 4 to 6 more; 18 runs/,
    );
    expect(gap).toMatch(/“narrow” than with “wide”.*2 to 4 more/);
    expect(both).toMatch(/^“skirt × gap”: these runs cannot tell.*between 1 less and 2 more/);
  });

  it("name the combinations that an interaction holds against each other, and equal weight where there are other factors", () => {
    const both = comparedCase("factorial-unbalanced").sentences.find((one) => one.startsWith("“skirt × gap”"));
    expect(both).toContain("with “no” and “wide” or “yes” and “narrow” against “no” and “narrow” or “yes” and “wide”");
    expect(both).not.toContain("equal weight");
    const skirt = comparedCase("factorial-unbalanced").sentences.find((one) => one.startsWith("“skirt”"));
    expect(skirt).toContain("other factors at equal weight");
    expect(comparedCase("three-levels").sentences.join(" ")).not.toContain("equal weight");
  });

  it("say of which type the tests of factors are", () => {
    expect(comparedCase("factorial-unbalanced").notes.join(" ")).toContain("type III");
    expect(comparedCase("two-usual").notes.join(" ")).not.toContain("type III");
  });

  it("plan within blocks by the scatter within blocks", () => {
    // Two days far apart: runs of one day differ by 2 or so, all runs of a variant by 60.
    const days = ["1", "1", "2", "2", "3", "3", "4", "4"];
    const values = [100, 103, 160, 158.5, 220, 224, 130, 130.5];
    const table: ComparedTable = {
      ...tableFrom({}),
      hasBlocks: true,
      rows: values.map((value, index) => {
        return {
          row: index + 2,
          value,
          level: "AB"[index % 2] ?? "",
          block: days[index] ?? "",
          factors: [],
          order: null,
        };
      }),
    };
    const { leads, sentences } = compare(table);
    expect(leads).toBe("blocked");
    expect(sentences.join(" ")).toContain("These are enough runs for an 80 % chance of showing a difference of 15");
  });

  it("warn of a run that alone decides, with the size before and after (R 4.2.2, reference influential-run)", () => {
    const groups = { A: [20.1, 20.5, 19.8, 20.3, 31.0], B: [22.1, 22.4, 21.7, 22.0, 22.3] };
    const warning = compare(tableFrom(groups)).warnings.find((one) => one.includes("hangs on"));
    expect(warning).toBe(
      "“B” against “A”: that the difference is not clear of zero hangs on one run. All runs together: no change " +
        "(95 % interval between 6 less and 6 more); without row 6 of “A” (31): 1.9 more (95 % interval 1.5 to 2.4 more). " +
        "All count; take it with caution, and make more runs.",
    );
    const calm = compare(tableFrom({ A: [20.1, 20.5, 19.8, 20.3], B: [30, 31, 30.4, 30.2] })).warnings;
    expect(calm.join(" ")).not.toContain("hangs on");
    // It changes neither what leads nor a number.
    expect(compare(tableFrom(groups)).leads).toBe("welch");
  });

  it("warn so for every leading analysis, and beyond the baseline's pairs in one sentence where there are many", () => {
    // R (reference influential-run): rows 10, 9, 11 and 14 of B against C, row 14 of D against C; row 5 of the gap, row 12 of both factors.
    const decided = (name: string, columns: { readonly block: string | null; readonly factors: readonly string[] }) => {
      const bytes = readFileSync(new URL(`../reference/influential-run/tables/${name}.csv`, import.meta.url));
      const table = tableOf(readComparisonTable(bytes, name, { value: "value", by: "variant", ...columns }));
      return compare(table).warnings.filter((one) => one.includes("hangs on"));
    };
    const blocked = decided("blocks-missing-cells", { block: "day", factors: [] });
    expect(blocked).toHaveLength(2);
    expect(blocked[1]).toMatch(/^“B” against “C”: that the difference is not clear of zero hangs on single runs\./);
    expect(blocked[1]).toMatch(
      /without row 10 of “C” \(70\.4\): 11 less .*one of rows 9, 11, 14 instead changes it too/,
    );
    const factors = decided("factorial-unbalanced", { block: null, factors: ["skirt", "gap"] });
    expect(factors).toHaveLength(2);
    expect(factors[0]).toMatch(/^“gap”, “wide” against “narrow”: that the difference is clear of zero.*without row 5 /);
    expect(factors[1]).toMatch(/^“skirt × gap”: .*without row 12 /);
    const many = Object.fromEntries(
      ["A", "B", "C", "D", "E", "F"].map((name, place) => [
        name,
        [10, 10.5, 9.8, 10.2].map((one) => one + place ** 2 / 20),
      ]),
    );
    const { warnings } = compare(tableFrom(many));
    expect(warnings.filter((one) => one.startsWith("Whether the difference is clear of zero hangs on"))).toHaveLength(
      1,
    );
  });

  it("write numbers beyond the ordinary with a power of ten", () => {
    const { sentences } = compare(tableFrom({ A: [1e90, 2e90, 1.5e90], B: [3e90, 1e90, 2.2e90] }));
    expect(sentences[0]).toContain("a mean of 1.5 × 10^90 in “value” (95 % interval 0.3 to 2.7 × 10^90; 3 runs)");
    const { sentences: small } = compare(tableFrom({ A: [1e-90, 2e-90, 1.5e-90], B: [3e-90, 1e-90, 2.2e-90] }));
    expect(small[0]).toContain("1.5 × 10^−90");
  });

  it("answer equivalence one way or the other, and never as proof of a difference", () => {
    const alike = compare(tableFrom({ A: [10, 10.1, 9.9, 10], B: [10, 10.05, 9.95, 10.1] }), { margin: 1 });
    expect(alike.sentences.join(" ")).toContain("alike for practical purposes at 95 % confidence, if 1 either way");
    const open = compare(tableFrom({ A: [10, 14, 8], B: [11, 9, 13] }), { margin: 1 });
    expect(open.sentences.join(" ")).toContain("that is no proof that they differ");
  });

  it("warn of what weakens the finding, without changing what leads", () => {
    const outlier = compare(tableFrom({ A: [10, 10.1, 9.9, 10.05, 9.95, 30], B: [11, 11.1, 10.9, 11.05, 11, 11.02] }));
    expect(outlier.leads).toBe("welch");
    // The sixth run, in row 7 as a spreadsheet counts.
    expect(outlier.groups.A?.grubbs?.suspectRow).toBe(7);
    expect(outlier.warnings.join(" ")).toMatch(/Row 7 of “A” \(30\) lies far.*It counts all the same/);
    expect(outlier.warnings.join(" ")).toContain("do not look normally distributed");

    const spread = compare(tableFrom({ A: [10, 10.1, 9.9, 10.05, 9.95, 10], B: [1, 25, 14, 7, 20, 3] }));
    expect(spread.warnings.join(" ")).toMatch(
      /do not scatter alike \(Brown–Forsythe p = 0\.00\d+; .* in “B”, .* in “A”\)/,
    );

    const base = tableFrom({ A: [1, 2.1, 2.9, 4], B: [5.1, 5.9, 7, 8.1] });
    const drifting = { ...base, rows: base.rows.map((row, index) => ({ ...row, order: index + 1 })), blocksIgnored: 3 };
    expect(compare(drifting).warnings.join(" ")).toMatch(/Results rose by about 0\.99 from each run to the next/);
    expect(compare(drifting).warnings.join(" ")).toContain("3 blocks apart");
    expect(compare(drifting).leads).toBe("welch");
  });

  it("ask about variants whose names differ in capitals and blanks alone", () => {
    expect(compare(tableFrom({ Skirt: [1, 2], "skirt ": [2, 3] })).warnings.join(" ")).toContain("If they are one");
  });
});
