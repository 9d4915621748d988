import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { InstrumentRole } from "../../core/readings/reading.ts";
import { adviceOn } from "../../core/report/combined-text.ts";
import { studentTCritical } from "../../core/statistics/distribution/student-t.ts";
import { fiellerRatio } from "../../core/statistics/fieller-ratio.ts";
import { moments } from "../../core/statistics/moments.ts";
import { welch } from "../../core/statistics/welch.ts";
import {
  combinedDifference,
  combinedMean,
  combinedRatio,
  type GroupWithErrors,
} from "../../core/uncertainty/combined-comparison.ts";
import type { QuantityError, SharedError } from "../../core/uncertainty/run-errors.ts";
import { expectNumber } from "../numbers.ts";

function shared(role: InstrumentRole, contribution: number, degreesOfFreedom = Number.POSITIVE_INFINITY): SharedError {
  const owner = { kind: "instrument" as const, role };
  const distribution = { kind: "normal" as const };
  const key = `instrument:${role}/0`;
  return { source: { key, distribution, degreesOfFreedom, isShared: true, owner, component: "gain" }, contribution };
}

function errorOf(errors: readonly SharedError[], independent = 0): QuantityError {
  return {
    standardUncertainty: Math.hypot(independent, ...errors.map(({ contribution }) => contribution)),
    degreesOfFreedom: Number.POSITIVE_INFINITY,
    fewestDegreesOfFreedom: Number.POSITIVE_INFINITY,
    independent: { variance: independent ** 2, degreesOfFreedom: Number.POSITIVE_INFINITY },
    shared: errors,
  };
}

function group(values: readonly number[], errors: (value: number) => QuantityError): GroupWithErrors {
  const { n, mean, standardDeviation } = moments(values);
  return { n, mean: mean ?? Number.NaN, standardDeviation, errors: values.map(errors) };
}

const old = [1040, 1012, 1066, 1031, 1049];
const fresh = [842, 861, 818, 855];
const exact = () => errorOf([]);

describe("a mean", () => {
  it("adds to its scatter what all runs share, once", () => {
    // Two shared errors: 1 % of each value (gain), and one that moves each run by 6, of 4 degrees of freedom.
    const runs = group(old, (value) => errorOf([shared("fuelBalance", 0.01 * value), shared("thermometer", 6, 4)], 3));
    const { mean } = runs;
    const scatter = (runs.standardDeviation ?? 0) / Math.sqrt(5);
    // By hand, JCGM 100:2008, equations 10 and G.2b: the readings' own 3 are in the scatter already.
    const u = Math.hypot(scatter, 0.01 * mean, 6);
    const nu = u ** 4 / (scatter ** 4 / 4 + 6 ** 4 / 4);
    const result = combinedMean(runs, 0.95);
    expectNumber(result.standardUncertainty, u, { relative: 1e-13 });
    expectNumber(result.degreesOfFreedom, nu, { relative: 1e-12 });
    expectNumber(result.sharedUncertainty, Math.hypot(0.01 * mean, 6), { relative: 1e-13 });
    expectNumber(result.interval.upper, mean + studentTCritical(0.95, nu) * u, { relative: 1e-13 });
    expect(result.noReplicates).toBe(false);
  });

  it("does not average out what runs share, and averages what moves them apart", () => {
    const up = errorOf([shared("thermometer", 6)]);
    const down = errorOf([shared("thermometer", -6)]);
    const { n, mean, standardDeviation } = moments([100, 110]);
    const both = (errors: readonly QuantityError[]) =>
      combinedMean({ n, mean: mean ?? 0, standardDeviation, errors }, 0.95).sharedUncertainty;
    expectNumber(both([up, up]), 6);
    expectNumber(both([up, down]), 0);
  });

  it("says what scatter the readings' own errors alone would make, which true scatter is never below", () => {
    // Independent errors of 3 and 4 in turn: on average a variance of 12.5, of a mean of four a quarter of that.
    const { n, mean, standardDeviation } = moments([1000, 1001, 1000, 1001]);
    const errors = [3, 4, 3, 4].map((independent) => errorOf([shared("fuelBalance", 5)], independent));
    const quiet = { n, mean: mean ?? 0, standardDeviation, errors };
    const result = combinedMean(quiet, 0.95);
    expectNumber(result.leastScatter, Math.sqrt(12.5 / 4), { relative: 1e-14 });
    // Said, not used: the scatter seen stays what the mean's uncertainty is made of.
    expectNumber(result.scatterUncertainty, (standardDeviation ?? 0) / 2, { relative: 1e-14 });
    const loud = group(old, () => errorOf([shared("fuelBalance", 5)], 3));
    const difference = combinedDifference(quiet, loud, 0.95);
    expectNumber(difference.leastScatter, Math.hypot(Math.sqrt(12.5 / 4), Math.sqrt(9 / 5)), { relative: 1e-14 });
    const said = (of: typeof result) =>
      adviceOn(of, "en").some((text) => text.startsWith("The runs scatter less than"));
    expect([result, combinedMean(loud, 0.95), difference].map(said)).toEqual([true, false, false]);
  });

  it("of one run stands on the readings' own errors, and says that there are no replicates", () => {
    const result = combinedMean(
      group([1040], () => errorOf([shared("fuelBalance", 8)], 6)),
      0.95,
    );
    expectNumber(result.standardUncertainty, 10, { relative: 1e-14 });
    expect(result.noReplicates).toBe(true);
    expectNumber(result.scatterUncertainty, 0);
  });
});

