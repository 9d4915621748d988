import type { TwoGroups } from "../../core/statistics/welch.ts";
import { cellOf, numbersOf, readInput } from "../reference/read-reference.ts";

/** The two groups of a case in a reference's input.csv. */
export function groupsOf(folder: string, name: unknown): TwoGroups {
  const row = readInput(folder).get(String(name));
  return {
    baseline: numbersOf(cellOf(row, "baseline")),
    variant: numbersOf(cellOf(row, "variant")),
    confidence: Number(cellOf(row, "confidence")),
  };
}

/** Every number anywhere in a result. */
export function numbersWithin(result: unknown): number[] {
  if (typeof result === "number") return [result];
  if (typeof result === "object" && result !== null) return Object.values(result).flatMap(numbersWithin);
  return [];
}
