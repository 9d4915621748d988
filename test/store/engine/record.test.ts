import { expect, test } from "vitest";
import {
  createStudy,
  everything,
  faultOf,
  newPaths,
  note,
  openStudy,
  phaseOf,
  runOf,
  sampleStudy,
  verifyAll,
} from "./sample.ts";

const newPath = newPaths();

const char = (value: number, act = 4) =>
  ({ subject: "reading", item: 1, phase: "simmer", field: "char_g", after: { act, value } }) as const;

test("the history of a reading tells its values through import, edits, undo, redo and removal: by whom, when, why", () => {
  const path = newPath();
  let study = sampleStudy(path);
  study.edit({ who: "Ben", what: "cell", about: { run: "R1" }, why: "misread" }, [char(34)]);
  study.edit(note("cell"), [char(35, 20)]);
  study.edit(note("other"), [{ subject: "text", item: 1, phase: "simmer", field: "lid", after: "yes" }]);
  study.undo("Eve");
  study.undo("Eve");
  study.close();
  study = openStudy(path);
  study.redo("Ben");
  study.edit(note("removePhase"), [{ subject: "phase", item: 1, phase: "simmer", after: null }]);
  study.undo("Ana");
  const told = study
    .history(1, "simmer", "char_g")
    .map(({ who, way, what, why, before, after }) => [who, way, what, why, before, after]);
  expect(told).toEqual([
    ["Ana", "edit", "import", null, null, { act: 4, value: 33.1 }],
    ["Ben", "edit", "cell", "misread", { act: 4, value: 33.1 }, { act: 4, value: 34 }],
    ["Ana", "edit", "cell", null, { act: 4, value: 34 }, { act: 20, value: 35 }],
    ["Eve", "undo", "cell", null, { act: 20, value: 35 }, { act: 4, value: 34 }],
    ["Ben", "redo", "cell", null, { act: 4, value: 34 }, { act: 20, value: 35 }],
    ["Ana", "edit", "removePhase", null, { act: 20, value: 35 }, null],
    ["Ana", "undo", "removePhase", null, null, { act: 20, value: 35 }],
  ]);
  expect(study.history(1, "simmer", "lid").map(({ before, after }) => [before, after])).toEqual([
    [null, "no"],
    ["no", "yes"],
    ["yes", "no"],
    ["no", null],
    [null, "no"],
  ]);
  expect(study.history(1, "hot-start", "char_g")).toEqual([]);
  study.close();
});

test("the history of a run's field, also of a run that was removed and of one that was replaced", () => {
  const study = createStudy(newPath());
  study.edit(note(), [{ subject: "variant", item: 1, after: { name: "V", position: 0, levels: new Map() } }]);
  study.edit(note("add"), [{ subject: "run", item: 1, after: runOf("R1", 0) }]);
  study.edit({ ...note("leaveOut"), why: "spilled" }, [
    { subject: "runField", item: 1, field: "leftOut", after: "spilled" },
  ]);
  study.edit(note("replace"), [
    { subject: "run", item: 1, after: { ...runOf("R1", 0), leftOut: "other", levels: new Map([["__proto__", "x"]]) } },
  ]);
  study.edit(note("remove"), [{ subject: "run", item: 1, after: null }]);
  expect(study.history(1, null, "leftOut").map(({ what, before, after }) => [what, before, after])).toEqual([
    ["leaveOut", null, "spilled"],
    ["replace", "spilled", "other"],
    ["remove", "other", null],
  ]);
  expect(study.history(1, null, "name").map(({ what, after }) => [what, after])).toEqual([
    ["add", "R1"],
    ["remove", null],
  ]);
  expect(study.history(1, null, "levels").map(({ what, after }) => [what, after])).toEqual([
    ["add", []],
    ["replace", [["__proto__", "x"]]],
    ["remove", null],
  ]);
  expect(study.history(1, null, "constructor")).toEqual([]);
  study.close();
});

