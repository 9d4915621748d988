import { existsSync, statSync } from "node:fs";
import { expect, test } from "vitest";
import type { Change } from "../../../app/store/index.ts";
import {
  createStudy,
  everything,
  faultOf,
  newPaths,
  note,
  openStudy,
  phaseOf,
  runOf,
  sampleChanges,
  sampleStudy,
  verifyAll,
} from "./sample.ts";

const newPath = newPaths();

test("all content comes back as it was given, also after a restart, and in one file", () => {
  const path = newPath();
  sampleStudy(path).close();
  expect(existsSync(`${path}-journal`)).toBe(false);
  const study = openStudy(path);
  verifyAll(study);
  const head = study.head();
  const given = <S extends Change["subject"]>(subject: S) =>
    sampleChanges.filter((change): change is Extract<Change, { subject: S }> => change.subject === subject);
  expect(head).toMatchObject({ name: "Stoves", method: "wbt", confidence: 0.9, isExample: false, createdBy: "Ana" });
  expect(head.identity).toBe(study.identity);
  for (const { item, after } of given("variant")) expect(head.variants.get(item)).toEqual(after);
  for (const { item, after } of given("attachment")) expect(head.attachments.get(item)).toEqual(after);
  for (const { item, after } of given("remark")) expect(head.remarks.get(item)).toEqual(after);
  for (const { field, after } of given("setting")) expect(head.settings.get(field)).toEqual(after);
  expect(head.fuels.get(1)).toEqual({ name: "Oak", value: { netCalorific: 18_500 } });
  expect(head.pots.get(1)).toEqual({ name: "A", value: { mass: 812.5 } });
  expect(head.instruments.get(1)).toEqual({ name: "Scale", value: { resolution: 0.5 } });
  for (const { item, after } of given("run")) {
    const run = study.run(item);
    expect(run).toEqual(after);
    expect(run.phases.map(({ texts }) => [...texts.keys()])).toEqual(
      after?.phases.map(({ texts }) => [...texts.keys()]),
    );
  }
  // toEqual tells −0 from 0: samples come back bit by bit.
  for (const { item, after } of given("series")) expect(study.seriesOf(1).get(item)).toEqual(after);
  expect(study.runLines().map(({ run, name, leftOut }) => [run, name, leftOut])).toEqual([
    [1, "R1", null],
    [2, "R2", "spilled"],
  ]);
  study.close();
});

const oddNames: Readonly<Record<string, string>> = {
  markup: "<b onmouseover=alert(1)>x</b>",
  "quotes and SQL": `"it's" \\ ; DROP TABLE run; -- %s`,
  "right-to-left marks": "‮right to left‬ עברית",
  "10,000 characters": "n".repeat(10_000),
  ["__proto__"]: "__proto__",
  constructor: "constructor",
  "astral, combining and replacement characters": "\u{1F525} é e\u0301 \uFFFD\uFEFF",
  "white space": " \t\n",
};

test.each(Object.entries(oddNames))("a name of %s stands everywhere as it was given", (_, name) => {
  const study = createStudy(newPath());
  study.edit({ who: name, what: "odd", about: { name }, why: name }, [
    { subject: "study", field: "name", after: name },
    { subject: "setting", field: name, after: { [`_${name}`]: name } },
    { subject: "variant", item: 1, after: { name, position: 0, levels: new Map([[name, name]]) } },
    { subject: "fuel", item: 1, after: { name, value: name } },
    { subject: "attachment", item: 1, after: { file: name, sha256: "0".repeat(64) } },
    {
      subject: "run",
      item: 1,
      after: {
        ...runOf(name, 0, [
          phaseOf(
            "simmer",
            [[name, 1, 5]],
            [
              [name, name],
              ["note", name],
            ],
          ),
        ]),
        levels: new Map([[name, name]]),
        leftOut: name,
      },
    },
    { subject: "text", item: 1, phase: "simmer", field: `${name}2`, after: name },
  ]);
  verifyAll(study);
  const head = study.head();
  expect([head.name, head.variants.get(1)?.levels.get(name), head.fuels.get(1), head.attachments.get(1)?.file]).toEqual(
    [name, name, { name, value: name }, name],
  );
  expect(head.settings.get(name)).toEqual({ [`_${name}`]: name });
  const run = study.run(1);
  expect([run.name, run.leftOut, run.levels.get(name), run.phases[0]?.readings.get(name)]).toEqual([
    name,
    name,
    name,
    { act: 1, value: 5 },
  ]);
  expect([...(run.phases[0]?.texts ?? [])]).toEqual([
    [name, name],
    ["note", name],
    [`${name}2`, name],
  ]);
  expect(study.record(1)[0]).toMatchObject({ who: name, about: { name }, why: name });
  const before = everything(study);
  study.undo("Ben");
  study.redo("Ben");
  expect(study.run(1)).toEqual(run);
  expect(everything(study)).toMatchObject({ head: (before as { head: unknown }).head });
  expect(({} as Record<string, unknown>).polluted).toBeUndefined();
  study.close();
});

