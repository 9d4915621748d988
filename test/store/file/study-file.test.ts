import {
  mkdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  truncateSync,
  utimesSync,
  writeFileSync,
} from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { createStudyFile, openStudyFile, StudyDatabase } from "../../../app/store/index.ts";
import { faultOf, filesBelow, makeRoom, makeStudy, nameIn, newStudy, rename, trace } from "./support.ts";

test("a new study is one file that holds what was given, and can be written at once", async () => {
  const room = makeRoom();
  const file = await createStudyFile(room.study, newStudy, room.places);
  expect(file).toMatchObject({ path: room.study, readOnly: null, notes: [] });
  expect(file.database.head()).toMatchObject({ ...newStudy, createdBy: "Ana" });
  file.beforeEdit();
  rename(file.database, "Clay stove");
  await file.close();
  expect(filesBelow(room.desk)).toEqual(["stove.boilstudy"]);

  const again = await openStudyFile(room.study, room.places);
  expect(again.database.head().name).toBe("Clay stove");
  await again.close();
});

test("others are told who writes now, not who opened it", async () => {
  const room = makeRoom();
  const file = await createStudyFile(room.study, newStudy, room.places);
  const told = () => {
    const [name = ""] = filesBelow(join(room.places.dataFolder, "locks")).filter((one) => one.endsWith(".json"));
    return JSON.parse(readFileSync(join(room.places.dataFolder, "locks", name), "utf8")) as { who: string };
  };
  expect(told().who).toBe("Ana");
  file.isWrittenBy("Kofi");
  expect(told().who).toBe("Kofi");
  await file.close();
});

test("what the program keeps is for its owner's eyes only, and nothing of private/ outlives the study", async () => {
  const room = makeRoom();
  const file = await createStudyFile(room.study, newStudy, room.places);
  await file.backUp();
  for (const folder of ["locks", "private", "backups"]) {
    expect(statSync(join(room.places.dataFolder, folder)).mode & 0o777).toBe(0o700);
  }
  const backup = filesBelow(join(room.places.dataFolder, "backups")).find((name) => name.endsWith(".boilstudy")) ?? "";
  expect(statSync(join(room.places.dataFolder, "backups", backup)).mode & 0o777).toBe(0o600);
  await file.close();
  expect(filesBelow(join(room.places.dataFolder, "private"))).toEqual([]);
});

test("what lies at a path is never overwritten: a file, a folder, a link to nowhere", async () => {
  const room = makeRoom();
  writeFileSync(room.study, "notes");
  expect(await faultOf(() => createStudyFile(room.study, newStudy, room.places))).toBe("exists");
  expect(readFileSync(room.study, "utf8")).toBe("notes");
  mkdirSync(join(room.desk, "folder"));
  expect(await faultOf(() => createStudyFile(join(room.desk, "folder"), newStudy, room.places))).toBe("exists");
  symlinkSync("/nowhere/at/all", join(room.desk, "link"));
  expect(await faultOf(() => createStudyFile(join(room.desk, "link"), newStudy, room.places))).toBe("exists");
  expect(await faultOf(() => createStudyFile(join(room.desk, "no", "such"), newStudy, room.places))).toBe("gone");
  expect(filesBelow(room.desk)).toEqual(["link", "stove.boilstudy"]);
});

test("in one process a study is opened once, by whichever spelling of its path", async () => {
  const room = makeRoom();
  await makeStudy(room);
  symlinkSync(room.study, join(room.folder, "link"));
  symlinkSync(room.desk, join(room.folder, "way"));
  const file = await openStudyFile(join(room.folder, "link"), room.places);
  expect(file.path).toBe(room.study);
  for (const spelling of [room.study, join(room.folder, "link"), join(room.folder, "way", "stove.boilstudy")]) {
    expect(await faultOf(() => openStudyFile(spelling, room.places))).toBe("inUse");
  }
  await file.close();
  const again = await openStudyFile(room.study, room.places);
  expect(again.readOnly).toBeNull();
  await again.close();
});

test("a copy holds every confirmed edit, opens alone, and takes nobody's place", async () => {
  const room = makeRoom();
  await makeStudy(room, "First");
  const file = await openStudyFile(room.study, room.places);
  rename(file.database, "Second");
  const copy = join(room.desk, "copy.boilstudy");
  await file.saveCopy(copy);
  const bytes = await file.copyAsBytes();
  const before = trace(copy);
  rename(file.database, "Third");
  expect(await faultOf(() => file.saveCopy(copy))).toBe("exists");
  expect(await faultOf(() => file.saveCopy(room.study))).toBe("exists");
  expect(trace(copy)).toBe(before);
  await file.close();

  writeFileSync(join(room.desk, "bytes.boilstudy"), bytes);
  for (const name of ["copy.boilstudy", "bytes.boilstudy"]) {
    const opened = StudyDatabase.open(join(room.desk, name), { readOnly: true, program: "test" });
    expect(opened.head().name).toBe("Second");
    expect(opened.identity).toBe(file.database.identity);
    opened.close();
  }
  expect(filesBelow(room.desk)).toEqual(["bytes.boilstudy", "copy.boilstudy", "stove.boilstudy"]);
});

