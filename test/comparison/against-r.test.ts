import { describe, expect, it } from "vitest";
import type { TableComparison } from "../../core/index.ts";
import { expectNumber } from "../numbers.ts";
import { type ReferenceCase, readExpected } from "../reference/read-reference.ts";
import { comparedCase } from "./tables.ts";

/** The value at a path of the reference: factors by their term (and level), all others by key or place. */
function valueAt(comparison: TableComparison, path: string): unknown {
  const [head = "", ...rest] = path.split("|");
  let value: unknown = comparison[head as keyof TableComparison];
  for (const key of rest) {
    if (Array.isArray(value)) {
      value = /^\d+$/.test(key)
        ? value[Number(key)]
        : value.find(({ term, level }) => (level === undefined ? term : `${term} ${level}`) === key);
    } else value = (value as Record<string, unknown> | null | undefined)?.[key];
  }
  return value;
}

const isP = (path: string) => /\|(p|holmP|smallestP)$/.test(path);

describe("a table compared", () => {
  it.each(readExpected("compare-tables"))("has R's numbers: $case (reference compare-tables)", (row: ReferenceCase) => {
    const comparison = comparedCase(String(row.case));
    const wrong: string[] = [];
    for (const [path, expected] of Object.entries(row)) {
      if (path === "case") continue;
      const actual = valueAt(comparison, path);
      if (expected === null) {
        if (actual !== null) wrong.push(`${path}: ${actual} in place of null`);
        continue;
      }
      try {
        expectNumber(
          actual as number,
          expected as number,
          isP(path) ? { relative: 1e-4 } : { relative: 1e-6, absolute: 1e-9 },
        );
      } catch (error) {
        wrong.push(`${path}: ${error instanceof Error ? error.message : error}`);
      }
    }
    expect(wrong).toEqual([]);
    expect(Object.keys(row).length).toBeGreaterThan(50);
  });
});
