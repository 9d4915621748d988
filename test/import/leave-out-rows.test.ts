import { describe, expect, test } from "vitest";
import {
  badRows,
  emptySettingsFile,
  isWholeFileProblem,
  readLeavingOutBadRows,
  readReadings,
  readTable,
} from "../../app/import/index.ts";
import { type Changes, readingsText } from "./good-readings.ts";

/** Two runs: R01 in rows 2 to 4 as changed, R02 in rows 5 to 7 without a fault. */
function twoRuns(changes: Changes): string {
  const empty = { ...changes, cells: { "2.run": "R02", "3.run": "R02", "4.run": "R02" } };
  return readingsText(changes) + readingsText(empty).split("\n").slice(1).join("\n");
}
const input = (text: string) => ({
  table: readTable(new TextEncoder().encode(text), "x.csv"),
  settings: emptySettingsFile(),
});

describe("leaving bad rows out", () => {
  test("the rest is read, and each row is listed with all its reasons", () => {
    const text = twoRuns({ cells: { "3.fuel_end_g": "?", "3.air_C": "1000" } });
    const result = readLeavingOutBadRows(input(text));
    expect(result.problems).toEqual([]);
    expect(result.study?.runs.map(({ name, phases }) => [name, phases.length])).toEqual([
      ["R01", 2],
      ["R02", 3],
    ]);
    expect(result.leftOutRows).toMatchObject([{ file: "x.csv", row: 3, run: "R01", phase: "hot-start" }]);
    expect(result.leftOutRows[0]?.reasons).toEqual(result.setAside.map(({ message }) => message));
    expect(result.setAside.map(({ rule }) => rule)).toEqual(["not-a-number", "temperature-out-of-range"]);
  });

  test("of rows that contradict each other all are left out, since nobody knows which is right", () => {
    const twice = input(twoRuns({ cells: { "3.phase": "cold-start" } }));
    expect(badRows(readReadings(twice).problems)).toEqual([2, 3]);
    expect(readLeavingOutBadRows(twice).study?.runs[0]?.phases.map(({ phase }) => phase)).toEqual(["simmer"]);
    const variants = input(twoRuns({ cells: { "3.variant": "other" } }));
    expect(badRows(readReadings(variants).problems)).toEqual([2, 3, 4]);
    expect(readLeavingOutBadRows(variants).study?.runs.map(({ name }) => name)).toEqual(["R02"]);
  });

  test("a run that was left out does not come back because the row with the reason is bad", () => {
    const text = twoRuns({ add: ["excluded"], cells: { "2.excluded": "rain", "2.fuel_end_g": "?" } });
    expect(readLeavingOutBadRows(input(text)).study?.runs.map(({ leftOut }) => leftOut)).toEqual(["rain", null]);
  });

  test("what a left-out row says of its run still holds where no other row says it", () => {
    const text = twoRuns({ cells: { "2.fuel_end_g": "?", "3.variant": "", "4.variant": "" } });
    expect(readLeavingOutBadRows(input(text)).study?.runs[0]).toMatchObject({ name: "R01", variant: "clay insert" });
  });

  test("rows that depend on a contradiction go as well", () => {
    const text = twoRuns({ cells: { "3.variant": "other", "4.variant": "" } });
    const result = readLeavingOutBadRows(input(text));
    expect(result.leftOutRows.map(({ row }) => row)).toEqual([2, 3, 4]);
    expect(result.leftOutRows.every(({ reasons }) => reasons.length > 0)).toBe(true);
  });

  test("an error of the whole file stands", () => {
    const result = readLeavingOutBadRows(input(readingsText({ remove: ["fuel_end_g"] })));
    expect(result.study).toBeNull();
    expect(result.problems.map(isWholeFileProblem)).toEqual([true]);
    expect(badRows(result.problems)).toEqual([]);
  });

  test("nothing left is an error of the whole file", () => {
    const cells = { "2.fuel_end_g": "?", "3.fuel_end_g": "?", "4.fuel_end_g": "?" };
    const result = readLeavingOutBadRows(input(readingsText({ cells })));
    expect(result.study).toBeNull();
    expect(result.problems.map(({ rule, row }) => [rule, row])).toEqual([["nothing-left", null]]);
    expect(result.leftOutRows).toHaveLength(3);
  });
});

test("rows that a person leaves out are listed, and their errors are no longer", () => {
  const text = twoRuns({ cells: { "3.fuel_end_g": "?" } });
  const result = readReadings({ ...input(text), leaveOutRows: new Set([3]) });
  expect(result.problems).toEqual([]);
  expect(result.leftOutRows).toMatchObject([{ row: 3, run: "R01" }]);
});
