import { hash } from "node:crypto";
import { readFileSync } from "node:fs";
import { DatabaseSync } from "node:sqlite";
import { expect, test } from "vitest";
import { type Migration, StudyDatabase } from "../../../app/store/index.ts";
import { migrations } from "../../../app/store/schema/migrations.ts";
import {
  everything,
  faultOf,
  newPaths,
  note,
  openStudy,
  program,
  sampleChanges,
  sampleStudy,
  verifyAll,
} from "./sample.ts";

const newPath = newPaths();

const made = (number: number, sql: string): Migration => ({ number, sql, checksum: hash("sha256", sql, "hex") });
/** The layout of today, by its number. */
const today = migrations.length;
/** A layout of later days. */
const later = made(
  today + 1,
  "ALTER TABLE series ADD COLUMN place TEXT; CREATE TABLE logger (item INTEGER PRIMARY KEY) STRICT;",
);
const withLater = [...migrations, later];
/** The layout of the first release. */
const firstAlone = migrations.slice(0, 1);

const openWith = (
  path: string,
  list: readonly Migration[],
  beforeMigrating?: (from: number) => void,
  readOnly = false,
) =>
  StudyDatabase.open(path, {
    readOnly,
    program: "boilbench 9.0.0",
    migrations: list,
    ...(beforeMigrating === undefined ? {} : { beforeMigrating }),
  });

/**
 * Checksums as they were released, written here once more: a migration that is edited fails here even where its own checksum
 * was edited with it.
 */
const released = [
  "c178ba276ca28c8cb32568bf63ae0630b3109209a7b9537504739119bea698c7",
  "0b53ff9651de4b7f3b4c667f37c36b2a6a2c13e50ee251c3143d32d76f6efb16",
];

test("no migration was edited since it was released", () => {
  expect(migrations.map(({ sql }) => hash("sha256", sql, "hex"))).toEqual(released);
  expect(migrations.map(({ checksum }) => checksum)).toEqual(released);
  expect(migrations.map(({ number }) => number)).toEqual(released.map((_, index) => index + 1));
});

test("an older file is brought up to date after the hook was called, and its content stays", () => {
  const path = newPath();
  const old = sampleStudy(path);
  const content = everything(old);
  old.close();
  const from: number[] = [];
  const study = openWith(path, withLater, (version) => {
    from.push(version);
    // The file is as it was when the hook is called: a copy can be kept.
    openStudy(path, true).close();
  });
  expect([from, study.version]).toEqual([[today], today + 1]);
  expect(everything(study)).toEqual(content);
  verifyAll(study);
  study.edit(note(), [{ subject: "study", field: "name", after: "New" }]);
  study.close();
  openWith(path, withLater, () => expect.fail("it is up to date")).close();
  const rows = new DatabaseSync(path).prepare("SELECT number, checksum, program FROM migration").all();
  expect(rows.map((row) => ({ ...row }))).toEqual([
    ...migrations.map(({ number, checksum }) => ({ number, checksum, program })),
    { number: today + 1, checksum: later.checksum, program: "boilbench 9.0.0" },
  ]);
});

/** A file of the first release: everything of the sample, remarks of each kind that it knew, one edit undone. */
function fileOfFirstRelease(path: string): unknown {
  const study = StudyDatabase.create(
    path,
    { name: "Stoves", method: "wbt", confidence: 0.9, isExample: false, who: "Ana", program },
    { migrations: firstAlone },
  );
  study.edit(note("import"), sampleChanges);
  study.edit(note("import"), [
    { subject: "remark", item: 2, after: { kind: "question", run: 2, value: { rule: "muchChar", message: "?" } } },
    { subject: "remark", item: 3, after: { kind: "rowLeftOut", run: null, value: { row: 7 } } },
  ]);
  study.edit(note(), [{ subject: "study", field: "name", after: "Renamed" }]);
  study.edit(note(), [{ subject: "remark", item: 3, after: null }]);
  study.undo("Ben");
  const content = everything(study);
  study.close();
  return content;
}

