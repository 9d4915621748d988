import { describe, expect, it } from "vitest";
import { compareVariants } from "../../core/analysis/comparison.ts";
import { whatMakesItSurer } from "../../core/analysis/finding.ts";
import { narrowingWith, runsOutlook } from "../../core/analysis/planning.ts";
import { keyOf, runsWith } from "../build/results.ts";
import { expectNumber } from "../numbers.ts";
import { cellOf, numberOf, numbersOf, readExpected, readInput } from "../reference/read-reference.ts";

const task = keyOf("taskFuel5L");

function comparisonOf(baseline: readonly number[], variant: readonly number[], confidence = 0.95) {
  const runs = [...runsWith("old", task, baseline), ...runsWith("new", task, variant)];
  const comparison = compareVariants(runs, { key: task, baseline: "old", variant: "new", confidence, locale: "en" });
  if (comparison === null) throw new Error("no comparison");
  return comparison;
}

function referenceComparison(name: string) {
  const row = readInput("runs-outlook").get(name);
  const [baseline, variant] = [numbersOf(cellOf(row, "baseline")), numbersOf(cellOf(row, "variant"))];
  return comparisonOf(baseline, variant, Number(cellOf(row, "confidence")));
}

describe("how many more runs would show a difference of a tenth, with 80 % chance (R's power.t.test, strict)", () => {
  it.each(readExpected("runs-outlook"))("$case", (row) => {
    const comparison = referenceComparison(String(row.case));
    const needed = numberOf(row, "runsOfEach");
    const { baseline, variant } = comparison.groups;
    const outlook = runsOutlook(comparison);
    if (needed > 60) expect(outlook).toEqual({ kind: "tooMany" });
    else if (needed <= Math.min(baseline.n, variant.n)) expect(outlook).toEqual({ kind: "enough" });
    else {
      const furtherOfEach = baseline.n === variant.n ? needed - baseline.n : null;
      expect(outlook).toEqual({ kind: "more", runsOfEach: needed, furtherOfEach });
    }
  });

  it.each([
    ["usual", "With 4 more runs of each there would be an 80 % chance of showing a difference of 10 %."],
    ["one-more", "With 1 more run of each there would be an 80 % chance of showing a difference of 10 %."],
    ["enough", "These are enough runs for an 80 % chance of showing a difference of 10 %; a smaller one needs more."],
    ["unequal", "With 11 runs of each there would be an 80 % chance of showing a difference of 10 %."],
    [
      "too-many",
      "The runs scatter so much that even 60 of each would hardly show a difference of 10 %: look first for what makes them scatter.",
    ],
  ])("%s, in words", (name, sentence) => {
    expect(whatMakesItSurer(referenceComparison(name), "en").at(-1)).toBe(sentence);
  });

  it("is not said where the scatter is not known", () => {
    expect(runsOutlook(comparisonOf([1000], [900, 910]))).toBeNull();
    expect(runsOutlook(comparisonOf([1000, 1000], [900, 900]))).toBeNull();
    expect(whatMakesItSurer(comparisonOf([1000], [900, 910]), "en")).toEqual([
      "At least two runs of each give an interval; three or more are wanted.",
    ]);
  });
});

describe("how much four more runs of each would narrow the interval", () => {
  it("is worked by hand for equal scatter", () => {
    // s = 10 in both, n = 3: SE = 10 sqrt(2/3), 4 degrees of freedom, t(0.975, 4) = 2.776445105.
    // With 7 runs: SE = 10 sqrt(2/7), 12 degrees of freedom, t(0.975, 12) = 2.178812830 (tables of Student's t).
    // (2.178812830 / 2.776445105) sqrt(3/7) = 0.784749 * 0.654654 = 0.513739
    const narrowing = narrowingWith(comparisonOf([990, 1000, 1010], [890, 900, 910]), 4);
    expectNumber(narrowing, (2.17881283 / 2.776445105) * Math.sqrt(3 / 7), { relative: 1e-8 });
  });

  it("is said with the half-widths, before the outlook", () => {
    // Per cent of 1000: half-width 2.776445 * 8.1650 / 10 = 2.3 % (Fieller's is a little less even), then about half.
    const [narrower] = whatMakesItSurer(comparisonOf([990, 1000, 1010], [890, 900, 910]), "en");
    expect(narrower).toMatch(
      /^4 more runs of each would narrow the interval from about ± 2\.2 % to about ± 1\.1 %, if they scatter as these do\.$/,
    );
  });
});
