import { describe, expect, it } from "vitest";
import { wordsFor } from "../../core/index.ts";
import { withTroubles } from "../../renderer/state/grid-bulk.ts";
import { quantitiesOf } from "../../renderer/state/quantities.ts";
import { bulkCells } from "../../renderer/view/runs/bulk-cells.ts";
import { runsColumns } from "../../renderer/view/runs/grid-columns.ts";
import { grid, gridColumns } from "./fixture.ts";

const { screens: words } = wordsFor("en");
const known = { words, locale: "en", quantities: quantitiesOf("en"), method: "wbt", withUncertainty: true } as const;
const all = runsColumns(gridColumns, known);
const columns = (...keys: string[]) => all.filter(({ key }) => keys.includes(key));
const rows = grid.part.slice(0, 3);

describe("what an edit over a range changes", () => {
  it("is each cell in which another text is to stand, with what stood there", () => {
    const cells = bulkCells(
      "paste",
      rows,
      columns("reading.fuel_start_g", "reading.air_C"),
      (row, column) => (column === 0 ? String(1500 + row) : "21,5"),
      words,
    );
    expect(cells).toEqual(
      [1500, 1501, 1502].map((text, row) => ({
        run: "101",
        name: "R01",
        phase: rows[row]?.phase,
        column: "fuel_start_g",
        text: String(text),
        was: "1504",
        trouble: null,
      })),
    );
  });

  it("of a run's own column once for all its phases; two different texts do not fit", () => {
    const operator = columns("run.operator");
    expect(bulkCells("paste", rows, operator, () => "Efua", words)).toMatchObject([
      { phase: null, column: "operator", text: "Efua", was: "first", trouble: null },
    ]);
    const [two, ...others] = bulkCells("paste", rows, operator, (row) => (row === 2 ? "Kojo" : "Efua"), words);
    expect(two?.trouble).toMatch(/R01 has one such reading/);
    expect(others).toEqual([]);
    const [kept] = bulkCells("paste", rows, operator, (row) => (row === 2 ? "Kojo" : "first"), words);
    expect(kept?.trouble).toMatch(/R01 has one such reading/);
  });

  it("results, names and reasons do not take a text, but what they hold may be pasted over them", () => {
    const computed = columns("run.run", "run.excluded", "result.firepower");
    const wrong = bulkCells("paste", rows.slice(0, 1), computed, () => "1", words);
    expect(wrong.map(({ trouble }) => trouble)).toEqual([
      words.grid.runName,
      words.grid.leftOutHere,
      words.changes.computed,
    ]);
    const same = ["R01 cold start", "", "5217"];
    expect(bulkCells("paste", rows.slice(0, 1), computed, (_, column) => same[column] ?? "", words)).toEqual([]);
    expect(bulkCells("empty", rows, computed, () => "", words)).toEqual([]);
  });
});

describe("a refusal", () => {
  const cells = bulkCells("paste", rows, columns("reading.fuel_start_g"), () => "heavy", words);
  it("is told at its cells; what does not fit beside them is told apart", () => {
    const found = withTroubles(cells, [
      { run: "101", phase: "simmer", column: "fuel_start_g", message: "no number" },
      { run: "101", phase: "simmer", column: "fuel_end_g", message: "more after than before" },
    ]);
    expect(found.cells.map(({ trouble }) => trouble)).toEqual([null, null, "no number"]);
    expect(found.others).toMatchObject([{ column: "fuel_end_g" }]);
  });
});
