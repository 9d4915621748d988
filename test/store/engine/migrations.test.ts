import { hash } from "node:crypto";
import { readFileSync } from "node:fs";
import { DatabaseSync } from "node:sqlite";
import { expect, test } from "vitest";
import { type Migration, StudyDatabase } from "../../../app/store/index.ts";
import { migrations } from "../../../app/store/schema/migrations.ts";
import { everything, faultOf, newPaths, note, openStudy, program, sampleStudy, verifyAll } from "./sample.ts";

const newPath = newPaths();

const made = (number: number, sql: string): Migration => ({ number, sql, checksum: hash("sha256", sql, "hex") });
const second = made(
  2,
  "ALTER TABLE series ADD COLUMN place TEXT; CREATE TABLE logger (item INTEGER PRIMARY KEY) STRICT;",
);
const withSecond = [...migrations, second];

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
const released = ["c178ba276ca28c8cb32568bf63ae0630b3109209a7b9537504739119bea698c7"];

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
  const study = openWith(path, withSecond, (version) => {
    from.push(version);
    // The file is as it was when the hook is called: a copy can be kept.
    openStudy(path, true).close();
  });
  expect([from, study.version]).toEqual([[1], 2]);
  expect(everything(study)).toEqual(content);
  verifyAll(study);
  study.edit(note(), [{ subject: "study", field: "name", after: "New" }]);
  study.close();
  openWith(path, withSecond, () => expect.fail("it is up to date")).close();
  const rows = new DatabaseSync(path).prepare("SELECT number, checksum, program FROM migration").all();
  expect(rows.map((row) => ({ ...row }))).toEqual([
    { number: 1, checksum: migrations[0]?.checksum, program },
    { number: 2, checksum: second.checksum, program: "boilbench 9.0.0" },
  ]);
});

test("where the hook throws, nothing is migrated", () => {
  const path = newPath();
  sampleStudy(path).close();
  const bytes = readFileSync(path);
  const hook = () => {
    throw new Error("no room for a copy");
  };
  expect(() => openWith(path, withSecond, hook)).toThrow("no room for a copy");
  expect(readFileSync(path).equals(bytes)).toBe(true);
});

test("a migration that fails half-way leaves the version before it whole", () => {
  const path = newPath();
  const old = sampleStudy(path);
  const content = everything(old);
  old.close();
  const failing = made(3, "CREATE TABLE half (a) STRICT;");
  const broken = made(3, "CREATE TABLE half (a INTEGER) STRICT; INSERT INTO study (item) VALUES (7);");
  expect(() => openWith(path, [...withSecond, failing])).toThrow();
  expect(() => openWith(path, [...withSecond, broken])).toThrow();
  const study = openWith(path, withSecond);
  expect(study.version).toBe(2);
  expect(everything(study)).toEqual(content);
  verifyAll(study);
  study.close();
});

test("a file of a later version is read and not written; where it cannot be read, that is said", () => {
  const path = newPath();
  const old = sampleStudy(path);
  const content = everything(old);
  old.close();
  openWith(path, withSecond).close();
  const bytes = readFileSync(path);
  expect(faultOf(() => openStudy(path))).toMatchObject({ code: "newer", detail: "schema version 2" });
  const study = openStudy(path, true);
  expect([study.version, study.isReadOnly]).toEqual([2, true]);
  expect(everything(study)).toEqual(content);
  expect(faultOf(() => study.edit(note(), []))?.code).toBe("readOnly");
  study.close();
  expect(readFileSync(path).equals(bytes)).toBe(true);

  openWith(path, [...withSecond, made(3, "ALTER TABLE run RENAME COLUMN operator TO person")]).close();
  expect(faultOf(() => openStudy(path, true))?.code).toBe("newer");
});

test("a view in a file of a later version is foreign", () => {
  const path = newPath();
  sampleStudy(path).close();
  openWith(path, [...migrations, made(2, "CREATE VIEW spy AS SELECT 1")]).close();
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
