import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { rate, tierOf } from "../../core/rating/rate.ts";
import { isoTr19867, iwa11, type TierRow } from "../../core/rating/tiers.ts";
import { meanInterval } from "../../core/statistics/mean-interval.ts";
import { expectNumber } from "../numbers.ts";
import { cellOf, numberOf, numbersOf, readExpected, readInput } from "../reference/read-reference.ts";

function rowOf(better: "more" | "less", thresholds: readonly number[]): TierRow {
  return { key: "x", about: "rated", better, unit: "1", thresholds };
}

/** calculations.md, section 8: thresholds from memory, but the first row of ISO/TR 19867-3 for CO and PM2.5. */
const published: readonly (readonly [string, "more" | "less", readonly number[]])[] = [
  ["highPowerThermalEfficiency", "more", [0.15, 0.25, 0.35, 0.45]],
  ["simmer.lowPowerSpecificEnergyRate", "less", [0.05, 0.039, 0.028, 0.017]],
  ["highPowerCoPerEnergyDelivered", "less", [16, 11, 9, 8]],
  ["simmer.coRatePerLitre", "less", [0.2, 0.13, 0.1, 0.09]],
  ["highPowerPm25PerEnergyDelivered", "less", [979, 386, 168, 41]],
  ["simmer.pm25RatePerLitre", "less", [8, 4, 2, 1]],
  ["meanIsoEfficiencyWithoutChar", "more", [0.1, 0.2, 0.3, 0.4, 0.5]],
  ["meanCoPerEnergyDelivered", "less", [18.3, 11.5, 7.2, 4.4, 3]],
  ["meanPm25PerEnergyDelivered", "less", [1030, 481, 218, 62, 5]],
];

describe("thresholds", () => {
  const rows = [...iwa11.rows, ...isoTr19867.rows];

  it.each(published)("of %s are the published ones", (key, better, thresholds) => {
    expect(rows.find((row) => row.key === key)).toMatchObject({ better, thresholds });
  });

  it("of what stays in a room are kept for the record", () => {
    const recorded = iwa11.rows.filter(({ key }) => key === null).map(({ thresholds }) => thresholds);
    expect(recorded).toEqual([
      [0.97, 0.62, 0.49, 0.42],
      [40, 17, 8, 2],
    ]);
  });

  it.each(rows.map((row) => [row.key ?? row.about, row] as const))(
    "of %s: met exactly is met, and one bit short is not",
    (_, row) => {
      row.thresholds.forEach((threshold, index) => {
        // The nearest number on the worse side.
        const short = threshold * (1 + (row.better === "more" ? -1 : 1) * Number.EPSILON);
        expect(short === threshold).toBe(false);
        expect(tierOf(row, threshold)).toBe(index + 1);
        expect(tierOf(row, short)).toBe(index);
      });
    },
  );
});

describe("a rating", () => {
  it("is never rounded up into a tier: 24.99999 % is tier 1", () => {
    const [row] = iwa11.rows;
    if (row === undefined) throw new Error("no row");
    expect(rate(row, meanInterval([0.2499998, 0.25, 0.2499999], 0.95))?.tier).toBe(1);
    expect(rate(row, meanInterval([0.249, 0.25, 0.251], 0.95))?.tier).toBe(2);
  });

  it.each(readExpected("tier-probabilities"))(
    "$case: tiers and probabilities as R's pt and qt give them",
    (expected) => {
      const input = readInput("tier-probabilities").get(String(expected.case));
      const better = cellOf(input, "better") === "more" ? "more" : "less";
      const row = rowOf(better, numbersOf(cellOf(input, "thresholds")));
      const rating = rate(row, meanInterval(numbersOf(cellOf(input, "values")), Number(cellOf(input, "confidence"))));
      if (rating === null) throw new Error("no rating");
      expect(rating.tier).toBe(expected.tier);
      expect(rating.tierAtUnfavourableLimit).toBe(expected.tierAtLimit);
      expect(rating.probabilities).toHaveLength(row.thresholds.length + 1);
      rating.probabilities.forEach((probability, tier) => {
        expectNumber(probability, numberOf(expected, `p${tier}`), { relative: 1e-9, absolute: 1e-14 });
      });
    },
  );

  it("has probabilities of 0 to 1 that add up to 1, and a limit no better than the mean", () => {
    const values = fc.array(fc.double({ min: 0.01, max: 0.7, noNaN: true }), { minLength: 2, maxLength: 9 });
    fc.assert(
      fc.property(values, fc.constantFrom("more", "less"), (runs, better) => {
        const thresholds = better === "more" ? [0.15, 0.25, 0.35, 0.45] : [0.5, 0.39, 0.28, 0.17];
        const rating = rate(rowOf(better, thresholds), meanInterval(runs, 0.9));
        if (rating === null) return;
        for (const probability of rating.probabilities) {
          if (!(probability >= 0 && probability <= 1)) throw new Error(`probability ${probability}`);
        }
        expectNumber(
          rating.probabilities.reduce((total, one) => total + one, 0),
          1,
          { absolute: 1e-12 },
        );
        expect(rating.tierAtUnfavourableLimit).toBeLessThanOrEqual(rating.tier);
      }),
    );
  });

  it("is not given for one run or for runs without variation", () => {
    const row = rowOf("more", [0.15, 0.25]);
    expect(rate(row, meanInterval([0.3], 0.95))).toBeNull();
    expect(rate(row, meanInterval([0.3, 0.3, 0.3], 0.95))).toBeNull();
    expect(rate(row, meanInterval([], 0.95))).toBeNull();
  });
});
