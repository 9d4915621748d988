import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { changeOf } from "../../core/analysis/change.ts";
import { quantityEntry } from "../../core/quantity/quantity-table.ts";
import { fiellerRatio } from "../../core/statistics/fieller-ratio.ts";
import { moments } from "../../core/statistics/moments.ts";
import { welch } from "../../core/statistics/welch.ts";

describe("a finding and its p-value", () => {
  const values = fc.array(fc.double({ min: 80, max: 125, noNaN: true }), { minLength: 3, maxLength: 4 });

  it("a percentage is never called sure where Welch's p says the two could be alike", () => {
    fc.assert(
      fc.property(values, values, (baseline, variant) => {
        const groups = { baseline, variant, confidence: 0.95 };
        const difference = welch(groups);
        const means = [moments(baseline).mean, moments(variant).mean] as const;
        const change = changeOf(difference, fiellerRatio(groups), quantityEntry("taskFuel5L", "en"), means);
        if (change?.unit === "percent" && change.sure) expect(difference.p).toBeLessThan(0.05);
      }),
      { numRuns: 5000 },
    );
  });

  it("where the two intervals disagree, the percentage reaches to zero and the finding is open", () => {
    // Found by search among 3-against-3 comparisons; R's t.test gives p = 0.0513 for it.
    const groups = { baseline: [103.1, 97.9, 99.8], variant: [111.5, 109.1, 121.3], confidence: 0.95 };
    const ratio = fiellerRatio(groups);
    const difference = welch(groups);
    expect(ratio.lower).toBeGreaterThan(1);
    expect(difference.interval?.lower).toBeLessThan(0);
    const means = [moments(groups.baseline).mean, moments(groups.variant).mean] as const;
    const change = changeOf(difference, ratio, quantityEntry("taskFuel5L", "en"), means);
    expect(change).toMatchObject({ unit: "percent", lower: 0, sure: false });
  });
});
