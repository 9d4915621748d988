import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { coefficientOfVariation } from "../../core/statistics/coefficient-of-variation.ts";
import { fiellerRatio } from "../../core/statistics/fieller-ratio.ts";
import { logRatio } from "../../core/statistics/log-ratio.ts";
import { meanInterval } from "../../core/statistics/mean-interval.ts";
import { welch } from "../../core/statistics/welch.ts";
import { numbersWithin } from "./groups.ts";

/** Values as they come, and as nobody expects them: few, equal, zero, of opposite signs, of very different size. */
const value = fc.oneof(
  fc.constantFrom(0, -0, 1, -1, 1e-100, 1e100, 5e-324, 0.1, 0.3, 0.1 + 0.2),
  fc.double({ min: -1e100, max: 1e100, noNaN: true }),
  fc.double({ min: 0.1, max: 100, noNaN: true }),
);
const values = fc.oneof(
  fc.array(value, { maxLength: 6 }),
  fc.tuple(value, fc.integer({ min: 0, max: 5 })).map(([same, count]) => Array.from({ length: count }, () => same)),
);

describe("every statistic", () => {
  it("gives finite numbers or none, with a reason for what is missing", () => {
    fc.assert(
      fc.property(values, values, fc.constantFrom(0.8, 0.95, 0.999), (baseline, variant, confidence) => {
        const groups = { baseline, variant, confidence };
        const comparison = welch(groups);
        const logarithmic = logRatio(groups);
        const ratio = fiellerRatio(groups);
        const single = meanInterval(baseline, confidence);
        const variation = coefficientOfVariation(baseline);
        for (const result of [comparison, logarithmic, ratio, single, variation]) {
          expect(numbersWithin(result).filter((number) => !Number.isFinite(number))).toEqual([]);
        }
        expect(comparison.interval === null).toBe(comparison.because !== null);
        expect(logarithmic.interval === null).toBe(logarithmic.because !== null);
        expect(single.interval === null).toBe(single.because !== null);
        expect(ratio.lower === null || ratio.upper === null).toBe(ratio.because !== null);
        expect(variation.value === null).toBe(variation.because !== null);
      }),
      { numRuns: 3000 },
    );
  });
});
