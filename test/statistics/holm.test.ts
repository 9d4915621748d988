import { describe, expect, it } from "vitest";
import { holm } from "../../core/statistics/holm.ts";
import { expectNumber } from "../numbers.ts";
import { numberOf, readExpected } from "../reference/read-reference.ts";

describe("Holm's adjustment", () => {
  const reference = readExpected("holm");
  const names = [...new Set(reference.map((row) => row.case))];

  it.each(names)("is R's: %s (reference holm, p.adjust)", (name) => {
    const rows = reference.filter((row) => row.case === name);
    const adjusted = holm(rows.map((row) => (row.p === null ? null : numberOf(row, "p"))));
    for (const [index, row] of rows.entries()) {
      if (row.p === null) expect(adjusted[index]).toBeNull();
      else expectNumber(adjusted[index], numberOf(row, "adjusted"), { relative: 1e-14 });
    }
  });

  it("is worked by hand: 0.01, 0.04, 0.03 of three become 0.03, 0.06, 0.06", () => {
    const [first, second, third] = holm([0.01, 0.04, 0.03]);
    expectNumber(first, 0.03, { relative: 1e-15 });
    expectNumber(second, 0.06, { relative: 1e-15 });
    expectNumber(third, 0.06, { relative: 1e-15 });
  });

  it("passes over what is missing, and leaves nothing as nothing", () => {
    expect(holm([null, 0.04, null])).toEqual([null, 0.04, null]);
    expect(holm([])).toEqual([]);
    expect(holm([null])).toEqual([null]);
  });

  it("refuses what is no probability", () => {
    expect(() => holm([0.5, 1.2])).toThrow(RangeError);
    expect(() => holm([Number.NaN])).toThrow(RangeError);
  });
});
