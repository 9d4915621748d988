import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { phaseCells } from "../../../app/import/index.ts";
import { type CellEdit, changesOf, coreRun, editedRun, storedRun } from "../../../app/service/stored/index.ts";
import type { StoredPhase, StoredRun } from "../../../app/store/content.ts";
import { defaultSettings, type PhaseName, phaseNames, type Run } from "../../../core/index.ts";
import { numbered } from "./runs.ts";

const settings = defaultSettings();
const variant = { name: "plain", position: 0, levels: new Map<string, string>() };

/** A run in which nothing stands yet, as the Bench begins one. */
function blankRun(method: Run["method"], date: string | null): StoredRun {
  const phases = method === "wbt" ? phaseNames.slice(0, 3) : phaseNames.slice(3);
  return {
    ...{ name: "1", position: 0, variant: 1, method, date, order: 1, block: null, operator: null },
    ...{ leftOut: "not finished", levels: new Map(), attachment: null },
    phases: phases.map((phase): StoredPhase => {
      return { phase, timing: "time", sourceRow: null, readings: new Map(), texts: new Map() };
    }),
  };
}

const lasting = (phase: PhaseName): CellEdit[] =>
  [
    ["air_C", "18.5"],
    ["boiling_C", "94.6"],
    ["altitude_m", "1500"],
    ["humidity_percent", "55"],
    ["fuel", "pine"],
    ["moisture_wet_percent", "11.2"],
    ["moisture_specimens", "meter: 11; 11.4 %"],
    ["fuel_size_mm", "20x20"],
    ["wind", "calm"],
    ["lid", "off"],
    ["pot1_empty_g", "612"],
    ["pot2_empty_g", "540"],
    ["char_container_g", "212"],
  ].map(([column = "", text = ""]) => ({ phase, column, text }));

const readings = (phase: PhaseName): CellEdit[] =>
  [
    ["pot1_start_g", "5612"],
    ["pot1_start_C", "16.2"],
    ["pot1_end_g", "5430"],
    ["pot1_end_C", "94.4"],
    ["pot2_start_g", "3040"],
    ["pot2_start_C", "16.4"],
    ["pot2_end_g", "3010"],
    ["pot2_end_C", "71.5"],
    ["fuel_start_g", "1504"],
    ["fuel_end_g", "820"],
    ["fuel2", "kindling"],
    ["fuel2_start_g", "60"],
    ["fuel2_end_g", "0"],
    ["fuel2_moisture_dry_percent", "9.5"],
    ["char_with_container_g", "265"],
    ["char_at_start_g", "12"],
    ["co_g", "31"],
    ["pm25_mg", "420"],
    ["deviation", "a dropped stick"],
    ["note", "gust at 9:20"],
  ].map(([column = "", text = ""]) => ({ phase, column, text }));

const times = (phase: PhaseName, start: string, end: string, boiled: string | null): CellEdit[] => [
  { phase, column: "start", text: start },
  { phase, column: "end", text: end },
  ...(boiled === null ? [] : [{ phase, column: "boiled_at", text: boiled }]),
];

const ofRun: CellEdit[] = [
  { phase: null, column: "run", text: "R7" },
  { phase: null, column: "variant", text: "plain" },
  { phase: null, column: "order", text: "7" },
  { phase: null, column: "block", text: "Tuesday" },
  { phase: null, column: "operator", text: "Ada" },
];

const wbtCells: CellEdit[] = [
  ...ofRun,
  ...(["cold-start", "hot-start", "simmer"] as const).flatMap((phase) => [...lasting(phase), ...readings(phase)]),
  ...times("cold-start", "09:14:20", "09:39:50", null),
  ...times("hot-start", "09:52", "10:14:30", null),
  ...times("simmer", "10:19", "11:04", null),
];
const isoCells: CellEdit[] = [
  ...ofRun,
  ...(["high-power", "medium-power", "low-power"] as const).flatMap((phase) => [...lasting(phase), ...readings(phase)]),
  ...times("high-power", "08:00", "08:30", "08:21:30"),
  ...times("medium-power", "08:50", "09:20", "09:15"),
  ...times("low-power", "09:40", "10:10", null),
];

/** One cell typed into a run of a file, and the run as the file has it afterwards. */
function typed(stored: StoredRun, edit: CellEdit, act: () => number): StoredRun {
  const run = coreRun(stored, 5, variant);
  const result = editedRun(run, settings, [edit], "en");
  if (!result.ok) {
    expect.fail(
      `${edit.phase} ${edit.column} ${edit.text}: ${result.problems.map(({ message }) => message).join(" ")}`,
    );
  }
  const place = { item: 5, variant: 1, variantLevels: variant.levels, act };
  expect(changesOf(stored, result.run, place).length).toBeGreaterThan(0);
  const at = { position: 0, variant: 1, variantLevels: variant.levels, attachment: null };
  return storedRun(result.run, { ...at, act });
}

