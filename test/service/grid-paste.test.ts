import fc from "fast-check";
import Papa from "papaparse";
import { describe, expect, it } from "vitest";
import type { Edit, GridRowView, GridView, RefusedCell } from "../../app/contract/index.ts";
import { expectNumber } from "../numbers.ts";
import { ask, door, exported, good, imported, make, show, undoLast, who } from "./own-program.ts";

type Cells = Extract<Edit, { kind: "cellsOfRuns" }>["cells"];
type Cell = Cells[number];

const choice = { sort: null, find: "", variant: null, phase: null, only: "all" } as const;
const grid = () => ask<"grid.show">({ kind: "grid.show", study: null, choice, from: 0, count: 500 });
const paste = (cells: Cells, way: "paste" | "fillDown" | "empty" = "paste"): Edit => ({
  kind: "cellsOfRuns",
  way,
  cells,
});

const shown = ({ columns }: GridView, row: GridRowView | undefined, column: string): string => {
  const at = columns.findIndex((one) => one.column === column);
  return String(row?.cells[at] ?? "");
};
const rowOf = ({ part }: GridView, run: string, phase: string) =>
  part.find((one) => one.run === run && one.phase === phase);

/** A cell of the grid with another text. */
function cell(view: GridView, run: string, phase: Cell["phase"], column: string, text: string): Cell {
  const row = view.part.find((one) => one.run === run && (phase === null || one.phase === phase));
  return { run: row?.runId ?? "0", phase, column, text, was: shown(view, row, column) };
}

async function refused(cells: Cells): Promise<{ readonly message: string; readonly cells: readonly RefusedCell[] }> {
  const before = { readings: await exported("readings.csv"), undo: (await show()).undo };
  const reply = await door.ask({ kind: "edit.make", study: null, who, edit: paste(cells) });
  if (reply.ok) throw new Error("not refused");
  expect(reply.reason).toBe("refused");
  expect({ readings: await exported("readings.csv"), undo: (await show()).undo }).toEqual(before);
  return { message: reply.message, cells: reply.cells ?? [] };
}

const table = (csv: string) => Papa.parse<Record<string, string>>(csv.trim(), { header: true }).data;

const numbers = [
  ...["fuel_start_g", "fuel_end_g", "moisture_wet_percent", "char_container_g", "char_with_container_g", "air_C"],
  ...["boiling_C", "pot1_empty_g", "pot1_start_g", "pot1_end_g", "pot1_start_C", "pot1_end_C"],
];

describe("a range that is pasted", () => {
  it("of 40 rows and 12 columns with decimal commas lands right, as one step that is undone in one", async () => {
    const before = await exported("readings.csv");
    const view = await grid();
    const rows = view.part.slice(0, 40);
    const cells = rows.flatMap((row) =>
      numbers.map((column): Cell => {
        const was = shown(view, row, column);
        return {
          run: row.runId,
          phase: row.phase,
          column,
          text: (Number(was) + 0.1).toFixed(1).replace(".", ","),
          was,
        };
      }),
    );
    expect(cells).toHaveLength(480);
    const { done, undo } = await make(paste(cells));
    expect(done).toMatch(/480 cells of 14 runs/);
    const readings = table(await exported("readings.csv"));
    const former = table(before);
    let landed = 0;
    for (const [at, row] of former.entries()) {
      for (const [column, text] of Object.entries(row)) {
        const now = readings[at]?.[column] ?? "";
        if (at < 40 && numbers.includes(column)) {
          // One digit after the comma was pasted: half of the next is how far the number may be off.
          expectNumber(Number(now), Number(text) + 0.1, { relative: 0, absolute: 1e-9 });
          landed += 1;
        } else expect(now).toBe(text);
      }
    }
    expect(landed).toBe(480);
    expect(undo?.label).toMatch(/480 cells of 14 runs pasted/);
    await undoLast();
    expect(await exported("readings.csv")).toBe(before);
    expect((await grid()).part).toEqual(view.part);
  });

  it("counts the cells that changed, and is refused where none does", async () => {
    const view = await grid();
    const same = cell(view, "R02", "simmer", "air_C", shown(view, rowOf(view, "R02", "simmer"), "air_C"));
    const other = cell(view, "R01", "simmer", "note", "windy");
    expect((await make(paste([same, other], "fillDown"))).done).toMatch(/one cell of one run filled down/);
    const reply = await door.ask({ kind: "edit.make", study: null, who, edit: paste([same]) });
    expect(reply).toMatchObject({ ok: false, message: expect.stringMatching(/nothing was changed/) });
  });

  it("is emptied, but for what a run that counts needs", async () => {
    const view = await grid();
    const wind = ["R01", "R02", "R03"].map((run) => cell(view, run, "simmer", "wind", ""));
    expect((await make(paste(wind, "empty"))).done).toMatch(/3 cells of 3 runs emptied/);
    const after = await grid();
    expect(shown(after, rowOf(after, "R02", "simmer"), "wind")).toBe("");
    expect(shown(after, rowOf(after, "R02", "hot-start"), "wind")).not.toBe("");
    const needed = await refused([cell(after, "R01", "simmer", "fuel_start_g", "")]);
    expect(needed.cells).toMatchObject([{ run: "1", phase: "simmer", column: "fuel_start_g" }]);
  });

  it("moves several runs to one new variant", async () => {
    const view = await grid();
    const cells = ["R01", "R05", "R09"].flatMap((run) =>
      (["cold-start", "hot-start", "simmer"] as const).map((phase) =>
        cell(view, run, phase, "variant", "taller skirt"),
      ),
    );
    expect((await make(paste(cells))).done).toMatch(/3 cells of 3 runs/);
    const { variants } = await show();
    expect(variants.find(({ name }) => name === "taller skirt")).toMatchObject({ runs: 3 });
    await undoLast();
    expect((await show()).variants.map(({ name }) => name)).not.toContain("taller skirt");
  });

  it("gives runs each other's names, and takes names that no other run has in the end", async () => {
    const view = await grid();
    await make(paste([cell(view, "R01", null, "run", "R02"), cell(view, "R02", null, "run", "R01")]));
    const after = await grid();
    expect(after.part.slice(0, 6).map(({ run }) => run)).toEqual(["R02", "R02", "R02", "R01", "R01", "R01"]);
    await make(
      paste([cell(after, "R03", null, "run", "__proto__"), cell(after, "R04", null, "run", "x".repeat(10_000))]),
    );
    const names = (await grid()).part.map(({ run }) => run);
    expect(names).toContain("__proto__");
    expect(names).toContain("x".repeat(10_000));
  });
});

