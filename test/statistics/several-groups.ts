import { cellOf, numbersOf, readInput } from "../reference/read-reference.ts";

/** The groups and the confidence of a case: "1 2 3;4 5 6" in the column `groups` of a reference's input.csv. */
export function severalGroups(folder: string, name: unknown): { groups: number[][]; confidence: number } {
  const row = readInput(folder).get(String(name));
  return {
    groups: cellOf(row, "groups").split(";").map(numbersOf),
    confidence: Number(row?.get("confidence") ?? 0.95),
  };
}
