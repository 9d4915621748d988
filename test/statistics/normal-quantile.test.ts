import { describe, expect, it } from "vitest";
import { normalQuantile } from "../../core/statistics/distribution/normal.ts";
import { expectNumber } from "../numbers.ts";

/** R 4.2.2, sprintf("%.17g", qnorm(p)). */
const quantiles = [
  [0.3, -0.52440051270804067],
  [0.025, -1.9599639845400538],
  [1e-3, -3.0902323061678132],
  [1e-6, -4.7534243088228987],
  [1e-12, -7.0344838253011321],
  [1e-50, -14.933337534788489],
  [1e-100, -21.273453560965319],
  [1e-300, -37.047096299361201],
] as const;

describe("the normal quantile", () => {
  it.each(quantiles)("of %d is R's", (probability, z) => {
    expectNumber(normalQuantile(probability), z, { relative: 1e-15 });
  });

  it("is as far on either side, and 0 in the middle", () => {
    expectNumber(normalQuantile(0.5), 0);
    expectNumber(normalQuantile(0.975), 1.9599639845400545, { relative: 1e-15 });
  });

  it("refuses what is no probability between 0 and 1", () => {
    for (const wrong of [0, 1, -0.1, Number.NaN]) expect(() => normalQuantile(wrong)).toThrow(RangeError);
  });
});
