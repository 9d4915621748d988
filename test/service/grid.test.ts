import fc from "fast-check";
import Papa from "papaparse";
import { describe, expect, it } from "vitest";
import { type GridChoice, type GridColumnView, type GridRowView, gridRowLimit } from "../../app/contract/index.ts";
import { type CsvCell, csvText, neutralText } from "../../core/index.ts";
import { isFirst, plainCell, plainOrder, plainRows, questionsAt } from "./grid-plain.ts";
import {
  ask,
  cellEdit,
  door,
  exported,
  first,
  good,
  imported,
  make,
  runs,
  show,
  undoLast,
  who,
} from "./own-program.ts";

const whole: GridChoice = { sort: null, find: "", variant: null, phase: null, only: "all" };
const grid = (choice: Partial<GridChoice> = {}, from = 0, count = gridRowLimit) =>
  ask<"grid.show">({ kind: "grid.show", study: null, choice: { ...whole, ...choice }, from, count });
const rowOf = async (run: string, phase: GridRowView["phase"] | null, choice: Partial<GridChoice> = {}) =>
  (await ask<"grid.find">({ kind: "grid.find", study: null, choice: { ...whole, ...choice }, run, phase })).row;

/** All parts of a choice, put together. */
async function all(choice: Partial<GridChoice> = {}, count = gridRowLimit) {
  const rows: GridRowView[] = [];
  for (;;) {
    const view = await grid(choice, rows.length, count);
    rows.push(...view.part);
    if (rows.length >= view.rows || view.part.length === 0) return { ...view, part: rows };
  }
}
const placeOf = (rows: readonly GridRowView[]) => rows.map(({ runId, phase }) => `${runId} ${phase}`);
const runsView = () => ask<"runs.show">({ kind: "runs.show", study: null });

