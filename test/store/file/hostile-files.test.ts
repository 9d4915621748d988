import { execFileSync } from "node:child_process";
import { mkdirSync, readFileSync, renameSync, symlinkSync, truncateSync, utimesSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { DatabaseSync } from "node:sqlite";
import { describe, expect, test } from "vitest";
import { openStudyFile } from "../../../app/store/index.ts";
import { laterLayouts } from "./later-layout.ts";
import { faultOf, filesBelow, makeRoom, makeStudy, type Room, rename, trace } from "./support.ts";

/** A study of some size, so that damage can be done behind its first page. */
async function studyOf(room: Room): Promise<void> {
  await makeStudy(room, ...Array.from({ length: 20 }, (_, edit) => `Edit ${edit} ${"x".repeat(300)}`));
}

function alter(path: string, change: (bytes: Buffer) => void): void {
  const bytes = readFileSync(path);
  change(bytes);
  writeFileSync(path, bytes);
}

const hostile: Record<string, (room: Room) => void> = {
  "no bytes": ({ study }) => truncateSync(study, 0),
  "a text": ({ study }) => writeFileSync(study, "run,variant\n1,A\n"),
  "another program's database": ({ study }) => {
    const database = new DatabaseSync(study);
    database.exec("PRAGMA application_id = 7");
    database.close();
  },
  "a write-ahead log": ({ study }) => {
    const database = new DatabaseSync(study);
    database.exec("PRAGMA journal_mode = WAL");
    database.close();
  },
  "a stray log beside it": ({ study }) => writeFileSync(`${study}-wal`, "x".repeat(100)),
  "a pipe in place of the journal": ({ study }) => execFileSync("mkfifo", [`${study}-journal`]),
  "a link in place of the journal": ({ study, folder }) => {
    writeFileSync(join(folder, "precious"), "precious");
    symlinkSync(join(folder, "precious"), `${study}-journal`);
  },
  "a trigger that is not ours": ({ study }) => {
    const database = new DatabaseSync(study);
    database.exec("CREATE TRIGGER t AFTER UPDATE ON study BEGIN DELETE FROM run; END");
    database.close();
  },
  "a view in place of nothing": ({ study }) => {
    const database = new DatabaseSync(study);
    database.exec("CREATE VIEW v AS SELECT load_extension('x')");
    database.close();
  },
};

describe("what is not a study is refused, and stays as it is", () => {
  test.each([
    ["no bytes", "empty"],
    ["a text", "notAStudy"],
    ["another program's database", "notAStudy"],
    ["a write-ahead log", "foreign"],
    ["a stray log beside it", "foreign"],
    ["a pipe in place of the journal", "foreign"],
    ["a link in place of the journal", "foreign"],
    ["a trigger that is not ours", "foreign"],
    ["a view in place of nothing", "foreign"],
  ])("%s", async (what, code) => {
    const room = makeRoom();
    await studyOf(room);
    hostile[what]?.(room);
    const [before, files] = [trace(room.study), filesBelow(room.desk)];
    // Twice: a refusal lets the lock go.
    for (const _ of [1, 2]) expect(await faultOf(() => openStudyFile(room.study, room.places))).toBe(code);
    expect(trace(room.study)).toBe(before);
    expect(filesBelow(room.desk)).toEqual(files);
    expect(filesBelow(join(room.places.dataFolder, "private"))).toEqual([]);
  });

  test("a folder, a pipe that nobody writes to, a device, a link to nowhere, a circle of links, nothing", async () => {
    const room = makeRoom();
    const at = (name: string) => join(room.desk, name);
    mkdirSync(at("folder.boilstudy"));
    execFileSync("mkfifo", [at("pipe.boilstudy")]);
    symlinkSync("/nowhere", at("lost.boilstudy"));
    symlinkSync(at("circle.boilstudy"), at("circle.boilstudy"));
    symlinkSync(at("pipe.boilstudy"), at("pipe-link.boilstudy"));
    const expected = {
      folder: "notAStudy",
      pipe: "notAStudy",
      "pipe-link": "notAStudy",
      lost: "gone",
      circle: "gone",
      no: "gone",
    };
    for (const [name, code] of Object.entries(expected)) {
      expect(await faultOf(() => openStudyFile(at(`${name}.boilstudy`), room.places)), name).toBe(code);
    }
    expect(await faultOf(() => openStudyFile("/dev/zero", room.places))).toBe("notAStudy");
    expect(await faultOf(() => openStudyFile(join(at("pipe.boilstudy"), "below"), room.places))).toBe("gone");
  });
});

describe("a damaged file is never written to", () => {
  const cases: [string, (path: string) => void][] = [
    ["cut off by a byte", (path) => truncateSync(path, readFileSync(path).length - 1)],
    ["cut off by half", (path) => truncateSync(path, readFileSync(path).length >> 1)],
    ["its first page alone", (path) => truncateSync(path, 4096)],
    ["60 bytes", (path) => truncateSync(path, 60)],
    ["an overwritten page", (path) => alter(path, (bytes) => bytes.fill(0xa5, 8192, 12_288))],
    ["an overwritten schema", (path) => alter(path, (bytes) => bytes.fill(0xff, 100, 4096))],
    ["a size of pages that is none", (path) => alter(path, (bytes) => bytes.writeUInt16BE(4095, 16))],
  ];
  test.each(cases)("%s", async (_what, damage) => {
    const room = makeRoom();
    await studyOf(room);
    damage(room.study);
    utimesSync(room.study, 1_700_000_000, 1_700_000_000);
    const before = trace(room.study);
    try {
      const file = await openStudyFile(room.study, room.places);
      expect(file.readOnly?.because).toBe("damaged");
      expect(await faultOf(() => file.beforeEdit())).toBe("readOnly");
      await file.close();
    } catch (error) {
      // Nothing of it could be shown.
      expect(error).toMatchObject({ code: "damaged" });
    }
    expect(trace(room.study)).toBe(before);
    expect(filesBelow(room.desk)).toEqual(["stove.boilstudy"]);
    expect(filesBelow(join(room.places.dataFolder, "private"))).toEqual([]);
  });
});

test("a newer file is shown from a private copy, says so, and stays as it is", async () => {
  const room = makeRoom();
  const later = { ...room.places, migrations: laterLayouts };
  await makeStudy({ ...room, places: later }, "Of later days");
  const before = trace(room.study);
  const file = await openStudyFile(room.study, room.places);
  expect(file.readOnly).toEqual({ because: "newer", detail: String(laterLayouts.length) });
  expect(file.database.head().name).toBe("Of later days");
  expect(await faultOf(() => file.beforeEdit())).toBe("readOnly");
  expect(await faultOf(() => rename(file.database, "Ours"))).toBe("readOnly");
  expect(await file.backUp()).toBeNull();
  await file.writeBack();
  await file.close();
  expect(trace(room.study)).toBe(before);
  expect(filesBelow(room.desk)).toEqual(["stove.boilstudy"]);
  expect(filesBelow(join(room.places.dataFolder, "private"))).toEqual([]);
});

test("a study whose place holds another in the meantime is told from it at opening", async () => {
  const [room, other] = [makeRoom(), makeRoom()];
  await makeStudy(room, "Ours");
  await makeStudy(other, "Theirs");
  renameSync(other.study, room.study);
  const file = await openStudyFile(room.study, room.places);
  expect(file.database.head().name).toBe("Theirs");
  await file.close();
});