test("copies that are made while edits stream in each hold a state that was confirmed", async () => {
  const room = makeRoom();
  await makeStudy(room);
  const file = await openStudyFile(room.study, room.places);
  let done = false;
  let confirmed = 0;
  const edits = (async () => {
    while (!done) {
      rename(file.database, `Edit ${confirmed + 1}`);
      confirmed++;
      await new Promise(setImmediate);
    }
  })();
  for (let copy = 0; copy < 8; copy++) {
    const least = confirmed;
    const path = join(room.desk, `${copy}.boilstudy`);
    await file.saveCopy(path);
    const opened = StudyDatabase.open(path, { readOnly: true, program: "test" });
    for (const _ of opened.verify());
    const edit = Number(opened.head().name.slice("Edit ".length)) || 0;
    expect(edit).toBeGreaterThanOrEqual(least);
    expect(edit).toBeLessThanOrEqual(confirmed);
    opened.close();
  }
  done = true;
  await edits;
  expect(confirmed).toBeGreaterThan(8);
  await file.close();
});

test("a file that vanished and one that another lies in place of are told apart; what is open of them is kept", async () => {
  const room = makeRoom();
  await makeStudy(room, "Ours");
  const file = await openStudyFile(room.study, room.places);
  rename(file.database, "Confirmed");
  file.beforeEdit();
  expect(file.isReplaced()).toBe(false);
  const kept = readFileSync(room.study);
  rmSync(room.study);
  expect(await faultOf(() => file.beforeEdit())).toBe("gone");
  expect(file.isReplaced()).toBe(false);
  await file.saveCopy(join(room.desk, "rescued.boilstudy"));
  expect(nameIn(join(room.desk, "rescued.boilstudy"))).toBe("Confirmed");
  writeFileSync(room.study, kept);
  const placed = trace(room.study);
  expect(await faultOf(() => file.beforeEdit())).toBe("changedOutside");
  expect(file.isReplaced()).toBe(true);
  expect(await file.backUp()).toMatchObject({ edits: 3, sound: true });
  await file.close();
  expect(trace(room.study)).toBe(placed);
  const again = await openStudyFile(room.study, room.places);
  expect(again.readOnly).toBeNull();
  await again.close();
});

test("a file that another program wrote over in place: no edit, no copy and no backup is made of what is there now", async () => {
  const others: readonly [string, (path: string, older: Uint8Array) => void][] = [
    ["an older state of it", (path, older) => writeFileSync(path, older)],
    ["nothing", (path) => truncateSync(path, 0)],
    ["half of it", (path, older) => writeFileSync(path, older.subarray(0, older.length / 2))],
    ["something else", (path) => writeFileSync(path, "no study ".repeat(20_000))],
  ];
  for (const [what, write] of others) {
    const room = makeRoom();
    await makeStudy(room, "Older");
    const older = readFileSync(room.study);
    const file = await openStudyFile(room.study, room.places);
    rename(file.database, "Newer");
    write(room.study, older);
    const placed = readFileSync(room.study);
    expect(await faultOf(() => file.beforeEdit()), what).toBe("changedOutside");
    expect(file.isReplaced(), what).toBe(true);
    expect(await faultOf(() => file.saveCopy(join(room.desk, "copy.boilstudy"))), what).toBe("changedOutside");
    await file.close();
    expect(readFileSync(room.study).equals(placed), what).toBe(true);
    expect(filesBelow(join(room.places.dataFolder, "backups")), what).toEqual([]);
  }
});

test("after close nothing more is done", async () => {
  const room = makeRoom();
  const file = await createStudyFile(room.study, newStudy, room.places);
  await Promise.all([file.close(), file.close()]);
  expect(await faultOf(() => file.backUp())).toBe("gone");
  expect(await faultOf(() => file.saveCopy(join(room.desk, "late.boilstudy")))).toBe("gone");
  expect(filesBelow(room.desk)).toEqual(["stove.boilstudy"]);
});

test("what a program that died left half-written goes: of the study itself at once, of others after an hour", async () => {
  const room = makeRoom();
  await makeStudy(room);
  const at = (name: string) => join(room.desk, name);
  const names = [
    ".stove.boilstudy.0123456789ab.boilbench-part",
    ".other.boilstudy.0123456789ab.boilbench-part",
    ".old.boilstudy.0123456789ab.boilbench-part",
  ];
  for (const name of names) writeFileSync(at(name), "half");
  writeFileSync(at(".mine"), "mine");
  const longAgo = Date.now() / 1000 - 3_700;
  utimesSync(at(names[2] ?? ""), longAgo, longAgo);
  const file = await openStudyFile(room.study, room.places);
  expect(filesBelow(room.desk)).toEqual([".mine", names[1], "stove.boilstudy"]);
  await file.close();
});
