import { describe, expect, it } from "vitest";
import { noncentralTLowerTail, noncentralTUpperTail } from "../../core/statistics/distribution/noncentral-t.ts";
import { noncentralityLimits } from "../../core/statistics/distribution/noncentrality-limits.ts";
import { hedgesG, smallSampleCorrection } from "../../core/statistics/hedges-g.ts";
import { welch } from "../../core/statistics/welch.ts";
import { expectNumber } from "../numbers.ts";
import { numberOf, readExpected } from "../reference/read-reference.ts";
import { groupsOf } from "./groups.ts";

describe("Hedges' g", () => {
  it.each(readExpected("hedges-g"))("is R's: $case (reference hedges-g, lgamma and pt with ncp)", (row) => {
    const { baseline, variant, confidence } = groupsOf("hedges-g", row.case);
    const result = hedgesG(baseline, variant, confidence);
    expect(result.because).toBeNull();
    expectNumber(smallSampleCorrection(baseline.length + variant.length - 2), numberOf(row, "correction"), {
      relative: 1e-13,
    });
    expectNumber(result.value, numberOf(row, "value"), { relative: 1e-9, absolute: 1e-12 });
    expectNumber(result.lower, numberOf(row, "lower"), { relative: 1e-8, absolute: 1e-9 });
    expectNumber(result.upper, numberOf(row, "upper"), { relative: 1e-8, absolute: 1e-9 });
    expectNumber(result.uncorrected?.value, numberOf(row, "d"), { relative: 1e-9, absolute: 1e-12 });
    expectNumber(result.uncorrected?.lower, numberOf(row, "dLower"), { relative: 1e-8, absolute: 1e-9 });
    expectNumber(result.uncorrected?.upper, numberOf(row, "dUpper"), { relative: 1e-8, absolute: 1e-9 });
  });

  it("has the tabled corrections: J(2) = 0.5642, J(10) = 0.9228, J(50) = 0.9849 (Hedges 1981, table 1, from memory)", () => {
    expectNumber(smallSampleCorrection(2), 1 / Math.sqrt(Math.PI), { relative: 1e-15 });
    expectNumber(smallSampleCorrection(10), 0.9228, { absolute: 0.0001 });
    expectNumber(smallSampleCorrection(50), 0.9849, { absolute: 0.0001 });
    // J approaches 1 - 3/(4 m - 1).
    expectNumber(smallSampleCorrection(2000), 1 - 3 / 7999, { relative: 1e-7 });
  });

  it("has limits at which t is just as far out as the confidence allows, far beyond where R's pt ends", () => {
    for (const [t, df] of [
      [-300, 4],
      [0, 3],
      [2.5, 1],
      [45, 9],
      [120, 30],
    ] as const) {
      const limits = noncentralityLimits(t, df, 0.95);
      expectNumber(noncentralTUpperTail(t, df, limits?.lower ?? 0), 0.025, { absolute: 1e-11 });
      expectNumber(noncentralTLowerTail(t, df, limits?.upper ?? 0), 0.025, { absolute: 1e-11 });
    }
  });

  it("shuts zero out exactly where the t-test with equal numbers does, and mirrors when the groups change places", () => {
    const [one, other] = [
      [20.1, 20.9, 19.6, 20.4],
      [20.7, 21.6, 20.9, 21.0],
    ];
    // Equal numbers: the pooled t is Welch's t, its degrees of freedom 6: 2.4469 is the limit at 0.95.
    const { t } = welch({ baseline: one, variant: other, confidence: 0.95 });
    const forth = hedgesG(one, other, 0.95);
    const back = hedgesG(other, one, 0.95);
    expect((forth.lower ?? 0) > 0).toBe((t ?? 0) > 2.4469);
    expectNumber(back.value, -(forth.value ?? 0), { relative: 1e-12 });
    expectNumber(back.lower, -(forth.upper ?? 0), { relative: 1e-9 });
    expectNumber(back.upper, -(forth.lower ?? 0), { relative: 1e-9, absolute: 1e-9 });
  });

  it("says why it is missing", () => {
    const missing = { value: null, lower: null, upper: null };
    expect(hedgesG([], [1, 2], 0.95)).toMatchObject({ ...missing, because: "no-values" });
    expect(hedgesG([1], [2], 0.95)).toMatchObject({ ...missing, because: "one-value" });
    expect(hedgesG([1, 2], [2], 0.95)).toMatchObject({ ...missing, because: "too-few-values" });
    expect(hedgesG([4, 4], [5, 5, 5], 0.95)).toMatchObject({ ...missing, because: "no-scatter" });
    const far = hedgesG([0, 1e-6, 2e-6], [1, 1, 1.000001], 0.95);
    expect(far).toMatchObject({ lower: null, upper: null, because: "too-large" });
    expect(far.value).toBeGreaterThan(1e5);
  });

  it("refuses a confidence in per cent", () => {
    expect(() => hedgesG([1, 2], [3, 4], 95)).toThrow(RangeError);
  });
});
