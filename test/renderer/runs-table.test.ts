import { describe, expect, it } from "vitest";
import { wordsFor } from "../../core/index.ts";
import { quantitiesOf } from "../../renderer/state/quantities.ts";
import { phasesOf, type RunsChoice, runsTable, sortedRuns } from "../../renderer/view/runs/runs-table.ts";
import { runs } from "./fixture.ts";

const known = {
  words: wordsFor("en").screens,
  locale: "en",
  quantities: quantitiesOf("en"),
  method: "wbt",
} as const;

const tableOf = (show: RunsChoice["show"], phase: string | null) => runsTable(runs, { show, phase }, known);

function cellOf(table: ReturnType<typeof tableOf>, run: string, key: string) {
  const row = table.runs.find((one) => one.run === run);
  const column = table.columns.find((one) => one.key === key);
  if (row === undefined || column === undefined) throw new Error(`no ${run} or no ${key}`);
  return column.cell(row);
}

describe("the table of runs", () => {
  it("offers the phases that occur", () => {
    expect(phasesOf(runs)).toEqual(["cold-start", "hot-start", "simmer"]);
  });

  it("marks a question in the cell where it stands, with its reason, and not in the run's name as well", () => {
    const simmer = tableOf("readings", "simmer");
    expect(cellOf(simmer, "R07", "end").questions).toEqual([expect.stringContaining("51 min")]);
    expect(cellOf(simmer, "R07", "run").questions).toEqual([]);
    expect(cellOf(simmer, "R08", "end").questions).toEqual([]);
  });

  it("marks a question at the run's name where its cell is not shown, and says where it stands", () => {
    expect(cellOf(tableOf("readings", "cold-start"), "R07", "run").questions).toEqual([
      expect.stringMatching(/^simmer, end: .*51 min/),
    ]);
    expect(cellOf(tableOf("results", null), "R07", "run").questions).toHaveLength(1);
  });

  it("shows what belongs to the run once, though the layout has it in each row", () => {
    const more = ["run", "variant", "phase", "order", "factor:skirt"];
    const wide = {
      ...runs,
      readingColumns: [...more, ...runs.readingColumns],
      runs: runs.runs.map((run) => ({
        ...run,
        phases: run.phases.map((phase) => ({ ...phase, readings: [...more.map(() => "again"), ...phase.readings] })),
      })),
    };
    const table = runsTable(wide, { show: "readings", phase: "simmer" }, known);
    const keys = table.columns.map((column) => column.key);
    expect(cellOf(table, "R01", "fuel_start_g").text).toBe("1504");
    expect(cellOf(table, "R07", "end").questions).toHaveLength(1);
    expect(keys.filter((key) => key === "run" || key === "variant" || key === "order")).toHaveLength(3);
    expect(keys).not.toContain("phase");
    expect(keys).not.toContain("factor:skirt");
  });

  it("says why a result is missing, and shows nothing in its place", () => {
    const cell = cellOf(tableOf("results", null), "R05", "turnDownRatio");
    expect(cell).toMatchObject({ text: "", order: null, missing: "no simmer phase" });
    expect(cellOf(tableOf("results", "cold-start"), "R04", "charFormed").missing).toBe("the char was not weighed");
    expect(cellOf(tableOf("readings", "simmer"), "R04", "char_with_container_g").missing).toBe("not measured");
  });

  it("shows a share as per cent, in the unit and the decimals of the table of quantities", () => {
    const table = tableOf("results", null);
    // 0.22 of 1 is 22.0 %.
    expect(cellOf(table, "R01", "highPowerThermalEfficiency").text).toBe("22.0");
    expect(table.columns.find((one) => one.key === "highPowerThermalEfficiency")?.heading).toMatch(/, %$/);
  });

  it("leaves out quantities that the phase does not have", () => {
    expect(tableOf("results", "simmer").columns.map((column) => column.key)).not.toContain("timeToBoil");
    expect(tableOf("results", "cold-start").columns.map((column) => column.key)).toContain("timeToBoil");
  });

  it("sorts numbers as numbers, both ways, with what is not known last", () => {
    const table = tableOf("results", null);
    const rising = sortedRuns(table, "turnDownRatio", false, "en").map((run) => run.run);
    const falling = sortedRuns(table, "turnDownRatio", true, "en").map((run) => run.run);
    expect(rising[0]).toBe("R01");
    expect(falling[0]).toBe("R24");
    expect(rising.at(-1)).toBe("R05");
    expect(falling.at(-1)).toBe("R05");
    const byOrder = sortedRuns(table, "order", true, "en").map((run) => run.order);
    expect(byOrder).toEqual(Array.from({ length: 24 }, (_, index) => 24 - index));
  });

  it("keeps the recorded order where nothing, or an unknown column, is sorted by", () => {
    const table = tableOf("results", null);
    for (const key of [null, "__proto__"]) expect(sortedRuns(table, key, false, "en")).toEqual(runs.runs);
  });
});