describe("an error that cancels all but for rounding", () => {
  it("has no say in the degrees of freedom, and leaves the interval at 1.96 u", () => {
    // A gain known with 6 degrees of freedom, in a ratio of two masses of one balance: 1e-17 of the value is left of it.
    const result = combinedMean(
      group([0.25], () => errorOf([shared("fuelBalance", 2.5e-18, 6), shared("moistureMeter", 0.003)], 0.004)),
      0.95,
    );
    expect(result.degreesOfFreedom).toBe(Number.POSITIVE_INFINITY);
    // The normal distribution's factor, 1.959964, of 0.005.
    expectNumber(result.interval.upper, 0.25 + 1.959964 * 0.005, { absolute: 1e-8 });
    expectNumber(result.interval.lower, 0.25 - 1.959964 * 0.005, { absolute: 1e-8 });
  });
});

describe("two variants", () => {
  it("without shared errors are compared as by Welch and Fieller", () => {
    const scatter = { baseline: old, variant: fresh, confidence: 0.95 };
    const [first, second] = [group(old, exact), group(fresh, exact)];
    const difference = combinedDifference(first, second, 0.95);
    const byWelch = welch(scatter);
    expectNumber(difference.degreesOfFreedom, byWelch.degreesOfFreedom ?? 0, { relative: 1e-12 });
    expectNumber(difference.interval.lower, byWelch.interval?.lower ?? 0, { relative: 1e-12 });
    const ratio = combinedRatio(first, second, 0.95);
    const byFieller = fiellerRatio(scatter);
    expectNumber(ratio.lower, byFieller.lower ?? 0, { relative: 1e-12 });
    expectNumber(ratio.upper, byFieller.upper ?? 0, { relative: 1e-12 });
    expectNumber(ratio.degreesOfFreedom, byFieller.degreesOfFreedom ?? 0, { relative: 1e-12 });
  });

  it("weighed with one balance whose gain is off have a ratio that the gain does not touch", () => {
    const gain = (value: number) => errorOf([shared("fuelBalance", 0.01 * value)]);
    const [first, second] = [group(old, gain), group(fresh, gain)];
    const ratio = combinedRatio(first, second, 0.95);
    expectNumber(ratio.sharedUncertainty, 0, { absolute: 1e-15 });
    // Fieller's limits lie where the ratio is not the one estimated: there a little of the gain is left, to second order.
    const byFieller = fiellerRatio({ baseline: old, variant: fresh, confidence: 0.95 });
    expectNumber(ratio.lower, byFieller.lower ?? 0, { relative: 2e-5 });
    expectNumber(ratio.upper, byFieller.upper ?? 0, { relative: 2e-5 });
    // Of two balances, each with such a gain of its own, sqrt(2) per cent would be left.
    const other = (value: number) => errorOf([shared("potBalance", 0.01 * value)]);
    const apart = combinedRatio(first, group(fresh, other), 0.95);
    expectNumber(apart.sharedUncertainty, (apart.ratio ?? 0) * 0.01 * Math.SQRT2, { relative: 1e-12 });
    // What is left of a difference is the gain's share of the difference itself.
    const { sharedUncertainty } = combinedDifference(first, second, 0.95);
    expectNumber(sharedUncertainty, 0.01 * (first.mean - second.mean), { relative: 1e-12 });
  });

  it("of one run each: instruments alone, said to be so", () => {
    const gain = (value: number) => errorOf([shared("fuelBalance", 0.01 * value)], 3);
    const ratio = combinedRatio(group([1000], gain), group([800], gain), 0.95);
    expect(ratio.noReplicates).toBe(true);
    // (3^2 + 0.8^2 3^2) / 1000^2
    expectNumber(ratio.standardUncertainty, Math.hypot(3, 2.4) / 1000, { relative: 1e-12 });
  });

  /** Fieller's inequality with covariance as he wrote it: (b - r a)^2 <= t^2 (vb - 2 r c + r^2 va). */
  it("have the set of ratios that solves Fieller's inequality with covariance", () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 50, max: 150, noNaN: true }), { minLength: 2, maxLength: 6 }),
        fc.array(fc.double({ min: 50, max: 150, noNaN: true }), { minLength: 2, maxLength: 6 }),
        fc.tuple(fc.double({ min: -8, max: 8, noNaN: true }), fc.double({ min: -8, max: 8, noNaN: true })),
        (baseline, variant, [one, other]) => {
          const first = group(baseline, () => errorOf([shared("thermometer", one)]));
          const second = group(variant, () => errorOf([shared("thermometer", other)]));
          const result = combinedRatio(first, second, 0.9);
          if (result.degreesOfFreedom === null) return;
          const t = studentTCritical(0.9, result.degreesOfFreedom);
          const own = ({ standardDeviation, n }: GroupWithErrors) => (standardDeviation ?? 0) ** 2 / n;
          const [va, vb, c] = [own(first) + one ** 2, own(second) + other ** 2, one * other];
          const holds = (r: number) => (second.mean - r * first.mean) ** 2 - t ** 2 * (vb - 2 * r * c + r ** 2 * va);
          const scale = second.mean ** 2 + first.mean ** 2 + t ** 2 * (va + vb);
          for (const end of [result.lower, result.upper, result.excluded?.lower, result.excluded?.upper]) {
            if (end != null) expectNumber(holds(end), 0, { absolute: 1e-9 * scale * (1 + end ** 2) });
          }
          expect(holds(result.ratio ?? Number.NaN)).toBeLessThanOrEqual(1e-9 * scale);
        },
      ),
    );
  });
});
