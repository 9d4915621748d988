import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { emptySettingsFile, layoutColumns, phaseCells, readReadings, readTable } from "../../../app/import/index.ts";
import {
  type CellEdit,
  cellText,
  changesOf,
  coreRun,
  editedRun,
  storedRun,
} from "../../../app/service/stored/index.ts";
import { eachReading } from "../../../app/service/stored/read-off-phase.ts";
import type { Change, StoredPhase, StoredRun } from "../../../app/store/content.ts";
import { defaultSettings, type PhaseName, type Reading, type Run } from "../../../core/index.ts";
import { cellText as anyText, study } from "../../import/studies.ts";
import { likeness, numbered, textOf } from "./runs.ts";

const settings = defaultSettings();
const timeColumns: readonly string[] = ["start", "end", "duration_min", "boiled_at"];

/** Changes of one run made to what is stored, place by place. */
function applied(stored: StoredRun, changes: readonly Change[]): StoredRun {
  let run: StoredRun = stored;
  const setPhase = (name: PhaseName, change: (phase: StoredPhase) => StoredPhase) => {
    run = { ...run, phases: run.phases.map((phase) => (phase.phase === name ? change(phase) : phase)) };
  };
  const withKey = <T>(map: ReadonlyMap<string, T>, key: string, value: T | null) => {
    const next = new Map(map);
    if (value === null) next.delete(key);
    else next.set(key, value);
    return next;
  };
  for (const change of changes) {
    if (change.subject === "runField") run = { ...run, [change.field]: change.after };
    else if (change.subject === "timing") setPhase(change.phase, (phase) => ({ ...phase, timing: change.after }));
    else if (change.subject === "reading") {
      setPhase(change.phase, (phase) => ({ ...phase, readings: withKey(phase.readings, change.field, change.after) }));
    } else if (change.subject === "text") {
      setPhase(change.phase, (phase) => ({ ...phase, texts: withKey(phase.texts, change.field, change.after) }));
    } else expect.fail(`an edit of cells made a change of ${change.subject}`);
  }
  return run;
}

/** A run as it comes out of a study file, with what stands there. */
function fromFile(run: Run): { stored: StoredRun; run: Run; act: () => number } {
  const act = numbered(1);
  const place = { position: 0, variant: 1, variantLevels: run.factors, attachment: null, act };
  const stored = storedRun(run, place);
  return { stored, run: coreRun(stored, 5, { name: run.variant, position: 0, levels: run.factors }), act };
}

const readingsOf = (run: Run) => {
  const found = new Map<string, Reading>();
  for (const phase of run.phases) {
    eachReading(phase, (column, reading) => found.set(`${phase.phase} ${column}`, reading));
  }
  return found;
};

const numberText = fc.oneof(
  fc.integer({ min: 0, max: 6000 }).map(String),
  fc.double({ min: 0, max: 200, noNaN: true }).map(String),
  fc.integer({ min: 0, max: 999 }).map((value) => `${value},5`),
);
const timeText = fc.oneof(
  fc.integer({ min: 0, max: 1439 }).map((value) => `${Math.floor(value / 60)}:${String(value % 60).padStart(2, "0")}`),
  fc.constantFrom("2026-03-10T08:10", "2026-03-10T06:10Z", "25:00"),
);
const columnNames = layoutColumns.filter(({ name }) => name !== "phase").map(({ name }) => name);
const anyEdit = fc.record({
  at: fc.nat(),
  /** Mostly a cell that holds something: its number moved a little, or what stands there. */
  filled: fc.boolean(),
  column: fc.constantFrom(...columnNames, "factor:skirt", "factor:fan", "smell", "=cmd"),
  text: fc.oneof(numberText, timeText, anyText, fc.constant("")),
  factor: fc.constantFrom(0.5, 0.999, 1, 1.001, 2),
  cell: fc.nat(),
});

const runAndEdits = study.chain(({ runs: [run] }) =>
  fc.record({ run: fc.constant(run as Run), drafts: fc.array(anyEdit, { minLength: 1, maxLength: 4 }) }),
);

