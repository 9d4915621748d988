import { describe, expect, it } from "vitest";
import { wordsFor } from "../../core/index.ts";
import { isColumnShown, noColumnChoice, withColumns } from "../../renderer/state/grid-columns.ts";
import { quantitiesOf } from "../../renderer/state/quantities.ts";
import {
  isShownAtFirst,
  missingIn,
  plainText,
  questionsIn,
  type RunsColumn,
  runsColumns,
  shownText,
} from "../../renderer/view/runs/grid-columns.ts";
import { grid, gridColumns } from "./fixture.ts";

const { screens: words } = wordsFor("en");
const known = { words, locale: "en", quantities: quantitiesOf("en"), method: "wbt", withUncertainty: true } as const;
const columns = runsColumns(gridColumns, known);

function columnOf(key: string): RunsColumn {
  const column = columns.find((one) => one.key === key);
  if (column === undefined) throw new Error(`no column ${key}`);
  return column;
}

function rowOf(run: string, phase: string) {
  const row = grid.part.find((one) => one.run === run && one.phase === phase);
  if (row === undefined) throw new Error(`no ${run}`);
  return row;
}

const readings = new Set(columns.flatMap(({ reading }) => (reading === null ? [] : [reading])));

describe("the columns of the grid", () => {
  it("begin with run and phase, which stand there alone", () => {
    expect(columns[0]).toMatchObject({ key: "run.run", heading: "run, phase", at: null });
    expect(columns.filter(({ key }) => key === "run.run")).toHaveLength(1);
    expect(runsColumns([...gridColumns, phaseColumn], known).map(({ key }) => key)).not.toContain("run.phase");
  });

  it("show at first readings that occur and the results that are looked at first", () => {
    const shown = columns.filter(isShownAtFirst).map(({ key }) => key);
    expect(shown).toEqual(expect.arrayContaining(["run.variant", "reading.fuel_start_g", "runResult.taskFuel5L"]));
    for (const hidden of ["reading.note", "run.excluded", "result.charFormed"]) expect(shown).not.toContain(hidden);
  });

  it("are as somebody chose, and the others as at first", () => {
    const choice = withColumns(withColumns(noColumnChoice, ["reading.note"], true), ["reading.start"], false);
    expect(isColumnShown(choice, "reading.note", false)).toBe(true);
    expect(isColumnShown(choice, "reading.start", true)).toBe(false);
    expect(isColumnShown(choice, "reading.end", true)).toBe(true);
    expect(withColumns(choice, ["reading.start"], true)).toEqual({
      shown: ["reading.note", "reading.start"],
      hidden: [],
    });
  });

  it("are written to where something was written down; why a run is left out is not", () => {
    expect(columnOf("reading.fuel_start_g").reading).toBe("fuel_start_g");
    expect(columnOf("result.thermalEfficiency").reading).toBeNull();
    expect(columnOf("run.excluded").reading).toBeNull();
  });
});

const phaseColumn = {
  key: "run.phase",
  kind: "run",
  column: "phase",
  quantity: null,
  isNumber: false,
  isEmpty: false,
} as const;

describe("a cell of the grid", () => {
  it("shows a share as per cent, in the unit and the decimals of the table of quantities", () => {
    const column = columnOf("runResult.highPowerThermalEfficiency");
    // 0.22 of 1 is 22.0 %.
    expect(shownText(rowOf("R01", "cold-start"), column, "en")).toBe("22.0");
    expect(column.heading).toMatch(/, %$/);
  });

  it("is copied as plain digits, without what binary arithmetic adds", () => {
    // 0.214 + 0.0007 of 1 is 21.47 %.
    const column = columnOf("result.thermalEfficiency");
    expect(plainText(rowOf("R01", "cold-start"), column, words)).toBe("21.47");
    expect(plainText(rowOf("R01", "cold-start"), columnOf("result.firepower"), words)).toBe("5217");
    expect(plainText(rowOf("R01", "simmer"), columns[0] as RunsColumn, words)).toBe("R01 simmer");
  });

  it("says why a result is missing; those of the whole run stand with its first row alone", () => {
    expect(missingIn(rowOf("R05", "cold-start"), columnOf("runResult.turnDownRatio"))).toBe("no simmer phase");
    expect(missingIn(rowOf("R05", "simmer"), columnOf("runResult.turnDownRatio"))).toBeNull();
    expect(missingIn(rowOf("R04", "simmer"), columnOf("result.charFormed"))).toBe("the char was not weighed");
    expect(shownText(rowOf("R06", "simmer"), columnOf("runResult.taskFuel5L"), "en")).toBe("");
  });

  it("has the questions about it; where its column is not shown they are with run and phase", () => {
    const simmer = rowOf("R07", "simmer");
    const first = columns[0] as RunsColumn;
    expect(questionsIn(simmer, columnOf("reading.end"), readings)).toHaveLength(1);
    expect(questionsIn(simmer, first, readings)).toEqual([]);
    const without = new Set([...readings].filter((reading) => reading !== "end"));
    expect(questionsIn(simmer, first, without)).toHaveLength(1);
    expect(questionsIn(rowOf("R08", "simmer"), columnOf("reading.end"), readings)).toEqual([]);
  });
});
