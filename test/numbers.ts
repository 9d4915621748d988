import { expect } from "vitest";

/**
 * The one way to compare numbers in tests. Passes when the two differ by at most
 * `relative` times the expected magnitude, or by at most `absolute`. Both default to 0: exact equality.
 */
export function expectNumber(
  actual: number | null | undefined,
  expected: number,
  tolerance: { relative?: number; absolute?: number } = {},
): void {
  if (typeof actual !== "number" || !Number.isFinite(actual)) {
    expect(actual, `expected a number near ${expected}`).toBe(expected);
    return;
  }
  const allowed = Math.max((tolerance.relative ?? 0) * Math.abs(expected), tolerance.absolute ?? 0);
  const off = Math.abs(actual - expected);
  if (off > allowed) expect.fail(`expected ${expected}, got ${actual}: off by ${off}, allowed ${allowed}`);
}