const nonsense: readonly (readonly [string, Change])[] = [
  ["NUL", { subject: "study", field: "name", after: "a\0b" }],
  ["NUL in a text", { subject: "text", item: 1, phase: "simmer", field: "note", after: "a\0" }],
  ["half a character", { subject: "study", field: "name", after: "a\uD800" }],
  ["half a character in a column's name", { subject: "text", item: 1, phase: "simmer", field: "\uDC00", after: "x" }],
  ["no name", { subject: "runField", item: 1, field: "name", after: null }],
  ["a number for a text", { subject: "runField", item: 1, field: "operator", after: 5 }],
  ["an order that is no number", { subject: "runField", item: 1, field: "order", after: Number.NaN }],
  [
    "a value that is no number",
    { subject: "reading", item: 1, phase: "simmer", field: "x", after: { act: 50, value: Number.NaN } },
  ],
  ["half an act", { subject: "reading", item: 1, phase: "simmer", field: "x", after: { act: 50.5, value: 1 } }],
  [
    "a mass below zero",
    { subject: "reading", item: 1, phase: "simmer", field: "char_g", after: { act: 50, value: -1 } },
  ],
  [
    "one of two readings of one act",
    { subject: "reading", item: 1, phase: "cold-start", field: "fuel_start_g", after: { act: 1, value: 5 } },
  ],
  ["a run that is not there", { subject: "runField", item: 99, field: "name", after: "x" }],
  ["a phase that is not there", { subject: "text", item: 1, phase: "hot-start", field: "note", after: "x" }],
  ["a variant in use", { subject: "variant", item: 1, after: null }],
  ["a run with a series", { subject: "run", item: 1, after: null }],
  ["a position that is taken", { subject: "run", item: 9, after: runOf("R9", 1) }],
  [
    "a sample that is no number",
    {
      subject: "series",
      item: 2,
      after: { run: 1, name: "T", unit: "C", minutes: Float64Array.of(1), values: Float64Array.of(Number.NaN) },
    },
  ],
  ["nothing", { subject: "runField", item: 1, field: "name", after: "R1" }],
];

test.each(nonsense)("an edit with %s is refused, and changes nothing of content or record", (_, change) => {
  const study = sampleStudy(newPath());
  const before = everything(study);
  const fine: Change = { subject: "runField", item: 2, field: "block", after: "B" };
  const changes = _ === "nothing" ? [change] : [fine, change];
  expect(faultOf(() => study.edit(note(), changes))?.code).toBe("refused");
  expect(everything(study)).toEqual(before);
  study.edit(note(), [fine]);
  verifyAll(study);
  study.close();
});

test("a file that is there is not overwritten, and a study that is refused leaves no file", () => {
  const path = newPath();
  createStudy(path).close();
  const size = statSync(path).size;
  expect(faultOf(() => createStudy(path))?.code).toBe("exists");
  expect(statSync(path).size).toBe(size);
});

test("numbers once used are not used again, not even after an undo and a restart", () => {
  const path = newPath();
  const study = createStudy(path);
  const variant = study.nextItem("variant");
  expect([variant, study.nextItem("variant", 3), study.nextItem("variant")]).toEqual([1, 2, 5]);
  study.edit(note(), [{ subject: "variant", item: 4, after: { name: "V", position: 0, levels: new Map() } }]);
  study.undo("Ana");
  study.close();
  const again = openStudy(path);
  expect([again.nextItem("variant"), again.nextItem("act")]).toEqual([5, 1]);
  again.close();
});

test("what turns one content into another does so, both ways, with all subjects and shared acts", () => {
  const ours = sampleStudy(newPath());
  const theirs = sampleStudy(newPath());
  const shared = (act: number, value: number): Change[] =>
    [1, 2].map((item) => ({
      subject: "reading",
      item,
      phase: "cold-start",
      field: "fuel_start_g",
      after: { act, value },
    }));
  theirs.edit(note(), [
    ...shared(1, 901),
    { subject: "setting", field: "monteCarlo", after: null },
    { subject: "study", field: "name", after: "Other" },
    { subject: "series", item: 1, after: null },
    { subject: "remark", item: 1, after: null },
    { subject: "remark", item: 2, after: { kind: "question", run: 2, value: 1 } },
    { subject: "variant", item: 1, after: { name: "Rocket", position: 1, levels: new Map() } },
    { subject: "variant", item: 2, after: { name: "Stones", position: 0, levels: new Map() } },
    { subject: "run", item: 3, after: runOf("R3", 2) },
  ]);
  // The two files were made apart: their identity and hour of creation differ, and are no matter of an edit.
  const contentOf = (study: typeof ours): unknown => {
    const { head, runs, series } = everything(study) as { head: object; runs: unknown; series: unknown };
    return { runs, series, head: { ...head, identity: "", createdAt: "" } };
  };
  const before = contentOf(ours);
  const there = ours.changesTo(theirs);
  const back = theirs.changesTo(ours);
  ours.edit(note(), there);
  expect(contentOf(ours)).toEqual(contentOf(theirs));
  verifyAll(ours);
  expect(ours.changesTo(theirs)).toEqual([]);
  ours.edit(note(), back);
  expect(contentOf(ours)).toEqual(before);
  verifyAll(ours);
  ours.close();
  theirs.close();
});