describe("the grid in the order of the study", () => {
  it("has every cell, missing result and question of every run, whatever the size of its parts", async () => {
    const view = await runsView();
    const rows = plainRows(view);
    const { columns, part, ...counts } = await all({}, 7);
    expect(counts).toMatchObject({ rows: rows.length, allRows: rows.length, runs: 25, allRuns: 25 });
    expect(part).toHaveLength(rows.length);
    const shown = new Set(columns.map(({ column, quantity }) => column ?? quantity));
    const there = [...view.readingColumns.filter((name) => name !== "phase"), ...view.phaseQuantities];
    expect([...there, ...view.runQuantities].filter((name) => !shown.has(name))).toEqual([]);
    for (const [at, row] of part.entries()) {
      const plain = rows[at];
      if (plain === undefined) throw new Error("a row too many");
      const run = view.runs.find(({ id }) => id === plain.runId);
      const { runId, phase, variant, leftOut } = plain;
      const { variantIndex } = run ?? {};
      expect(row).toMatchObject({ runId, run: plain.run, phase, variant, variantIndex, leftOut });
      expect(row.isFirst).toBe(isFirst(rows, at));
      expect(row.cells).toEqual(columns.map(({ key }) => plainCell(plain, key, row.isFirst)));
      expect(row.questions).toEqual(questionsAt(plain, row.isFirst));
      const missing = run?.phases.find((one) => one.phase === phase)?.missing ?? [];
      const ofRun = row.isFirst ? (run?.missing ?? []) : [];
      expect(new Set(row.missing.map(({ key, because }) => `${key} ${because}`))).toEqual(
        new Set([
          ...missing
            .filter(({ quantity }) => view.phaseQuantities.some((name) => name === quantity))
            .map(({ quantity, because }) => `result.${quantity} ${because}`),
          ...ofRun
            .filter(({ quantity }) => view.runQuantities.some((name) => name === quantity))
            .map(({ quantity, because }) => `runResult.${quantity} ${because}`),
        ]),
      );
    }
  });

  it("has the readings and results of the exported tables", async () => {
    const { columns, part } = await all();
    const { contentBase64 } = await ask<"export">({ kind: "export", study: null, what: "runs.csv", choice: first });
    const table = (csv: string) => Papa.parse<Record<string, string>>(csv.trim(), { header: true }).data;
    const at = (key: string) => columns.findIndex((column) => column.key === key);
    const readings = table(await exported("readings.csv"));
    expect(readings).toHaveLength(part.length);
    let compared = 0;
    for (const written of readings) {
      const row = part.find(({ run, phase }) => run === written.run && phase === written.phase);
      for (const [column, text] of Object.entries(written)) {
        if (column === "phase") continue;
        const shown = row?.cells[Math.max(at(`run.${column}`), at(`reading.${column}`))] ?? "";
        expect(typeof shown === "string" ? neutralText(shown) : shown, `${written.run} ${column}`).toBe(text);
        compared += 1;
      }
    }
    expect(compared).toBeGreaterThan(1_500);
    const results = table(Buffer.from(contentBase64, "base64").toString());
    expect(results.length).toBeGreaterThan(0);
    const [one = {}] = results;
    const quantities = columns.filter(
      ({ kind, quantity }) => kind === "result" && quantity !== null && quantity in one,
    );
    let seen = 0;
    for (const written of results) {
      const row = part.find(({ run, phase }) => run === written.run && phase === written.phase);
      if (row === undefined) continue;
      for (const { key, quantity } of quantities) {
        expect(String(row.cells[at(key)] ?? "")).toBe(written[quantity ?? ""]);
        seen += 1;
      }
    }
    if (quantities.length > 0) expect(seen).toBeGreaterThan(500);
  });

  it("says where the row of a run's phase is", async () => {
    const { part } = await all();
    for (const [at, { runId, phase, isFirst: isFirstRow }] of part.entries()) {
      if (at % 7 !== 0 && !isFirstRow) continue;
      expect(await rowOf(runId, phase)).toBe(at);
      if (isFirstRow) expect(await rowOf(runId, null)).toBe(at);
    }
    expect(await rowOf("1", "low-power")).toBeNull();
    expect(await rowOf("999999", null)).toBeNull();
    expect(await rowOf("1", "cold-start", { phase: "simmer" })).toBeNull();
    expect(await rowOf("2", null, { phase: "simmer" })).toBe(1);
  });

  it("shows the columns that the procedure needs, also where nothing stands in them", async () => {
    await ask<"study.create">({ kind: "study.create", name: "Empty", method: "iso", who });
    const { columns, ...rest } = await grid();
    expect(rest).toMatchObject({ rows: 0, runs: 0, allRows: 0, allRuns: 0, part: [] });
    const names = columns.map(({ column }) => column);
    for (const needed of [
      "run",
      "variant",
      "start",
      "end",
      "fuel_start_g",
      "fuel_end_g",
      "pot1_start_g",
      "boiled_at",
    ]) {
      expect(names).toContain(needed);
    }
    expect(columns.every(({ isEmpty }) => isEmpty)).toBe(true);
    expect(columns.filter(({ column }) => column === null)).toEqual([]);
    for (const sort of ["run.run", "result.firepower", "reading.start"]) {
      expect((await grid({ sort: { column: sort, falling: true }, find: "x", only: "questions" })).part).toEqual([]);
    }
  });
});

/** Names and texts that are hard to keep apart, to sort or to find. */
const words = fc.constantFrom(
  ...[
    "__proto__",
    "constructor",
    "toString",
    "Lauf 2",
    "lauf 10",
    "Lauf 10",
    "ärmel",
    "armel",
    "שלום",
    "مرحبا ‏",
    "0",
    "1e3",
  ],
  ...["=1+1", "'quoted", "-5", "x".repeat(10_000), "é", "e\u0301", "👩🏽‍🔬", "5,5"],
);
const text = fc.oneof(words, fc.string({ minLength: 1, maxLength: 8 }));
const isCell = (one: string) =>
  one.trim() === one && one !== "" && /^[^\0\r\n\p{C}]+$/u.test(one.replaceAll("‏", "").replaceAll("‍", ""));
const cell = text.filter((one) => isCell(one) && one.isWellFormed());

interface MadeRun {
  readonly name: string;
  readonly variant: string;
  readonly order: number | null;
  readonly operator: string | null;
  readonly excluded: string | null;
  readonly phases: number;
  readonly air: number;
  readonly burnt: number;
  readonly note: string | null;
}
const madeRun: fc.Arbitrary<MadeRun> = fc.record({
  name: cell,
  variant: fc.constantFrom("__proto__", "no skirt", "Skirt 2", "skirt 10"),
  order: fc.option(fc.integer({ min: -5, max: 40 })),
  operator: fc.option(cell),
  excluded: fc.constantFrom(null, null, "smoky", "lid lost 10", "lid lost 9", "שלום"),
  phases: fc.integer({ min: 1, max: 3 }),
  air: fc.constantFrom(9, 10, 18.5, 21, 21.25, 30),
  burnt: fc.integer({ min: 0, max: 3 }),
  note: fc.option(cell),
});
const madeStudy = fc.uniqueArray(madeRun, { minLength: 1, maxLength: 9, selector: ({ name }) => name });

