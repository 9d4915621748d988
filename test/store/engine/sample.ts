import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll } from "vitest";
import {
  type Change,
  type EditNote,
  type StoredPhase,
  type StoredRun,
  StoreFault,
  StudyDatabase,
} from "../../../app/store/index.ts";
import type { PhaseName } from "../../../core/index.ts";

export const program = "boilbench 0.1.0";

/** A folder for the files of one test file, removed at its end; gives a new path at each call. */
export function newPaths(): () => string {
  const folder = mkdtempSync(join(tmpdir(), "boilbench-engine-"));
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  let count = 0;
  return () => {
    count += 1;
    return join(folder, `${count}.boilstudy`);
  };
}

export const note = (what = "cell", who = "Ana"): EditNote => ({ who, what, about: {}, why: null });

export const createStudy = (path: string): StudyDatabase =>
  StudyDatabase.create(path, { name: "Stoves", method: "wbt", confidence: 0.9, isExample: false, who: "Ana", program });

export const openStudy = (path: string, readOnly = false): StudyDatabase =>
  StudyDatabase.open(path, { readOnly, program });

export const phaseOf = (
  phase: PhaseName,
  readings: readonly (readonly [string, number, number])[],
  texts: readonly (readonly [string, string])[] = [],
): StoredPhase => ({
  phase,
  timing: "time",
  sourceRow: 2,
  readings: new Map(readings.map(([column, act, value]) => [column, { act, value }])),
  texts: new Map(texts),
});

export const runOf = (name: string, position: number, phases: readonly StoredPhase[] = []): StoredRun => ({
  name,
  position,
  variant: 1,
  method: "wbt",
  date: "2026-03-01",
  order: 1,
  block: null,
  operator: "Ben",
  leftOut: null,
  levels: new Map(),
  attachment: null,
  phases,
});

/** Something of every subject: two runs of two phases, one act of reading that both share. */
export const sampleChanges: readonly Change[] = [
  { subject: "variant", item: 1, after: { name: "Rocket", position: 0, levels: new Map([["pot", "steel"]]) } },
  { subject: "variant", item: 2, after: { name: "Three stones", position: 1, levels: new Map() } },
  { subject: "fuel", item: 1, after: { name: "Oak", value: { netCalorific: 18_500 } } },
  { subject: "pot", item: 1, after: { name: "A", value: { mass: 812.5 } } },
  { subject: "instrument", item: 1, after: { name: "Scale", value: { resolution: 0.5 } } },
  { subject: "setting", field: "monteCarlo", after: { trials: 1000 } },
  { subject: "attachment", item: 1, after: { file: "week-1.csv", sha256: "ab".repeat(32) } },
  {
    subject: "run",
    item: 1,
    after: {
      ...runOf("R1", 0, [
        phaseOf(
          "cold-start",
          [
            ["fuel_start_g", 1, 900.25],
            ["pot1_start_C", 2, 21.5],
          ],
          [
            ["fuel", "Oak"],
            ["note", "windy"],
          ],
        ),
        phaseOf(
          "simmer",
          [
            ["fuel_start_g", 3, 512],
            ["char_g", 4, 33.1],
          ],
          [["lid", "no"]],
        ),
      ]),
      levels: new Map([["pot", null]]),
      attachment: 1,
    },
  },
  {
    subject: "run",
    item: 2,
    after: {
      ...runOf("R2", 1, [phaseOf("cold-start", [["fuel_start_g", 1, 900.25]])]),
      variant: 2,
      leftOut: "spilled",
    },
  },
  { subject: "remark", item: 1, after: { kind: "assumed", run: 1, value: { rule: "year" } } },
  {
    subject: "series",
    item: 1,
    after: {
      run: 1,
      name: "T",
      unit: "C",
      minutes: Float64Array.of(0, 0.1, 0.2),
      values: Float64Array.of(20, -0, 1e-300),
    },
  },
];

/** A new study with all of that in it. */
export function sampleStudy(path: string): StudyDatabase {
  const study = createStudy(path);
  study.edit(note("import"), sampleChanges);
  return study;
}

/** All content and all of the record, as plain data that can be compared. */
export function everything(study: StudyDatabase): unknown {
  const lines = study.runLines();
  return {
    head: study.head(),
    lines,
    runs: lines.map(({ run }) => study.run(run)),
    series: lines.map(({ run }) => study.seriesOf(run)),
    record: study.record(1000).map((edit) => ({ edit, changes: study.changesOf(edit.edit) })),
  };
}

export function verifyAll(study: StudyDatabase): void {
  for (const _ of study.verify());
}

/** The fault that something throws; anything else that it throws is passed on. */
export function faultOf(work: () => unknown): { code: string; detail: string } | null {
  try {
    work();
    return null;
  } catch (error) {
    if (error instanceof StoreFault) return { code: error.code, detail: error.detail };
    throw error;
  }
}
