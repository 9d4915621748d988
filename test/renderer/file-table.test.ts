import { describe, expect, it } from "vitest";
import type { Problem } from "../../core/index.ts";
import { fileTable } from "../../renderer/view/import/file-table.ts";
import { defectiveImport, goodImport } from "./import-fixture.ts";

const table = fileTable(defectiveImport);
const problem = (row: number | null, column: string | null): Problem => ({
  severity: "error",
  rule: "any",
  file: "week-12.csv",
  row,
  column,
  cell: null,
  run: null,
  phase: null,
  message: "any",
});

describe("problems in the cells of a file", () => {
  it("stand in the cell that they name: rows as a spreadsheet counts, the first file column beside the row's number", () => {
    const place = table.placeOf(problem(5, "fuel_end_g"));
    expect(place).toEqual({ row: 3, column: defectiveImport.columns.indexOf("fuel_end_g") + 1 });
    expect(table.rowNumber(3)).toBe(5);
    expect(table.problemsAt({ row: 3, column: 8 })).toEqual([defectiveImport.problems[0]]);
  });

  it("stand at the row's number where the whole row is wrong, and at the heading where the column is", () => {
    expect(table.placeOf(problem(40, null))).toEqual({ row: 38, column: 0 });
    expect(table.placeOf(problem(1, "variant"))).toEqual({ row: -1, column: 2 });
    expect(table.placeOf(problem(null, "variant"))).toEqual({ row: -1, column: 2 });
  });

  it("belong to the whole file where it has no such cell", () => {
    expect(table.placeOf(problem(null, null))).toBeNull();
    expect(table.placeOf(problem(null, "pot1_end_C, which is missing"))).toBeNull();
    expect(table.placeOf(problem(9_999, "variant"))).toBeNull();
  });

  it("are not sought in the readings where the settings are wrong, whatever line of theirs is named", () => {
    const withSettings = fileTable({ ...defectiveImport, settingsFile: "week-12.settings.json" });
    const ofSettings = { ...problem(3, "run"), file: "week-12.settings.json" };
    expect(withSettings.placeOf(ofSettings)).toBeNull();
    expect(withSettings.placeOf(problem(3, "run"))).toEqual({ row: 1, column: 1 });
  });

  it("count rows by the file, blank lines too", () => {
    const rows = goodImport.rows.slice(0, 2).map((row, index) => ({ ...row, row: index === 0 ? 2 : 9 }));
    const gaps = fileTable({ ...goodImport, rows });
    expect(gaps.rowNumber(1)).toBe(9);
    expect(gaps.placeOf(problem(9, "run"))).toEqual({ row: 1, column: 1 });
    expect(gaps.placeOf(problem(3, "run"))).toBeNull();
  });

  it("find a place in a cell beyond the headings' last", () => {
    const [first] = goodImport.rows;
    if (first === undefined) throw new Error("no rows");
    const wide = fileTable({ ...goodImport, rows: [{ ...first, cells: [...first.cells, "one too many"] }] });
    expect(wide.headings).toHaveLength(goodImport.columns.length + 1);
  });
});
