import { readFileSync, writeFileSync } from "node:fs";
import { dirname } from "node:path";
import { DatabaseSync } from "node:sqlite";
import { expect, test } from "vitest";
import { StoreFault } from "../../../app/store/index.ts";
import { seededGenerator } from "../../../core/index.ts";
import { everything, faultOf, newPaths, openStudy, sampleStudy, verifyAll } from "./sample.ts";

const newPath = newPaths();

/** A study on disk, and what it says when it is whole. */
function wholeStudy(): { path: string; bytes: Buffer; content: unknown } {
  const path = newPath();
  const study = sampleStudy(path);
  study.edit({ who: "Ben", what: "cell", about: {}, why: "misread" }, [
    { subject: "reading", item: 1, phase: "simmer", field: "char_g", after: { act: 9, value: 34 } },
  ]);
  study.undo("Ben");
  const content = everything(study);
  study.close();
  return { path, bytes: readFileSync(path), content };
}

const foreign: readonly (readonly [string, string])[] = [
  ["trigger spy", "CREATE TRIGGER spy AFTER UPDATE ON run BEGIN DELETE FROM reading; END"],
  ["view spy", "CREATE VIEW spy AS SELECT load_extension('x') FROM run"],
  ["table extra", "CREATE TABLE extra (a)"],
  ["index extra", "CREATE INDEX extra ON run (name)"],
  ["table search", "CREATE VIRTUAL TABLE search USING fts5 (text)"],
  ["table run", "ALTER TABLE run ADD COLUMN more TEXT"],
  ["index run_position", "DROP INDEX run_position; CREATE INDEX run_position ON run (name)"],
  ["index run_variant is missing", "DROP INDEX run_variant"],
  ["trigger change_update is missing", "DROP TRIGGER change_update"],
  [
    "trigger change_delete",
    "DROP TRIGGER change_delete; CREATE TRIGGER change_delete BEFORE DELETE ON change BEGIN SELECT 1; END",
  ],
  ["table run is missing", "PRAGMA foreign_keys = OFF; DROP TABLE run"],
  ["view run", "PRAGMA foreign_keys = OFF; DROP TABLE run; CREATE VIEW run AS SELECT 1"],
  ["table sqlite_stat1", "ANALYZE"],
];

test.each(foreign)("a file with another schema is foreign: %s", (name, sql) => {
  const path = newPath();
  sampleStudy(path).close();
  const other = new DatabaseSync(path);
  other.exec(sql);
  other.close();
  const bytes = readFileSync(path);
  for (const readOnly of [true, false]) {
    const fault = faultOf(() => openStudy(path, readOnly));
    expect(fault?.code).toBe("foreign");
    // A dropped table takes its indexes and triggers with it: any of them may be named first.
    if (!sql.includes("DROP TABLE")) expect(fault?.detail).toContain(name);
  }
  expect(readFileSync(path).equals(bytes)).toBe(true);
});

test("a file in WAL mode is foreign, and no file appears beside it", () => {
  const { path, bytes } = wholeStudy();
  bytes[18] = 2;
  bytes[19] = 2;
  writeFileSync(path, bytes);
  expect(faultOf(() => openStudy(path))).toMatchObject({ code: "foreign", detail: "journal mode WAL" });
  expect(readFileSync(path).equals(bytes)).toBe(true);
});

const notStudies: readonly (readonly [string, string, () => Buffer])[] = [
  ["no bytes", "empty", () => Buffer.alloc(0)],
  ["a text", "notAStudy", () => Buffer.from("run,variant\nR1,Rocket\n".repeat(500))],
  ["zeros", "notAStudy", () => Buffer.alloc(8192)],
  ["the first bytes of a database", "damaged", () => Buffer.from("SQLite for")],
  ["a header and nothing", "damaged", () => wholeStudy().bytes.subarray(0, 100)],
  [
    "a header and noise",
    "damaged",
    () => Buffer.concat([wholeStudy().bytes.subarray(0, 100), Buffer.alloc(20_000, 0xa5)]),
  ],
];

test.each(notStudies)("a file of %s is %s, and stays as it is", (_, code, make) => {
  const path = newPath();
  const bytes = make();
  writeFileSync(path, bytes);
  for (const readOnly of [true, false]) expect(faultOf(() => openStudy(path, readOnly))?.code).toBe(code);
  expect(readFileSync(path).equals(bytes)).toBe(true);
});

