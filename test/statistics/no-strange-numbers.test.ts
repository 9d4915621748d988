import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type ComparedTable, compareTable } from "../../core/index.ts";
import { anova } from "../../core/statistics/anova.ts";
import { blockedAnalysis } from "../../core/statistics/blocked.ts";
import { bcaInterval } from "../../core/statistics/bootstrap-bca.ts";
import { brownForsythe } from "../../core/statistics/brown-forsythe.ts";
import { coefficientOfVariation } from "../../core/statistics/coefficient-of-variation.ts";
import { drift } from "../../core/statistics/drift.ts";
import { equivalence } from "../../core/statistics/equivalence.ts";
import { fiellerRatio } from "../../core/statistics/fieller-ratio.ts";
import { gamesHowell } from "../../core/statistics/games-howell.ts";
import { grubbs } from "../../core/statistics/grubbs.ts";
import { hedgesG } from "../../core/statistics/hedges-g.ts";
import { holm } from "../../core/statistics/holm.ts";
import { influenceOnContrasts, influenceOnPairs } from "../../core/statistics/influential-run.ts";
import { factorModel } from "../../core/statistics/linear-model.ts";
import { logRatio } from "../../core/statistics/log-ratio.ts";
import { mannWhitney } from "../../core/statistics/mann-whitney.ts";
import { meanInterval } from "../../core/statistics/mean-interval.ts";
import { shapiroWilk } from "../../core/statistics/shapiro-wilk.ts";
import { tukey } from "../../core/statistics/tukey.ts";
import { welch } from "../../core/statistics/welch.ts";
import { welchAnova } from "../../core/statistics/welch-anova.ts";
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

  it("of the smaller methods does so too", () => {
    fc.assert(
      fc.property(values, values, fc.constantFrom(0.8, 0.95, 0.999), value, (first, second, confidence, margin) => {
        const outlier = grubbs(first);
        const ranks = mannWhitney(first, second);
        const size = hedgesG(first, second, confidence);
        const sameness = equivalence(first, second, margin, confidence);
        const resampled = bcaInterval(first, { confidence, resamples: 50, seed: 1 });
        const trend = drift(
          first,
          first.map((_, index) => index + 1),
        );
        for (const result of [outlier, ranks, size, sameness, resampled, trend]) {
          expect(numbersWithin(result).filter((number) => !Number.isFinite(number))).toEqual([]);
        }
        expect(outlier.p === null).toBe(outlier.because !== null);
        expect(ranks.p === null).toBe(ranks.because !== null);
        expect(size.lower === null || size.upper === null).toBe(size.because !== null);
        expect(sameness.p === null).toBe(sameness.because !== null);
        expect(resampled.lower === null || resampled.upper === null).toBe(resampled.because !== null);
        expect(trend.p === null).toBe(trend.because !== null);
      }),
      { numRuns: 2000 },
    );
  });

  it("of designs does so too, however runs fall on blocks and levels", () => {
    const level = fc.constantFrom("A", "B", "C");
    const run = fc.record({ value, level, block: fc.constantFrom("d1", "d2", "d3"), gap: fc.constantFrom("8", "12") });
    fc.assert(
      fc.property(fc.array(run, { maxLength: 12 }), (runs) => {
        const levels = ["A", "B", "C"];
        const blocked = blockedAnalysis(runs, levels, 0.95);
        const factors = [
          { name: "skirt", levels },
          { name: "gap", levels: ["8", "12"] },
          { name: "day", levels: ["d1", "d2", "d3"] },
        ];
        const model = factorModel(
          runs.map((one) => ({ value: one.value, levels: [one.level, one.gap, one.block] })),
          factors,
          0.95,
        );
        const decided = [blocked, model].flatMap(({ fit }, index) => {
          const contrasts = index === 0 ? blocked.pairs : model.factors;
          return fit === null
            ? []
            : influenceOnContrasts(
                fit,
                contrasts.map(({ contrast }) => contrast),
                0.95,
              );
        });
        for (const result of [blocked, model, decided]) {
          expect(numbersWithin(result).filter((number) => !Number.isFinite(number))).toEqual([]);
        }
        expect(blocked.p === null).toBe(blocked.because !== null);
        for (const pair of blocked.pairs) expect(pair.p === null).toBe(pair.because !== null);
        for (const effect of model.factors) expect(effect.p === null).toBe(effect.because !== null);
        for (const test of model.factorTests) expect(test.p === null).toBe(test.because !== null);
      }),
      { numRuns: 1000 },
    );
  });

  it("of several groups does so too", () => {
    const several = fc.array(values, { maxLength: 4 });
    // Beyond squares that a computer holds, and values of one size with a scatter next to rounding.
    const huge = fc.array(fc.array(fc.double({ noNaN: true, noDefaultInfinity: true }), { maxLength: 4 }), {
      maxLength: 3,
    });
    const close = fc.array(
      fc.array(
        fc.integer({ min: 0, max: 9 }).map((ulps) => 1 + ulps * Number.EPSILON),
        { maxLength: 5 },
      ),
      {
        maxLength: 4,
      },
    );
    fc.assert(
      fc.property(fc.oneof(several, huge, close), fc.constantFrom(0.8, 0.95, 0.999), (groups, confidence) => {
        const tests = [anova(groups), welchAnova(groups), brownForsythe(groups)];
        const normal = groups.map(shapiroWilk);
        const pairs = [...tukey(groups, confidence), ...gamesHowell(groups, confidence)];
        const adjusted = holm(pairs.map(({ p }) => p));
        const decided = influenceOnPairs(groups, confidence);
        for (const result of [...tests, ...normal, ...pairs, adjusted, decided]) {
          expect(numbersWithin(result).filter((number) => !Number.isFinite(number))).toEqual([]);
        }
        for (const { p, because } of [...tests, ...normal, ...pairs]) expect(p === null).toBe(because !== null);
        for (const pair of pairs) expect(pair.lower === null).toBe(pair.because !== null);
        for (const { p } of [...tests, ...normal, ...pairs]) if (p !== null) expect(p >= 0 && p <= 1).toBe(true);
      }),
      { numRuns: 1500 },
    );
  });

  it("of a whole table does so too: no number that is none, and for all that is missing a note says why", () => {
    const row = fc.record({
      value,
      level: fc.constantFrom("A", "B", "C", "D"),
      block: fc.constantFrom("Mon", "Tue", "Wed"),
      skirt: fc.constantFrom("no", "yes"),
      gap: fc.constantFrom("8", "12"),
    });
    fc.assert(
      fc.property(
        fc.array(row, { minLength: 1, maxLength: 16 }),
        fc.boolean(),
        fc.subarray(["skirt", "gap"] as const),
        fc.constantFrom(null, 0, 1e-9, 1, 1e99),
        (rows, hasBlocks, factors, margin) => {
          const table: ComparedTable = {
            value: "value",
            by: "variant",
            hasBlocks,
            factors,
            rows: rows.map(({ value, level, block, ...levels }, index) => ({
              row: index + 2,
              value,
              level,
              block: hasBlocks ? block : null,
              factors: factors.map((factor) => levels[factor]),
              order: index,
            })),
            leftOut: [],
            withoutValue: [],
            blocksIgnored: 0,
          };
          const settings = { baseline: null, margin, confidence: 0.95, resampling: { resamples: 20, seed: 1 } };
          const compared = compareTable(table, settings, "en");
          expect(numbersWithin(compared).filter((number) => !Number.isFinite(number))).toEqual([]);
          const notes = compared.notes.join("\n");
          const isSaid = (isMissing: boolean, pattern: RegExp) => {
            if (isMissing) expect(notes).toMatch(pattern);
          };
          for (const [level, group] of Object.entries(compared.groups)) {
            isSaid(group.interval === null, new RegExp(`“${level}”.*no interval`));
            isSaid(group.n > 1 && group.grubbs === null, new RegExp(`“${level}”.*no Grubbs test`));
          }
          for (const pair of compared.pairs) {
            const named = (what: string) => new RegExp(`“${pair.variant}” against “${pair.baseline}”.*no ${what}`);
            isSaid(pair.welch.p === null, named("Welch comparison"));
            isSaid(pair.hedgesG.lower === null, named("Hedges’ g"));
            isSaid(pair.mannWhitney.p === null, named("rank test"));
            isSaid(pair.ratio.logWelch.lower === null, named("ratio of geometric means"));
            isSaid(pair.ratio.fieller.lower === null, named("bounded interval of the ratio"));
            isSaid(pair.equivalence?.p === null, margin === 0 ? /margin of zero/ : named("equivalence test"));
          }
          for (const pair of compared.blocked?.pairs ?? []) {
            isSaid(
              pair.p === null,
              new RegExp(`“${pair.variant}” against “${pair.baseline}”.*no difference within blocks`),
            );
          }
          isSaid(compared.anova === null, /No .*classical analysis of variance/);
          isSaid(compared.welchAnova === null, /No .*Welch’s analysis of variance/);
          for (const { term, p } of compared.factorTests) isSaid(p === null, new RegExp(`effect of .*“${term}”`));
        },
      ),
      { numRuns: 500 },
    );
  });
});
