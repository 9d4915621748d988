import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { replicatesNeeded } from "../../core/statistics/replicates-needed.ts";
import { twoSamplePower } from "../../core/statistics/two-sample-power.ts";
import { expectNumber } from "../numbers.ts";
import { cellOf, numberOf, readExpected, readInput } from "../reference/read-reference.ts";

const usual = { standardDeviation: 1.5, difference: 2, power: 0.8, confidence: 0.95, maximum: 1000 };

function questionOf(name: unknown) {
  const row = readInput("two-sample-power").get(String(name));
  const fixed = cellOf(row, "baselineRuns");
  return {
    standardDeviation: Number(cellOf(row, "standardDeviation")),
    difference: Number(cellOf(row, "difference")),
    power: Number(cellOf(row, "power")),
    confidence: Number(cellOf(row, "confidence")),
    maximum: 1000,
    ...(fixed === "" ? {} : { baselineRuns: Number(fixed) }),
  };
}

describe("replicates needed", () => {
  it.each(readExpected("two-sample-power"))("are R's: $case (reference two-sample-power)", (row) => {
    const result = replicatesNeeded(questionOf(row.case));
    expect(result.because).toBeNull();
    expect(result.runsPerVariant).toBe(row.runsPerVariant);
    expectNumber(result.powerReached, numberOf(row, "powerReached"), { relative: 1e-6 });
    expectNumber(result.exact, numberOf(row, "exact"), { relative: 1e-6 });
  });

  it("are 64 for half a standard deviation at 80 % and 95 %, 26 for 0.8 (Cohen 1988, table 2.4.1, from memory)", () => {
    expect(replicatesNeeded({ ...usual, standardDeviation: 1, difference: 0.5 }).runsPerVariant).toBe(64);
    expect(replicatesNeeded({ ...usual, standardDeviation: 1, difference: 0.8 }).runsPerVariant).toBe(26);
  });

  it("are enough, and one fewer are not", () => {
    const size = fc.double({ min: 0.3, max: 5, noNaN: true });
    const power = fc.double({ min: 0.5, max: 0.99, noNaN: true });
    fc.assert(
      fc.property(size, power, (difference, wanted) => {
        const question = { ...usual, standardDeviation: 1, difference, power: wanted };
        const result = replicatesNeeded(question);
        if (result.runsPerVariant === null) throw new Error(result.because);
        const powerWith = (runs: number) => twoSamplePower({ ...question, baselineRuns: runs, variantRuns: runs });
        expect(result.powerReached).toBeGreaterThanOrEqual(wanted);
        expectNumber(powerWith(result.runsPerVariant), result.powerReached);
        if (result.runsPerVariant > 2) {
          expect(powerWith(result.runsPerVariant - 1)).toBeLessThan(wanted);
          expectNumber(powerWith(result.exact), wanted, { absolute: 1e-8 });
        }
      }),
      { numRuns: 25 },
    );
  });

  it("are two, the fewest that show scatter, for an enormous difference", () => {
    expect(replicatesNeeded({ ...usual, difference: 1e9 })).toEqual({
      runsPerVariant: 2,
      powerReached: 1,
      exact: 2,
      because: null,
    });
  });

  it("do not depend on the sign of the difference", () => {
    expect(replicatesNeeded({ ...usual, difference: -2 })).toEqual(replicatesNeeded(usual));
  });

  it("are not reachable beyond the maximum, which says how far it would reach", () => {
    const result = replicatesNeeded({ ...usual, maximum: 9 });
    expect(result).toMatchObject({
      runsPerVariant: null,
      powerReached: null,
      exact: null,
      because: "more-than-maximum",
    });
    if (result.runsPerVariant !== null) throw new Error("reachable");
    // R 4.2.2: power.t.test(n = 9, delta = 2, sd = 1.5, strict = TRUE)
    expectNumber(result.powerAtMaximum, 0.75665477, { relative: 1e-6 });
    expect(replicatesNeeded({ ...usual, maximum: 10 }).runsPerVariant).toBe(10);
  });

  it("have no end where too few baseline runs limit the power", () => {
    expect(replicatesNeeded({ ...usual, baselineRuns: 2 })).toMatchObject({ because: "more-than-maximum" });
  });

  it("have no meaning without scatter or difference", () => {
    expect(replicatesNeeded({ ...usual, standardDeviation: 0 })).toMatchObject({
      runsPerVariant: null,
      because: "no-scatter",
    });
    expect(replicatesNeeded({ ...usual, difference: 0 })).toMatchObject({
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
    { baselineRuns: 0 },
  ])("refuse %o", (wrong) => {
    expect(() => replicatesNeeded({ ...usual, ...wrong })).toThrow(RangeError);
  });
});

describe("two-sample power", () => {
  it("is the significance level where there is no difference", () => {
    const design = { standardDeviation: 2, difference: 0, baselineRuns: 4, variantRuns: 6, confidence: 0.95 };
    expectNumber(twoSamplePower(design), 0.05, { relative: 1e-9 });
  });
});
