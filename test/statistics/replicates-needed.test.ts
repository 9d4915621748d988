import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { fewestReplicates, replicatesNeeded } from "../../core/statistics/replicates-needed.ts";
import { powerLimit, twoSamplePower } from "../../core/statistics/two-sample-power.ts";
import { expectNumber } from "../numbers.ts";
import { cellOf, numberOf, readExpected, readInput } from "../reference/read-reference.ts";

const usual = { standardDeviation: 1.5, difference: 2, power: 0.8, confidence: 0.95, maximum: 1000 };

/** Rows of the reference that ask for equal numbers of runs, and those with a fixed number of the baseline's. */
const cases = readExpected("two-sample-power").map((row) => {
  const input = readInput("two-sample-power").get(String(row.case));
  const number = (name: string) => Number(cellOf(input, name));
  return {
    row,
    baselineRuns: cellOf(input, "baselineRuns") === "" ? null : number("baselineRuns"),
    standardDeviation: number("standardDeviation"),
    difference: number("difference"),
    power: number("power"),
    confidence: number("confidence"),
  };
});

describe("replicates needed", () => {
  it.each(cases)("are R's: $row.case (reference two-sample-power)", (one) => {
    const { row, baselineRuns, standardDeviation, difference, power, confidence } = one;
    const question = { standardDeviation, difference, power, confidence, maximum: 1000 };
    const result = replicatesNeeded(baselineRuns === null ? question : { ...question, baselineRuns });
    expect(result.because).toBeNull();
    expect(result.runsPerVariant).toBe(row.runsPerVariant);
    expectNumber(result.powerReached, numberOf(row, "powerReached"), { relative: 1e-6 });
    expectNumber(result.exact, numberOf(row, "exact"), { relative: 1e-6 });
  });

  it("have an exact number below two where two are more than enough, and so do hundreds of thousands", () => {
    // R 4.2.2: power.t.test(delta = , sd = 1.5, power = 0.8, strict = TRUE, tol = 1e-12)
    expectNumber(replicatesNeeded({ ...usual, difference: 12 }).exact, 1.7720238172204, { relative: 1e-9 });
    const many = replicatesNeeded({ ...usual, difference: 0.01, maximum: 1e9 });
    expect(many.runsPerVariant).toBe(353_200);
    expectNumber(many.exact, 353_199.68328707, { relative: 1e-8 });
  });

  it("are a great many where the baseline's runs just allow it, and say the limit where they do not", () => {
    // R 4.2.2: uniroot over pt(qt(0.975, df), df, ncp) with n1 = 4; the limit is pnorm's with delta = 2.11/(1.5/sqrt(4)).
    const just = replicatesNeeded({ ...usual, difference: 2.11, baselineRuns: 4, maximum: 1e6 });
    expectNumber(just.exact, 705.50886, { relative: 1e-7 });
    const beyond = replicatesNeeded({ ...usual, baselineRuns: 4, maximum: 1e6 });
    expect(beyond).toMatchObject({ runsPerVariant: null, exact: null, because: "baseline-too-few" });
    if (beyond.runsPerVariant !== null) throw new Error("reachable");
    // R 4.2.2: pnorm(-qnorm(0.975) + 8/3) + pnorm(-qnorm(0.975) - 8/3)
    expectNumber(beyond.powerAtMaximum, 0.760126227, { relative: 1e-8 });
    const design = { standardDeviation: 1.5, difference: 2, baselineRuns: 4, confidence: 0.95 };
    expectNumber(twoSamplePower({ ...design, variantRuns: 1e7 }), powerLimit(design), { relative: 1e-5 });
  });

  it("are 64 for half a standard deviation at 80 % and 95 %, 26 for 0.8 (Cohen 1988, table 2.4.1, from memory)", () => {
    expect(fewestReplicates({ ...usual, standardDeviation: 1, difference: 0.5 }).runsPerVariant).toBe(64);
    expect(fewestReplicates({ ...usual, standardDeviation: 1, difference: 0.8 }).runsPerVariant).toBe(26);
  });

  it("are enough, and one fewer are not", () => {
    const size = fc.double({ min: 0.3, max: 5, noNaN: true });
    const power = fc.double({ min: 0.5, max: 0.99, noNaN: true });
    fc.assert(
      fc.property(size, power, (difference, wanted) => {
        const question = { ...usual, standardDeviation: 1, difference, power: wanted };
        const result = fewestReplicates(question);
        if (result.runsPerVariant === null) throw new Error(result.because);
        const powerWith = (runs: number) => twoSamplePower({ ...question, baselineRuns: runs, variantRuns: runs });
        expect(result.powerReached).toBeGreaterThanOrEqual(wanted);
        expectNumber(powerWith(result.runsPerVariant), result.powerReached);
        if (result.runsPerVariant > 2) {
          expect(powerWith(result.runsPerVariant - 1)).toBeLessThan(wanted);
        }
      }),
      { numRuns: 25 },
    );
  });

  it("are two, the fewest that show scatter, for an enormous difference", () => {
    expect(fewestReplicates({ ...usual, difference: 1e9 })).toEqual({
      runsPerVariant: 2,
      powerReached: 1,
      because: null,
    });
  });

  it("do not depend on the sign of the difference", () => {
    expect(fewestReplicates({ ...usual, difference: -2 })).toEqual(fewestReplicates(usual));
  });

  it("are not reachable beyond the maximum, which says how far it would reach", () => {
    const result = fewestReplicates({ ...usual, maximum: 9 });
    expect(result).toMatchObject({
      runsPerVariant: null,
      powerReached: null,
      because: "more-than-maximum",
    });
    if (result.runsPerVariant !== null) throw new Error("reachable");
    // R 4.2.2: power.t.test(n = 9, delta = 2, sd = 1.5, strict = TRUE)
    expectNumber(result.powerAtMaximum, 0.75665477, { relative: 1e-6 });
    expect(fewestReplicates({ ...usual, maximum: 10 }).runsPerVariant).toBe(10);
  });

  it("have no meaning without scatter or difference", () => {
    expect(fewestReplicates({ ...usual, standardDeviation: 0 })).toMatchObject({
      runsPerVariant: null,
      because: "no-scatter",
    });
    expect(fewestReplicates({ ...usual, difference: 0 })).toMatchObject({
      runsPerVariant: null,
      because: "no-difference",
    });
  });

  it.each([
    { power: 0 },
    { power: 1 },
    { confidence: 95 },
    { maximum: 1 },
    { maximum: 10.5 },
    { standardDeviation: -1 },
    { difference: Number.NaN },
  ])("refuse %o", (wrong) => {
    expect(() => fewestReplicates({ ...usual, ...wrong })).toThrow(RangeError);
  });
});

describe("two-sample power", () => {
  // Both with R's number of runs and with R's number that is not whole, at which the power is the wanted one.
  it.each(cases)("is R's: $row.case (reference two-sample-power)", (one) => {
    const { row, standardDeviation, difference, confidence, power, baselineRuns } = one;
    const powerWith = (runs: number) =>
      twoSamplePower({
        standardDeviation,
        difference,
        confidence,
        baselineRuns: baselineRuns ?? runs,
        variantRuns: runs,
      });
    expectNumber(powerWith(numberOf(row, "runsPerVariant")), numberOf(row, "powerReached"), { relative: 1e-6 });
    const exact = numberOf(row, "exact");
    if (exact > 2) expectNumber(powerWith(exact), power, { relative: 1e-6 });
  });

  it("is the significance level where there is no difference", () => {
    const design = { standardDeviation: 2, difference: 0, baselineRuns: 4, variantRuns: 6, confidence: 0.95 };
    expectNumber(twoSamplePower(design), 0.05, { relative: 1e-9 });
  });
});