test("another program's database is not a study", () => {
  const path = newPath();
  const other = new DatabaseSync(path);
  other.exec("CREATE TABLE run (a); PRAGMA user_version = 1");
  other.close();
  expect(faultOf(() => openStudy(path))?.code).toBe("notAStudy");
});

test("a file that is not there, or a folder, is said to be so", () => {
  expect(faultOf(() => openStudy(newPath()))?.code).toBe("gone");
  expect(faultOf(() => openStudy(dirname(newPath())))?.code).toBe("notAStudy");
});

test("a study that ends too early is damaged, wherever it ends, and stays as it is", () => {
  const { path, bytes } = wholeStudy();
  for (let part = 1; part <= 20; part += 1) {
    const cut = bytes.subarray(0, Math.floor((bytes.length * part) / 21));
    writeFileSync(path, cut);
    for (const readOnly of [true, false])
      expect(faultOf(() => openStudy(path, readOnly))?.code, `${cut.length} bytes`).toBe("damaged");
    expect(readFileSync(path).equals(cut)).toBe(true);
  }
});

/** What opening, verifying and reading a file gives: its content, or the fault found. */
function readAll(path: string): { content: unknown } | { code: string } {
  let study: ReturnType<typeof openStudy> | null = null;
  try {
    study = openStudy(path);
    verifyAll(study);
    return { content: everything(study) };
  } catch (error) {
    if (error instanceof StoreFault) return { code: error.code };
    throw error;
  } finally {
    study?.close();
  }
}

test("no flipped bit is taken for content: it is reported, or content and record are as they were; the file stays as it is", () => {
  const { path, bytes, content } = wholeStudy();
  const { uniform } = seededGenerator(20_261_125);
  let reported = 0;
  const flips = 400;
  for (let flip = 0; flip < flips; flip += 1) {
    const at = Math.floor(uniform() * bytes.length);
    const flipped = Buffer.from(bytes);
    flipped[at] = (flipped[at] ?? 0) ^ (1 << Math.floor(uniform() * 8));
    writeFileSync(path, flipped);
    const read = readAll(path);
    if ("content" in read) expect(read.content, `bit flipped in byte ${at}`).toEqual(content);
    else {
      reported += 1;
      expect(["damaged", "foreign", "newer", "notAStudy", "migrationChanged"], `byte ${at}`).toContain(read.code);
    }
    expect(readFileSync(path).equals(flipped), `byte ${at}`).toBe(true);
  }
  // Most of a small study is free space within pages; that some flips hit content shows that the test can fail.
  expect(reported).toBeGreaterThan(flips / 20);
}, 60_000);

test("each seal is needed: a value changed behind the program's back is found, whichever table it stands in", () => {
  const tampering = [
    "UPDATE study SET name = 'Other'",
    "UPDATE study SET runs = 3",
    "UPDATE variant SET name = 'Other' WHERE item = 1",
    "UPDATE variant_level SET level = 'Other'",
    "UPDATE fuel SET value = '1'",
    "UPDATE pot SET value = '1'",
    "UPDATE instrument SET value = '1'",
    "UPDATE setting SET value = '1'",
    "UPDATE attachment SET file = 'Other'",
    "UPDATE remark SET value = '1'",
    "UPDATE run SET operator = 'Eve' WHERE item = 2",
    "UPDATE run_level SET level = 'Other'",
    "UPDATE phase SET timing = 'duration' WHERE id = 8",
    "UPDATE reading SET value = 5 WHERE act = 4",
    "UPDATE reading SET act = 77 WHERE act = 4",
    "UPDATE phase_text SET text = 'calm' WHERE text = 'windy'",
    "UPDATE phase_text SET position = position + 10 WHERE position = 0",
    "UPDATE series SET unit = 'K'",
    "UPDATE series SET minutes = zeroblob(24)",
    "UPDATE counter SET next = 50 WHERE subject = 'act'",
    "UPDATE migration SET program = 'other'",
    "DELETE FROM remark",
  ];
  for (const sql of tampering) {
    const { path } = wholeStudy();
    const other = new DatabaseSync(path);
    other.exec(sql);
    other.close();
    expect(readAll(path), sql).toEqual({ code: "damaged" });
  }
}, 60_000);
