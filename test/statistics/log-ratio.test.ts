import { describe, expect, it } from "vitest";
import { logRatio } from "../../core/statistics/log-ratio.ts";
import { expectNumber } from "../numbers.ts";
import { numberOf, readExpected } from "../reference/read-reference.ts";
import { groupsOf } from "./groups.ts";

const confidence = 0.95;

describe("ratio of geometric means", () => {
  it.each(readExpected("log-ratio"))("is R's: $case (reference log-ratio, t.test on logarithms)", (row) => {
    const result = logRatio(groupsOf("log-ratio", row.case));
    expect(result.because).toBeNull();
    expectNumber(result.ratio, numberOf(row, "ratio"), { relative: 1e-12 });
    expectNumber(result.t, numberOf(row, "t"), { relative: 1e-9 });
    expectNumber(result.degreesOfFreedom, numberOf(row, "degreesOfFreedom"), { relative: 1e-9 });
    expectNumber(result.p, numberOf(row, "p"), { relative: 1e-9 });
    expectNumber(result.interval?.lower, numberOf(row, "lower"), { relative: 1e-9 });
    expectNumber(result.interval?.upper, numberOf(row, "upper"), { relative: 1e-9 });
  });

  it("is worked by hand: geometric means 4 and 8", () => {
    expectNumber(logRatio({ baseline: [2, 8], variant: [4, 16], confidence }).ratio, 2, { relative: 1e-15 });
  });

  it("is one over itself when the groups change places", () => {
    const [one, other] = [
      [21, 22.5, 20.1],
      [24.2, 23.9, 25.5, 24.8],
    ];
    const forth = logRatio({ baseline: one, variant: other, confidence });
    const back = logRatio({ baseline: other, variant: one, confidence });
    expectNumber(back.ratio, 1 / (forth.ratio ?? 0), { relative: 1e-14 });
    expectNumber(back.interval?.lower, 1 / (forth.interval?.upper ?? 0), { relative: 1e-12 });
  });

  it("says why it is missing", () => {
    const nothing = { ratio: null, t: null, degreesOfFreedom: null, p: null, interval: null };
    expect(logRatio({ baseline: [1, 2], variant: [0, 3], confidence })).toMatchObject({
      ...nothing,
      because: "value-not-positive",
    });
    expect(logRatio({ baseline: [-1, 2], variant: [3, 4], confidence })).toMatchObject({
      ...nothing,
      because: "value-not-positive",
    });
    expect(logRatio({ baseline: [], variant: [3, 4], confidence })).toMatchObject({ ...nothing, because: "no-values" });
    const single = logRatio({ baseline: [2], variant: [3, 3.5], confidence });
    expect(single).toMatchObject({ interval: null, p: null, because: "one-value" });
    expectNumber(single.ratio, Math.sqrt(3 * 3.5) / 2, { relative: 1e-14 });
    expect(logRatio({ baseline: [2, 2], variant: [3, 3], confidence })).toMatchObject({
      interval: null,
      because: "no-scatter",
    });
    expect(logRatio({ baseline: [1e-300], variant: [1e300], confidence })).toMatchObject({
      ...nothing,
      because: "too-large",
    });
    expect(logRatio({ baseline: [1e-100, 1e100], variant: [1e100, 1e-90], confidence })).toMatchObject({
      interval: null,
      because: "too-large",
    });
  });
});