test("the record lists edits newest first, by page, the creation at its end", () => {
  const study = sampleStudy(newPath());
  study.edit(note("cell"), [char(34)]);
  study.undo("Ben");
  expect(study.record(2).map(({ edit, way, of, who }) => [edit, way, of, who])).toEqual([
    [4, "undo", 3, "Ben"],
    [3, "edit", null, "Ana"],
  ]);
  expect(study.record(10, 3).map(({ edit, what }) => [edit, what])).toEqual([
    [2, "import"],
    [1, "create"],
  ]);
  expect(study.changesOf(1).map(({ field, before, after }) => [field, before, after])).toEqual([
    ["confidence", null, 0.9],
    ["method", null, "wbt"],
    ["name", null, "Stoves"],
  ]);
  expect(study.changesOf(3)).toMatchObject([
    { subject: "reading", item: 1, phase: "simmer", before: { act: 4, value: 33.1 }, after: { act: 4, value: 34 } },
  ]);
  study.close();
});

test("what can be undone and redone is the same after a restart, and a new edit drops what could be redone", () => {
  const path = newPath();
  let study = sampleStudy(path);
  study.edit(note("a"), [char(1)]);
  study.edit(note("b"), [char(2)]);
  study.undo("Ana");
  const ends = () => [study.undoable()?.what ?? null, study.redoable()?.what ?? null];
  expect(ends()).toEqual(["a", "b"]);
  study.close();
  study = openStudy(path);
  expect(ends()).toEqual(["a", "b"]);
  const { done, of, subjects } = study.redo("Eve");
  expect([...subjects]).toEqual(["reading"]);
  expect([done.way, done.of, of.what, study.changesOf(done.edit).map(({ after }) => after)]).toEqual([
    "redo",
    of.edit,
    "b",
    [{ act: 4, value: 2 }],
  ]);
  study.undo("Ana");
  study.edit(note("c"), [char(3)]);
  expect(ends()).toEqual(["c", null]);
  study.close();
  study = openStudy(path);
  expect(ends()).toEqual(["c", null]);
  for (let count = 0; count < 3; count += 1) study.undo("Ana");
  // The creation is not undone.
  expect(ends()).toEqual([null, "import"]);
  expect(faultOf(() => study.undo("Ana"))?.code).toBe("refused");
  study.close();
});

test("an import of many runs is undone and redone whole", () => {
  const study = createStudy(newPath());
  const empty = study.contentDigest();
  const runs = Array.from({ length: 400 }, (_, index) => ({
    subject: "run" as const,
    item: index + 1,
    after: runOf(`R${index}`, index, [phaseOf("cold-start", [["char_g", index + 1, index]], [["note", "x"]])]),
  }));
  study.edit(note("import"), [
    { subject: "variant", item: 1, after: { name: "V", position: 0, levels: new Map() } },
    ...runs,
  ]);
  const full = study.contentDigest();
  study.undo("Ana");
  expect([study.runLines().length, study.contentDigest()]).toEqual([0, empty]);
  study.redo("Ana");
  expect([study.runLines().length, study.contentDigest()]).toEqual([400, full]);
  verifyAll(study);
  study.close();
});

test("a write by another connection is noticed before the next edit, which then changes nothing", () => {
  const path = newPath();
  const ours = sampleStudy(path);
  const theirs = openStudy(path);
  const version = ours.dataVersion();
  theirs.edit(note("theirs"), [char(50)]);
  expect(ours.dataVersion()).not.toBe(version);
  const before = everything(theirs);
  for (const write of [() => ours.edit(note("ours"), [char(51)]), () => ours.undo("Ana")]) {
    expect(faultOf(write)?.code).toBe("changedOutside");
  }
  expect(everything(theirs)).toEqual(before);
  ours.close();
  theirs.close();
});

test("a study opened for reading is read and not written", () => {
  const path = newPath();
  sampleStudy(path).close();
  const study = openStudy(path, true);
  verifyAll(study);
  expect(study.isReadOnly).toBe(true);
  expect(faultOf(() => study.edit(note(), [char(1)]))?.code).toBe("readOnly");
  expect(faultOf(() => study.undo("Ana"))?.code).toBe("readOnly");
  study.close();
});