function editsOf(run: Run, drafts: readonly (typeof anyEdit extends fc.Arbitrary<infer T> ? T : never)[]): CellEdit[] {
  return drafts.map(({ at, filled, column, text, factor, cell }) => {
    const phase = run.phases[at % run.phases.length];
    if (phase === undefined) expect.fail("a run without phases");
    if (!filled) return { phase: phase.phase, column, text };
    const cells = phaseCells(run, phase).filter((one) => one.column !== "phase");
    const there = cells[cell % cells.length];
    if (there === undefined) expect.fail("a phase without cells");
    const moved = typeof there.cell === "number" ? String(there.cell * factor) : there.text;
    return { phase: phase.phase, column: there.column, text: moved };
  });
}

describe("whatever is edited", () => {
  test("what was not edited keeps value and identity, and no two values share one", () => {
    let taken = 0;
    fc.assert(
      fc.property(runAndEdits, ({ run: made, drafts }) => {
        const { run } = fromFile(made);
        const edits = editsOf(run, drafts);
        const result = editedRun(run, settings, edits, "en");
        if (!result.ok) {
          expect(result.problems.length).toBeGreaterThan(0);
          return;
        }
        taken += 1;
        const touched = (phase: string, column: string) =>
          edits.some(
            (edit) =>
              edit.phase === phase &&
              (edit.column === column ||
                (timeColumns.includes(edit.column) && timeColumns.includes(column)) ||
                // One of several fuels emptied moves the others.
                (/^fuel\d/.test(edit.column) && edit.text.trim() === "" && /^fuel\d/.test(column))),
          );
        const after = readingsOf(result.run);
        for (const [place, reading] of readingsOf(run)) {
          const [phase = "", column = ""] = place.split(" ");
          // A gross value's hydrogen becomes a note where the value goes, the container's mass where the char goes.
          const partner = /hydrogen/.test(column) ? /calorific/ : /char_/.test(column) ? /char_/ : null;
          if (partner !== null && edits.some((edit) => edit.phase === phase && partner.test(edit.column))) continue;
          if (!touched(phase, column)) expect([place, after.get(place)]).toEqual([place, reading]);
        }
        const values = new Map<string, number>();
        for (const { id, value } of after.values()) {
          expect(values.get(id) ?? value).toBe(value);
          values.set(id, value);
        }
      }),
      { numRuns: 300 },
    );
    expect(taken).toBeGreaterThan(80);
  }, 120_000);

  test("the changes make the stored run the edited one, and none of them is idle", () => {
    let changed = 0;
    fc.assert(
      fc.property(runAndEdits, ({ run: made, drafts }) => {
        const { stored, run, act } = fromFile(made);
        const result = editedRun(run, settings, editsOf(run, drafts), "en");
        if (!result.ok) return;
        const { run: edited } = result;
        const variant = edited.variant === run.variant ? 1 : 2;
        const place = { item: 5, variant, variantLevels: made.factors, act };
        const changes = changesOf(stored, edited, place);
        if (changes.length > 0) changed += 1;
        const after = applied(stored, changes);
        const back = coreRun(after, 5, { name: edited.variant, position: 0, levels: made.factors });
        expect(likeness(back)).toEqual(likeness(edited));
        for (const [column, { id }] of readingsOf(edited)) {
          if (/^\d+$/.test(id)) expect(readingsOf(back).get(column)?.id).toBe(id);
        }
        expect(changesOf(after, back, place)).toEqual([]);
        const places = changes.map((change) =>
          JSON.stringify([
            change.subject,
            "phase" in change ? change.phase : "",
            "field" in change ? change.field : "",
          ]),
        );
        expect(new Set(places).size).toBe(places.length);
        for (const change of changes) expect(applied(stored, [change])).not.toEqual(stored);
      }),
      { numRuns: 300 },
    );
    expect(changed).toBeGreaterThan(50);
  }, 120_000);

  test("an edited run is one that a readings file can hold: written and read again it is the same", () => {
    let compared = 0;
    fc.assert(
      fc.property(runAndEdits, ({ run: made, drafts }) => {
        const { run } = fromFile(made);
        const edits = editsOf(run, drafts).filter(({ column }) => !timeColumns.includes(column) && column !== "date");
        const result = editedRun(run, settings, edits, "en");
        if (!result.ok) return;
        // A run that is left out may lack readings, and a file's row without them is not taken.
        if (JSON.stringify(result.run.phases).includes('"value":null')) return;
        const table = readTable(new TextEncoder().encode(textOf([result.run])), "x.csv");
        const read = readReadings({ table, settings: emptySettingsFile() });
        compared += 1;
        expect(read.problems.filter(({ severity }) => severity === "error")).toEqual([]);
        const plain = (one: Run | undefined) =>
          one?.phases.map((phase) => [
            phase.phase,
            new Map(phaseCells(one, phase).map(({ column, text }) => [column, text])),
          ]);
        expect(plain(read.study?.runs[0])).toEqual(plain(result.run));
      }),
      { numRuns: 200 },
    );
    expect(compared).toBeGreaterThan(50);
  }, 120_000);

  test("the same cells edited in the file share readings alike", () => {
    const columns = layoutColumns
      .filter(({ content, ofRun }) => content === "number" && !ofRun)
      .map(({ name }) => name);
    let compared = 0;
    fc.assert(
      fc.property(study, fc.nat(), fc.nat(), fc.constantFrom(...columns), ({ runs: [made] }, at, from, column) => {
        const { run } = fromFile(made as Run);
        const phase = run.phases[at % run.phases.length];
        const other = run.phases[from % run.phases.length];
        if (phase === undefined || other === undefined || column === "duration_min") return;
        // What stands in another phase's cell, put into this one's.
        const text = cellText(run, other, column);
        if (text === "" || cellText(run, phase, column) === "") return;
        const result = editedRun(run, settings, [{ phase: phase.phase, column, text }], "en");
        if (!result.ok) return;
        compared += 1;
        const table = readTable(new TextEncoder().encode(textOf([result.run])), "x.csv");
        const [read] = readReadings({ table, settings: emptySettingsFile() }).study?.runs ?? [];
        const sharing = (one: Run | undefined) => {
          const numbers = new Map<string, number>();
          return one === undefined
            ? null
            : [...readingsOf(one)].map(([place, { id }]) => {
                if (!numbers.has(id)) numbers.set(id, numbers.size);
                return [place, numbers.get(id)];
              });
        };
        expect(sharing(result.run)).toEqual(sharing(read));
      }),
      { numRuns: 1000 },
    );
    expect(compared).toBeGreaterThan(50);
  }, 120_000);

  test("texts that no number, time or name is: refused with a sentence, or taken whole", () => {
    const hostile = fc.oneof(
      anyText,
      fc.string({ unit: "binary", maxLength: 20 }),
      fc.constantFrom("9".repeat(400), "1e-400", "-0", "\0", "1,2,3", "\u0661", "0000-00-00", " "),
    );
    const place = fc.constantFrom(...columnNames, "factor:__proto__", "__proto__", "constructor");
    fc.assert(
      fc.property(study, fc.nat(), place, hostile, ({ runs: [made] }, at, column, text) => {
        const { run } = fromFile(made as Run);
        const phase = run.phases[at % run.phases.length]?.phase ?? null;
        const result = editedRun(run, settings, [{ phase, column, text }], "en");
        if (result.ok) {
          for (const { value } of readingsOf(result.run).values()) expect(Number.isFinite(value)).toBe(true);
          return;
        }
        for (const { message } of result.problems) {
          expect(message.replaceAll(/“[^”]*”/g, "")).not.toMatch(/undefined|\bNaN\b|\[object|null/);
          expect(message).not.toMatch(/\n/);
        }
      }),
      { numRuns: 400 },
    );
  }, 120_000);
});