const cellsOf = (stored: StoredRun): Map<string, string> => {
  const run = coreRun(stored, 5, variant);
  return new Map(
    run.phases.flatMap((phase) =>
      phaseCells(run, phase)
        .filter(({ column }) => column !== "phase" && column !== "excluded")
        .map(({ column, text }): [string, string] => [`${phase.phase} ${column}`, text]),
    ),
  );
};

/** What should stand there: what was typed, the run's own in each row. */
function expected(stored: StoredRun, edits: readonly CellEdit[], date: string | null): Map<string, string> {
  const found = new Map<string, string>();
  for (const { phase } of stored.phases) {
    found.set(`${phase} run`, "1").set(`${phase} order`, "1").set(`${phase} variant`, "plain");
    if (date !== null) found.set(`${phase} date`, date);
  }
  for (const { phase, column, text } of edits) {
    const phases = phase === null ? stored.phases.map((one) => one.phase) : [phase];
    for (const one of phases) found.set(`${one} ${column}`, text);
  }
  return found;
}

const sorted = (map: ReadonlyMap<string, string>) => [...map].sort(([one], [other]) => one.localeCompare(other));

describe("a run that is typed in cell by cell", () => {
  for (const [method, cells] of [
    ["wbt", wbtCells],
    ["iso", isoCells],
  ] as const) {
    test(`${method}: whatever has been typed by then, in any order, stands there as it was typed`, () => {
      fc.assert(
        fc.property(
          fc.shuffledSubarray(cells, { minLength: 1 }),
          fc.constantFrom("2026-03-10", null),
          (edits, date) => {
            const act = numbered(1);
            let stored = blankRun(method, date);
            const done: CellEdit[] = [];
            for (const edit of edits) {
              // A further fuel entry without a name is the main fuel: its name is written first.
              if (
                /^fuel2_/.test(edit.column) &&
                !done.some(({ phase, column }) => phase === edit.phase && column === "fuel2")
              ) {
                continue;
              }
              if (cellsOf(stored).get(`${edit.phase ?? stored.phases[0]?.phase} ${edit.column}`) === edit.text)
                continue;
              stored = typed(stored, edit, act);
              done.push(edit);
              expect(sorted(cellsOf(stored))).toEqual(sorted(expected(stored, done, date)));
            }
          },
        ),
        { numRuns: 60 },
      );
    }, 120_000);

    test(`${method}: emptied again in any order, nothing of it stays`, () => {
      fc.assert(
        fc.property(
          fc.shuffledSubarray(
            cells.filter(({ phase }) => phase !== null),
            { minLength: 1, maxLength: 25 },
          ),
          (edits) => {
            const act = numbered(1);
            const blank = blankRun(method, "2026-03-10");
            let stored = blank;
            const some = edits.filter(({ column }) => !/^fuel2_/.test(column));
            for (const edit of some) stored = typed(stored, edit, act);
            for (const edit of some.toReversed()) stored = typed(stored, { ...edit, text: "" }, act);
            expect(sorted(cellsOf(stored))).toEqual(sorted(cellsOf(blank)));
          },
        ),
        { numRuns: 40 },
      );
    }, 120_000);
  }

  test("over midnight: bare times go on past it, phase by phase as they are stamped", () => {
    const act = numbered(1);
    let stored = blankRun("wbt", "2026-03-10");
    const cells = [
      ...times("cold-start", "23:20", "23:50", null),
      ...times("hot-start", "23:58", "00:20", null),
      ...times("simmer", "00:25", "01:10", null),
    ];
    for (const cell of cells) stored = typed(stored, cell, act);
    const texts = cellsOf(stored);
    for (const { phase, column, text } of cells) expect(texts.get(`${phase} ${column}`)).toBe(text);
    const minutes = (phase: number, column: string) => stored.phases[phase]?.readings.get(column)?.value;
    // 23:58 is minute 1438 of the day, 00:20 of the next one is minute 1460, 01:10 is 1510.
    expect([minutes(1, "start"), minutes(1, "end"), minutes(2, "end")]).toEqual([1438, 1460, 1510]);
  });

  test("a start after midnight, while the phase before it has no end yet, is the next day's", () => {
    const act = numbered(1);
    let stored = blankRun("wbt", "2026-03-10");
    stored = typed(stored, { phase: "cold-start", column: "start", text: "23:50" }, act);
    stored = typed(stored, { phase: "hot-start", column: "start", text: "00:30" }, act);
    expect(stored.phases[1]?.readings.get("start")?.value).toBe(1470);
    expect(cellsOf(stored).get("hot-start start")).toBe("00:30");
  });
});
