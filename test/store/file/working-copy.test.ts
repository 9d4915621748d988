import { chmodSync, mkdirSync, readFileSync, renameSync, rmSync, statSync, utimesSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { openStudyFile, StudyDatabase } from "../../../app/store/index.ts";
import { OtherProcess } from "./other-process.ts";
import { faultOf, filesBelow, makeRoom, makeStudy, type Room, rename, trace } from "./support.ts";

const onNetwork = () => makeRoom({ placeOf: () => "network" });
const working = (room: Room) => filesBelow(join(room.places.dataFolder, "working"));

function nameIn(path: string): string {
  const database = StudyDatabase.open(path, { readOnly: true, program: "test" });
  try {
    for (const _ of database.verify());
    return database.head().name;
  } finally {
    database.close();
  }
}

test("edits go to the copy, and to the original when it is written back: whole, with the rights that it had", async () => {
  const room = onNetwork();
  await makeStudy(room, "First");
  chmodSync(room.study, 0o640);
  const untouched = trace(room.study);
  const file = await openStudyFile(room.study, room.places);
  expect(file.readOnly).toBeNull();
  expect(file.path).toBe(room.study);
  expect(file.notes.map(({ note }) => note)).toEqual(["workingCopy"]);
  rename(file.database, "Second");
  expect(trace(room.study)).toBe(untouched);

  await file.writeBack();
  expect(nameIn(room.study)).toBe("Second");
  expect(statSync(room.study).mode & 0o777).toBe(0o640);
  const written = trace(room.study);
  await file.writeBack();
  expect(trace(room.study), "nothing changed, nothing is written").toBe(written);

  file.beforeEdit();
  rename(file.database, "Third");
  await file.close();
  expect(nameIn(room.study)).toBe("Third");
  expect(filesBelow(room.desk)).toEqual(["stove.boilstudy"]);
  expect(working(room)).toEqual([]);
});

test("one that was only looked at is not written", async () => {
  const room = onNetwork();
  await makeStudy(room, "First");
  const before = trace(room.study);
  const file = await openStudyFile(room.study, room.places);
  await file.close();
  expect(trace(room.study)).toBe(before);
  expect(working(room)).toEqual([]);
});

test("an original that changed meanwhile is not overwritten, and both are kept", async () => {
  const [room, other] = [onNetwork(), makeRoom()];
  await makeStudy(room, "First");
  await makeStudy(other, "From another machine");
  const file = await openStudyFile(room.study, room.places);
  rename(file.database, "Ours");
  renameSync(other.study, room.study);
  const theirs = trace(room.study);
  expect(await faultOf(() => file.writeBack())).toBe("changedOutside");
  // Opening it anew, which a person is told to do, is then more than what is open already.
  expect(file.isReplaced()).toBe(true);
  // There is nothing to keep from working on: the edits have their place.
  file.beforeEdit();
  rename(file.database, "Ours, later");
  expect(await faultOf(() => file.close())).toBe("changedOutside");
  expect(trace(room.study)).toBe(theirs);
  expect(filesBelow(room.desk)).toEqual(["stove.boilstudy"]);

  const again = await openStudyFile(room.study, room.places);
  expect(again.database.head().name).toBe("From another machine");
  expect(again.notes.map(({ note }) => note)).toEqual(["workingCopySetAside", "workingCopy"]);
  expect(nameIn(again.notes[0]?.detail ?? "")).toBe("Ours, later");
  await again.close();
  expect(nameIn(again.notes[0]?.detail ?? ""), "what was set aside stays").toBe("Ours, later");
});

test("the smallest change counts: the same size and the same time, one byte", async () => {
  const room = onNetwork();
  await makeStudy(room, "First");
  utimesSync(room.study, 1_700_000_000, 1_700_000_000);
  const file = await openStudyFile(room.study, room.places);
  rename(file.database, "Ours");
  const bytes = readFileSync(room.study);
  bytes[bytes.length - 1] = (bytes.at(-1) ?? 0) ^ 1;
  writeFileSync(room.study, bytes);
  utimesSync(room.study, 1_700_000_000, 1_700_000_000);
  expect(await faultOf(() => file.writeBack())).toBe("changedOutside");
  // A time alone is no change.
  bytes[bytes.length - 1] = (bytes.at(-1) ?? 0) ^ 1;
  writeFileSync(room.study, bytes);
  await file.close();
  expect(nameIn(room.study)).toBe("Ours");
});

test("edits of a program that died before it wrote back are taken up", async () => {
  const room = onNetwork();
  await makeStudy(room, "First");
  const other = new OtherProcess(room, "Bero", { place: "network" });
  await other.hears();
  expect(await other.told("edit Unwritten")).toEqual({ done: null });
  await other.dies();
  expect(nameIn(room.study)).toBe("First");
  const file = await openStudyFile(room.study, room.places);
  expect(file.notes.map(({ note }) => note)).toEqual(["workingCopyTakenUp"]);
  expect(file.database.head().name).toBe("Unwritten");
  await file.close();
  expect(nameIn(room.study)).toBe("Unwritten");
});

test("edits of a program that died are set aside where the original is another by now", async () => {
  const room = onNetwork();
  await makeStudy(room, "First");
  const other = new OtherProcess(room, "Bero", { place: "network" });
  await other.hears();
  await other.told("edit Unwritten");
  await other.dies();
  const elsewhere = StudyDatabase.open(room.study, { readOnly: false, program: "test" });
  rename(elsewhere, "Another machine's");
  elsewhere.close();
  const file = await openStudyFile(room.study, room.places);
  expect(file.notes.map(({ note }) => note)).toEqual(["workingCopySetAside", "workingCopy"]);
  expect(nameIn(file.notes[0]?.detail ?? "")).toBe("Unwritten");
  expect(file.database.head().name).toBe("Another machine's");
  await file.close();
});

test("one that died without edits left, or after it wrote back, leaves nothing to take up", async () => {
  const room = onNetwork();
  await makeStudy(room, "First");
  for (const told of [["read"], ["edit Written", "write-back"]]) {
    const other = new OtherProcess(room, "Bero", { place: "network" });
    await other.hears();
    for (const what of told) await other.told(what);
    await other.dies();
    const file = await openStudyFile(room.study, room.places);
    expect(file.notes.map(({ note }) => note)).toEqual(["workingCopy"]);
    await file.close();
  }
  expect(nameIn(room.study)).toBe("Written");
});

test.each([
  ["before", "First", "workingCopyTakenUp"],
  ["after", "Second", "workingCopy"],
] as const)("killed right %s the original is put in place: known for what it is", async (dieAtRename, left, note) => {
  const room = onNetwork();
  await makeStudy(room, "First");
  const other = new OtherProcess(room, "Bero", { place: "network", dieAtRename });
  await other.hears();
  await other.told("edit Second");
  await expect(other.told("write-back")).rejects.toThrow("ended");
  expect(nameIn(room.study)).toBe(left);
  const file = await openStudyFile(room.study, room.places);
  expect(file.notes.map((each) => each.note)).toEqual([note]);
  expect(file.database.head().name).toBe("Second");
  await file.close();
  expect(nameIn(room.study)).toBe("Second");
  expect(working(room)).toEqual([]);
});

test("killed at any moment of writing back: the original is the one or the other, and nothing is lost", async () => {
  const room = onNetwork();
  await makeStudy(room, "Edit 0");
  for (let edit = 1; edit <= 12; edit++) {
    const other = new OtherProcess(room, "Bero", { place: "network" });
    await other.hears();
    expect(await other.told(`edit Edit ${edit}`)).toEqual({ done: null });
    other.told("write-back").catch(() => {});
    await new Promise((resolve) => setTimeout(resolve, edit * 3));
    await other.dies();
    expect([`Edit ${edit - 1}`, `Edit ${edit}`]).toContain(nameIn(room.study));
    const file = await openStudyFile(room.study, room.places);
    expect(file.notes.map(({ note }) => note)).not.toContain("workingCopySetAside");
    expect(file.database.head().name).toBe(`Edit ${edit}`);
    await file.close();
    expect(nameIn(room.study)).toBe(`Edit ${edit}`);
  }
}, 60_000);

test("an original that is away does not keep from working; written back once it is there again", async () => {
  const room = onNetwork();
  await makeStudy(room, "First");
  const file = await openStudyFile(room.study, room.places);
  renameSync(room.desk, `${room.desk}-away`);
  file.beforeEdit();
  rename(file.database, "Second");
  expect(await faultOf(() => file.writeBack())).toBe("gone");
  renameSync(`${room.desk}-away`, room.desk);
  await file.close();
  expect(nameIn(room.study)).toBe("Second");
});

test("a journal beside the original is taken in, and is not played back into what is written", async () => {
  const room = onNetwork();
  await makeStudy(room, "First");
  const { DatabaseSync } = await import("node:sqlite");
  const writer = new DatabaseSync(room.study);
  writer.exec("PRAGMA cache_size = 1; BEGIN; UPDATE study SET name = 'Half'; CREATE TABLE big (x); ");
  const insert = writer.prepare("INSERT INTO big VALUES (?)");
  for (let row = 0; row < 200; row++) insert.run("x".repeat(1000));
  const [half, journal] = [readFileSync(room.study), readFileSync(`${room.study}-journal`)];
  writer.close();
  writeFileSync(room.study, half);
  writeFileSync(`${room.study}-journal`, journal);
  const file = await openStudyFile(room.study, room.places);
  expect(file.notes.map(({ note }) => note)).toEqual(["recovered", "workingCopy"]);
  expect(file.database.head().name).toBe("First");
  rename(file.database, "Second");
  await file.close();
  expect(filesBelow(room.desk)).toEqual(["stove.boilstudy"]);
  expect(nameIn(room.study)).toBe("Second");
  rmSync(room.study);
});

test("a second program on the same machine sees the working copy's edits", async () => {
  const room = onNetwork();
  await makeStudy(room, "First");
  const other = new OtherProcess(room, "Bero", { place: "network" });
  await other.hears();
  await other.told("edit Unwritten");
  const file = await openStudyFile(room.study, room.places);
  expect(file.readOnly).toMatchObject({ because: "held", holder: { who: "Bero" } });
  expect(file.database.head().name).toBe("Unwritten");
  await other.told("edit Later");
  expect(file.refresh()).toBe(true);
  expect(file.database.head().name).toBe("Later");
  await other.told("close");
  // The copy is gone with its program, and the original has everything.
  file.refresh();
  expect(file.database.head().name).toBe("Later");
  await file.close();
});

test("by the place as it really is: this disk is local, a folder of a sync program's name is not", async () => {
  const room = makeRoom();
  await makeStudy(room, "First");
  const { placeOf: _, ...places } = room.places;
  const file = await openStudyFile(room.study, places);
  expect(file.notes).toEqual([]);
  await file.close();
  mkdirSync(join(room.desk, "Nextcloud"));
  const synced = join(room.desk, "Nextcloud", "stove.boilstudy");
  renameSync(room.study, synced);
  const other = await openStudyFile(synced, places);
  expect(other.notes.map(({ note }) => note)).toEqual(["workingCopy"]);
  await other.close();
});