describe("cells that do not fit", () => {
  it("are all named, each with its reason, and nothing is changed", async () => {
    const view = await grid();
    const bad = [
      cell(view, "R01", "cold-start", "pot1_end_g", "heavy"),
      cell(view, "R02", "cold-start", "pot1_end_g", "5,400.5"),
      cell(view, "R03", "cold-start", "fuel_end_g", "-5"),
      cell(view, "R04", "simmer", "end", "25:10"),
      cell(view, "R05", "hot-start", "result.firepower", "3"),
      cell(view, "R06", "hot-start", "thermalEfficiency", "3"),
      { ...cell(view, "R07", "simmer", "air_C", "20"), phase: "low-power" as const },
      cell(view, "R08", "simmer", "phase", "hot-start"),
      cell(view, "R09", "simmer", "fuel start (kg)", "1"),
      cell(view, "R10", "simmer", "factor:", "1"),
      { ...cell(view, "R11", "simmer", "air_C", "20"), was: "1" },
      { run: "999999", phase: "simmer" as const, column: "air_C", text: "20", was: "" },
      { ...cell(view, "R12", "simmer", "air_C", "20"), phase: null },
      cell(view, "R13", null, "order", "1e13"),
      cell(view, "R14", null, "date", "yesterday"),
      cell(view, "R15", null, "variant", ""),
    ];
    const good = ["R20", "R21", "R22"].map((run) => cell(view, run, "simmer", "air_C", "21,5"));
    const { message, cells } = await refused([...good, ...bad]);
    const places = (some: readonly { run: string; phase: string | null; column: string }[]) =>
      new Set(some.map(({ run, column }) => `${run} ${column}`));
    expect(places(cells)).toEqual(places(bad));
    for (const { message: why } of cells) expect(why).toMatch(/^\S.*[.…]$/su);
    expect(message).toMatch(new RegExp(`${cells.length} of ${good.length + bad.length} cells`));
    const of = (run: string) =>
      cells.find((one) => one.run === view.part.find((row) => row.run === run)?.runId)?.message;
    expect(of("R01")).toMatch(/heavy/);
    expect(of("R02")).toMatch(/5,400\.5/);
    expect(of("R07")).toMatch(/has no low power/);
    expect(of("R05")).toMatch(/worked out/);
    expect(of("R11")).toMatch(/another window/);
  });

  it("in one run are named beside each other", async () => {
    const view = await grid();
    const { cells } = await refused([
      cell(view, "R01", "cold-start", "pot1_end_g", "heavy"),
      cell(view, "R01", "simmer", "air_C", "warm"),
      { ...cell(view, "R01", "simmer", "air_C", "20"), phase: "low-power" },
    ]);
    expect(cells.map(({ phase, column }) => `${phase} ${column}`).toSorted()).toEqual([
      "cold-start pot1_end_g",
      "low-power air_C",
      "simmer air_C",
    ]);
  });

  it("are names that another run has, or that two would have", async () => {
    const view = await grid();
    const taken = await refused([cell(view, "R01", null, "run", "R09"), cell(view, "R02", null, "run", "R01")]);
    expect(taken.cells).toMatchObject([
      { run: "1", phase: null, column: "run", message: expect.stringMatching(/R09/) },
    ]);
    const twice = await refused([cell(view, "R03", null, "run", "New"), cell(view, "R04", null, "run", "New")]);
    expect(twice.cells).toMatchObject([
      { run: "3", column: "run", message: expect.stringMatching(/Two runs.*New/) },
      { run: "4", column: "run" },
    ]);
  });

  it("are two texts for what a run has once", async () => {
    const view = await grid();
    const { cells } = await refused([
      cell(view, "R01", "cold-start", "operator", "Ama"),
      cell(view, "R01", "simmer", "operator", "Kofi"),
    ]);
    expect(cells).toMatchObject([{ run: "1", column: "operator", message: expect.stringMatching(/R01/) }]);
  });

  it("are none where a heading of the study has the name of a result", async () => {
    const [heading = "", ...rows] = good.toString().trim().split(/\r?\n/);
    const csv = [`${heading},firepower`, ...rows.map((row, at) => `${row},${at}`)].join("\n");
    const taken = await imported(csv, { kind: "new", studyName: "Own heading" });
    if (!taken.ok) throw new Error(taken.message);
    await make(paste([cell(await grid(), "R01", "simmer", "firepower", "strong")]));
    const after = await grid();
    expect(shown(after, rowOf(after, "R01", "simmer"), "firepower")).toBe("strong");
  });
});