/** A readings file of such runs, on the rows of the example's first. */
function readingsOf(made: readonly MadeRun[]): string {
  const { data } = Papa.parse<string[]>(good.toString().trim());
  const [heading = [], ...rows] = data;
  const at = (name: string) => heading.indexOf(name);
  const all = made.flatMap(({ name, variant, order, operator, excluded, phases, air, burnt, note }) =>
    rows.slice(0, phases).map((row, phase) => {
      const copy: CsvCell[] = [...row];
      const set = (column: string, value: CsvCell) => {
        if (at(column) < 0) throw new Error(`the example has no ${column}`);
        copy[at(column)] = value;
      };
      for (const factor of heading.filter((one) => one.startsWith("factor:"))) set(factor, null);
      const ofRun = { run: name, variant, order, operator, excluded };
      for (const [column, value] of Object.entries(ofRun)) set(column, value);
      set("air_C", air);
      set("fuel_end_g", Number(row[at("fuel_end_g")]) - burnt * 10);
      set("note", phase === 1 ? note : null);
      return copy;
    }),
  );
  return csvText([heading, ...all]);
}

describe("orders and filters", () => {
  it("are those of a simple implementation, over made studies", async () => {
    let rowsSeen = 0;
    await fc.assert(
      fc.asyncProperty(
        madeStudy,
        fc.array(
          fc.record({
            column: fc.nat(),
            falling: fc.boolean(),
            find: fc.oneof(fc.constantFrom("", "1", "skirt", "cold", "LAUF 1", "5,5", "2026-03", "21.2", "xx"), cell),
            variant: fc.constantFrom(null, null, null, "__proto__", "Skirt 2", "none such"),
            phase: fc.constantFrom(null, null, "cold-start" as const, "simmer" as const),
            only: fc.constantFrom(
              "all" as const,
              "all" as const,
              "counting" as const,
              "leftOut" as const,
              "questions" as const,
            ),
          }),
          { minLength: 25, maxLength: 25 },
        ),
        fc.integer({ min: 1, max: 10 }),
        async (made, choices, size) => {
          const taken = await imported(readingsOf(made), { kind: "new", studyName: "Made" });
          if (!taken.ok) throw new Error(taken.message);
          const rows = plainRows(await runsView());
          const { columns } = await grid({}, 0, 0);
          for (const { column, find, falling, ...choice } of choices) {
            // Half of them by one of the columns.
            const sorted = columns[column % (columns.length * 2)];
            const sort = sorted === undefined ? null : { column: sorted.key, falling };
            // Half of them look for nothing.
            const asked = { ...choice, sort, find: column % 2 === 0 ? "" : find };
            const wanted = plainOrder(rows, columns, asked);
            const shown = await all(asked, size);
            const what = JSON.stringify(asked);
            expect(placeOf(shown.part), what).toEqual(wanted.map(({ runId, phase }) => `${runId} ${phase}`));
            expect(shown.rows, what).toBe(wanted.length);
            expect(shown.runs, what).toBe(new Set(wanted.map(({ runId }) => runId)).size);
            shown.part.forEach((row, at) => {
              const plain = wanted[at];
              if (plain === undefined) return;
              expect(row.isFirst).toBe(isFirst(wanted, at));
              expect(row.cells).toEqual(columns.map(({ key }) => plainCell(plain, key, row.isFirst)));
            });
            rowsSeen += wanted.length;
          }
        },
      ),
      { numRuns: 12 },
    );
    expect(rowsSeen).toBeGreaterThan(500);
  }, 120_000);

  it("times go by when it was, past midnight too", async () => {
    const later = good.toString().replace(/^(R03,.*simmer,.*),13:11,13:56,/m, "$1,00:05,00:50,");
    expect(later).not.toBe(good.toString());
    const taken = await imported(later, { kind: "new", studyName: "Night" });
    if (!taken.ok) throw new Error(taken.message);
    const { part, columns } = await grid({ sort: { column: "reading.start", falling: true } }, 0, 3);
    const start = columns.findIndex(({ key }) => key === "reading.start");
    expect(part[0]).toMatchObject({ run: "R03", phase: "simmer" });
    expect(part[0]?.cells[start]).toMatch(/00:05/);
  });
});

