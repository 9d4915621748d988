import { readdirSync, readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { emptySettingsFile, readLeavingOutBadRows, readTable } from "../../../app/import/index.ts";
import { cellText, coreRun, storedRun } from "../../../app/service/stored/index.ts";
import type { StoredRun } from "../../../app/store/content.ts";
import type { Run } from "../../../core/index.ts";
import { study } from "../../import/studies.ts";
import { likeness, numbered, textOf } from "./runs.ts";

/** Levels of a variant that agree with the run's in some factors, differ in others, and know some that the run does not. */
const variantLevels = (run: Run) =>
  fc
    .record({
      same: fc.subarray([...run.factors]),
      other: fc.subarray(["skirt", "Gap width", "__proto__", "fan"]),
      level: fc.constantFrom("yes", "12 mm"),
    })
    .map(({ same, other, level }) => new Map([...other.map((factor) => [factor, level] as const), ...same]));

const withLevels = study.chain(({ runs }) =>
  fc.tuple(...runs.map((run) => variantLevels(run).map((levels) => ({ run, levels })))),
);

function thereAndBack(run: Run, levels: ReadonlyMap<string, string>): { stored: StoredRun; back: Run } {
  const place = { position: 3, variant: 7, variantLevels: levels, attachment: null, act: numbered(100) };
  const stored = storedRun(run, place);
  return { stored, back: coreRun(stored, 12, { name: run.variant, position: 0, levels }) };
}

describe("a run stored and taken out again", () => {
  test("any run, whatever its variant's levels: the same, and the same readings are one", () => {
    fc.assert(
      fc.property(withLevels, (items) => {
        for (const { run, levels } of items) expect(likeness(thereAndBack(run, levels).back)).toEqual(likeness(run));
      }),
      { numRuns: 200 },
    );
  }, 60_000);

  test("any study: its readings file is the same text", () => {
    fc.assert(
      fc.property(study, ({ runs }) => {
        const first = (run: Run) => runs.find(({ variant }) => variant === run.variant)?.factors ?? new Map();
        const back = runs.map((run) => thereAndBack(run, first(run)).back);
        // Which of two factors comes first has no meaning: the variant's do.
        const inOrder = runs.map((run) => ({ ...run, factors: inOrderOf(run.factors, [...first(run).keys()]) }));
        expect(textOf(back)).toBe(textOf(inOrder));
      }),
      { numRuns: 200 },
    );
  }, 60_000);

  const samples = ["good", "defective"].flatMap((folder) =>
    readdirSync(new URL(`../../../sample-data/${folder}/`, import.meta.url))
      .filter((name) => name.endsWith(".csv"))
      .map((name) => `${folder}/${name}`),
  );
  const runsOf = (name: string) => {
    const table = readTable(readFileSync(new URL(`../../../sample-data/${name}`, import.meta.url)), name);
    return readLeavingOutBadRows({ table, settings: emptySettingsFile() }).study?.runs ?? [];
  };

  test("most of the sample files have runs that can be taken", () => {
    expect(samples.filter((name) => runsOf(name).length > 0).length).toBeGreaterThan(60);
  });

  test.each(samples)("what can be read of %s", (name) => {
    const runs = runsOf(name);
    const back = runs.map((run) => thereAndBack(run, run.factors).back);
    expect(back.map(likeness)).toEqual(runs.map(likeness));
    expect(textOf(back)).toBe(textOf(runs));
  });

  test("identifiers are the item, the phase and the act", () => {
    const [run] = runsOf("good/tall-kettle-stove.csv");
    if (run === undefined) expect.fail("no run");
    const { stored, back } = thereAndBack(run, new Map());
    expect(back.id).toBe("12");
    expect(back.phases.map(({ id }) => id)).toEqual(run.phases.map(({ phase }) => `12/${phase}`));
    expect(back.phases[0]?.airTemperature?.id).toBe(String(stored.phases[0]?.readings.get("air_C")?.act));
  });
});

function inOrderOf(factors: ReadonlyMap<string, string>, order: readonly string[]): ReadonlyMap<string, string> {
  const rank = (name: string) => (order.includes(name) ? order.indexOf(name) : order.length);
  return new Map([...factors].toSorted(([left], [right]) => rank(left) - rank(right)));
}

test("cells are shown as the readings file has them, and an empty one is empty", () => {
  const runs = readLeavingOutBadRows({
    table: readTable(
      readFileSync(new URL("../../../sample-data/good/tall-kettle-stove.csv", import.meta.url)),
      "x.csv",
    ),
    settings: emptySettingsFile(),
  }).study?.runs;
  const run = runs?.[0];
  const phase = run?.phases[0];
  if (run === undefined || phase === undefined) expect.fail("no run");
  const { headings, rows } = readTable(new TextEncoder().encode(textOf([run])), "x.csv");
  expect(headings.length).toBeGreaterThan(20);
  for (const [index, column] of headings.entries()) {
    expect(cellText(run, phase, column)).toBe(rows[0]?.cells[index]);
  }
  expect(cellText(run, phase, "pot4_empty_g")).toBe("");
  expect(cellText(run, phase, "no such column")).toBe("");
});