const columns = [
  "air_C",
  "pot1_end_g",
  "fuel_end_g",
  "moisture_wet_percent",
  "end",
  "note",
  "wind",
  "operator",
  "factor:skirt",
];
const texts = ["", "20", "20,5", "5400", "5.400,5", "800", "08:20", "23:59", "__proto__", "=1+1", "-1", "yes", "12,25"];

it("is what the same cells are run by run, over made ranges", async () => {
  await show();
  const seen = { taken: 0, refused: 0 };
  await fc.assert(
    fc.asyncProperty(
      fc.uniqueArray(
        fc.record({
          run: fc.integer({ min: 1, max: 25 }),
          phase: fc.constantFrom("cold-start" as const, "hot-start" as const, "simmer" as const),
          column: fc.constantFrom(...columns),
          text: fc.constantFrom(...texts),
        }),
        {
          minLength: 1,
          maxLength: 6,
          selector: ({ run, phase, column }) =>
            `${run} ${column.startsWith("f") || column === "operator" ? "" : phase} ${column}`,
        },
      ),
      async (given) => {
        const view = await grid();
        const cells = given.map(({ run, phase, column, text }): Cell => {
          const row = view.part.find((one) => one.runId === String(run) && one.phase === phase);
          return { run: String(run), phase, column, text, was: shown(view, row, column) };
        });
        const undone = async (steps: number) => {
          for (let step = 0; step < steps; step += 1) await undoLast();
        };
        const start = await exported("readings.csv");
        const byRun = [...Map.groupBy(cells, ({ run }) => run)];
        let done = 0;
        let isRefused = false;
        for (const [run, ofRun] of byRun) {
          const edit: Edit = { kind: "cells", run, cells: ofRun.map(({ run: _, ...one }) => one), why: null };
          const reply = await door.ask({ kind: "edit.make", study: null, who, edit });
          if (reply.ok) done += 1;
          else if (!reply.message.includes("nothing was changed")) isRefused = true;
        }
        const oneByOne = await exported("readings.csv");
        await undone(done);
        expect(await exported("readings.csv")).toBe(start);
        const reply = await door.ask({ kind: "edit.make", study: null, who, edit: paste(cells) });
        if (isRefused) {
          expect(reply.ok).toBe(false);
          expect(await exported("readings.csv")).toBe(start);
          seen.refused += 1;
        } else if (reply.ok) {
          expect(await exported("readings.csv")).toBe(oneByOne);
          await undone(1);
          seen.taken += 1;
        } else expect(oneByOne).toBe(start);
      },
    ),
    { numRuns: 40 },
  );
  expect(seen.taken).toBeGreaterThan(3);
  expect(seen.refused).toBeGreaterThan(3);
}, 120_000);