test("a file of the first release is brought up to date: content, record, seals, undo and redo are whole", () => {
  const path = newPath();
  const content = fileOfFirstRelease(path);
  const study = openWith(path, migrations);
  expect(study.version).toBe(today);
  expect(everything(study)).toEqual(content);
  verifyAll(study);
  expect([...study.head().remarks.values()].map(({ kind }) => kind)).toEqual(["assumed", "question", "rowLeftOut"]);

  // What was undone before is done again, then taken back together with what was done before it.
  expect(study.redo("Ben").done.way).toBe("redo");
  expect(study.head().remarks.has(3)).toBe(false);
  study.undo("Ben");
  study.undo("Ben");
  expect(study.head().name).toBe("Stoves");
  study.undo("Ben");
  expect([...study.head().remarks.keys()]).toEqual([1]);
  verifyAll(study);

  // And what only this layout takes is taken, undone and done again.
  const answer = { subject: "remark", item: 4, after: { kind: "answer", run: 2, value: { because: "so" } } } as const;
  study.edit(note("answer"), [answer]);
  study.undo("Ben");
  expect(study.head().remarks.has(4)).toBe(false);
  study.redo("Ben");
  expect(study.head().remarks.get(4)).toEqual(answer.after);
  // A remark about a run still belongs to it.
  expect(faultOf(() => study.edit(note(), [{ subject: "run", item: 2, after: null }]))?.code).toBe("refused");
  verifyAll(study);
  study.close();
  openStudy(path).close();
});

test("a file of the first release is read as it is where it may not be written to", () => {
  const path = newPath();
  const content = fileOfFirstRelease(path);
  const bytes = readFileSync(path);
  const study = openStudy(path, true);
  expect([study.version, study.isReadOnly]).toEqual([1, true]);
  expect(everything(study)).toEqual(content);
  verifyAll(study);
  study.close();
  expect(readFileSync(path).equals(bytes)).toBe(true);
});

test("a file of the first release knows no answers: its own layout refuses them", () => {
  const path = newPath();
  fileOfFirstRelease(path);
  const study = openWith(path, firstAlone);
  const answer = { subject: "remark", item: 4, after: { kind: "answer", run: 2, value: {} } } as const;
  expect(faultOf(() => study.edit(note("answer"), [answer]))?.code).toBe("refused");
  study.close();
});

test("where the hook throws, nothing is migrated", () => {
  const path = newPath();
  sampleStudy(path).close();
  const bytes = readFileSync(path);
  const hook = () => {
    throw new Error("no room for a copy");
  };
  expect(() => openWith(path, withLater, hook)).toThrow("no room for a copy");
  expect(readFileSync(path).equals(bytes)).toBe(true);
});

test("a migration that fails half-way leaves the version before it whole", () => {
  const path = newPath();
  const old = sampleStudy(path);
  const content = everything(old);
  old.close();
  const failing = made(today + 2, "CREATE TABLE half (a) STRICT;");
  const broken = made(today + 2, "CREATE TABLE half (a INTEGER) STRICT; INSERT INTO study (item) VALUES (7);");
  expect(() => openWith(path, [...withLater, failing])).toThrow();
  expect(() => openWith(path, [...withLater, broken])).toThrow();
  const study = openWith(path, withLater);
  expect(study.version).toBe(today + 1);
  expect(everything(study)).toEqual(content);
  verifyAll(study);
  study.close();
});

test("a file of a later version is read and not written; where it cannot be read, that is said", () => {
  const path = newPath();
  const old = sampleStudy(path);
  const content = everything(old);
  old.close();
  openWith(path, withLater).close();
  const bytes = readFileSync(path);
  expect(faultOf(() => openStudy(path))).toMatchObject({ code: "newer", detail: `schema version ${today + 1}` });
  const study = openStudy(path, true);
  expect([study.version, study.isReadOnly]).toEqual([today + 1, true]);
  expect(everything(study)).toEqual(content);
  expect(faultOf(() => study.edit(note(), []))?.code).toBe("readOnly");
  study.close();
  expect(readFileSync(path).equals(bytes)).toBe(true);

  openWith(path, [...withLater, made(today + 2, "ALTER TABLE run RENAME COLUMN operator TO person")]).close();
  expect(faultOf(() => openStudy(path, true))?.code).toBe("newer");
});

test("a view in a file of a later version is foreign", () => {
  const path = newPath();
  sampleStudy(path).close();
  openWith(path, [...migrations, made(today + 1, "CREATE VIEW spy AS SELECT 1")]).close();
  expect(faultOf(() => openStudy(path, true))).toMatchObject({ code: "foreign", detail: "view spy" });
});

test("a file made by another text of a migration is told apart", () => {
  const path = newPath();
  sampleStudy(path).close();
  const other = new DatabaseSync(path);
  other.exec(`UPDATE migration SET checksum = '${"0".repeat(64)}'`);
  other.close();
  expect(faultOf(() => openStudy(path))).toMatchObject({ code: "migrationChanged", detail: "migration 1" });
});