describe("while edits come in between", () => {
  it("parts of one revision neither overlap nor leave out a row", async () => {
    const { runs: made } = await show();
    const byRevision = new Map<number, Map<number, string>>();
    const sort = { column: "reading.fuel_end_g", falling: false };
    const totals = new Map<number, number>();
    for (let round = 0; round < 12; round += 1) {
      const edit = await cellEdit("R01", "cold-start", "fuel_end_g", String(700 + 20 * round));
      // Some parts are asked for before the edit, some after it.
      const early = [0, 20, 40, 60].map((from) => grid({ sort }, from, 20));
      const edited = make(edit);
      const late = [0, 20, 40, 60].map((from) => grid({ sort }, from, 20));
      await edited;
      for (const { revision, part, from, rows, columns } of await Promise.all([...early, ...late])) {
        totals.set(revision, rows);
        const places = byRevision.get(revision) ?? new Map<number, string>();
        byRevision.set(revision, places);
        const at = columns.findIndex(({ key }) => key === sort.column);
        for (const [index, { runId, phase, cells }] of part.entries()) {
          const row = `${runId} ${phase} ${cells[at]}`;
          expect(places.get(from + index) ?? row).toBe(row);
          places.set(from + index, row);
        }
      }
      if (round % 3 === 2) await undoLast();
    }
    expect(byRevision.size).toBeGreaterThan(10);
    for (const [revision, places] of byRevision) {
      expect(totals.get(revision)).toBe(made * 3);
      const rows = [...places].toSorted(([one], [other]) => one - other).map(([, row]) => row);
      expect(new Set(rows.map((row) => row.split(" ").slice(0, 2).join(" "))).size).toBe(places.size);
      const values = rows.map((row) => Number(row.split(" ")[2]));
      expect(values).toEqual(values.toSorted((one, other) => one - other));
    }
  }, 60_000);

  it("a sorted result follows the edit of its run", async () => {
    const sort = { column: "result.fuelConsumedMoist", falling: true };
    const before = await grid({ sort }, 0, 1);
    expect(before.part[0]?.run).not.toBe("R05");
    const { cell: text } = await runs();
    const startText = Number(text("R05", "cold-start", "fuel_start_g"));
    await make(await cellEdit("R05", "cold-start", "fuel_start_g", String(startText + 900)));
    const after = await grid({ sort }, 0, 1);
    expect(after.part[0]).toMatchObject({ run: "R05", phase: "cold-start" });
    await undoLast();
    expect(placeOf((await grid({ sort }, 0, 1)).part)).toEqual(placeOf(before.part));
    expect((await grid({ sort }, 0, 1)).part).toEqual(before.part);
  });
});

describe("requests at the same time", () => {
  it("of several choices are each answered truly", async () => {
    const columns: readonly GridColumnView[] = (await grid({}, 0, 0)).columns;
    const rows = plainRows(await runsView());
    const choices: GridChoice[] = columns.flatMap(({ key }) => [
      { ...whole, sort: { column: key, falling: true } },
      { ...whole, find: "operator 2", sort: { column: key, falling: false } },
    ]);
    const views = await Promise.all([...choices, ...choices].map((choice) => grid(choice, 0, 10)));
    views.forEach((view, at) => {
      const choice = choices[at % choices.length];
      if (choice === undefined) throw new Error("no choice");
      const wanted = plainOrder(rows, columns, choice);
      expect(view.rows).toBe(wanted.length);
      expect(placeOf(view.part)).toEqual(wanted.slice(0, 10).map(({ runId, phase }) => `${runId} ${phase}`));
    });
  });

  it("is refused where more rows are asked for than there may be", async () => {
    const reply = await door.ask({ kind: "grid.show", study: null, choice: whole, from: 0, count: gridRowLimit + 1 });
    expect(reply.ok).toBe(false);
  });
});
