import { lstatSync, readFileSync, rmSync, truncateSync, utimesSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { createStudyFile, listBackups, openBackup, openStudyFile } from "../../../app/store/index.ts";
import { faultOf, filesBelow, makeRoom, newStudy, type Room, rename } from "./support.ts";

/** The making of a study is the first edit of its record. */
const kept = (room: Room) => join(room.places.dataFolder, "backups");

test("a backup holds what was confirmed; without a change since the last there is none", async () => {
  const room = makeRoom({ now: () => new Date("2026-03-04T05:06:07.089Z") });
  const file = await createStudyFile(room.study, newStudy, room.places);
  const { identity } = file.database;
  rename(file.database, "First");
  const first = await file.backUp();
  expect(first).toEqual({
    id: "2026-03-04T05-06-07.089Z-regular.boilstudy",
    at: "2026-03-04T05:06:07.089Z",
    bytes: expect.any(Number),
    runs: 0,
    edits: 2,
    why: "regular",
    sound: true,
  });
  expect(await file.backUp()).toBeNull();
  rename(file.database, "Second");
  const second = await file.backUp("beforeGoingBack");
  // By the same clock: no two have one time.
  expect(second).toMatchObject({ at: "2026-03-04T05:06:07.090Z", why: "beforeGoingBack", edits: 3 });
  await file.close();
  expect(listBackups(identity, room.places)).toEqual([second, first]);
  for (const [backup, name] of [
    [first, "First"],
    [second, "Second"],
  ] as const) {
    const { database, done } = await openBackup(identity, backup?.id ?? "", room.places);
    expect([database.head().name, database.isReadOnly]).toEqual([name, true]);
    done();
  }
});

test("an undo is a change as well", async () => {
  const room = makeRoom();
  const file = await createStudyFile(room.study, newStudy, room.places);
  rename(file.database, "First");
  expect(await file.backUp()).toMatchObject({ edits: 2 });
  file.database.undo("Ana");
  expect(await file.backUp()).toMatchObject({ edits: 3 });
  await file.close();
});

test("at close: where something was edited, not where a study was only looked at", async () => {
  const room = makeRoom();
  const file = await createStudyFile(room.study, newStudy, room.places);
  const { identity } = file.database;
  await file.close();
  expect(listBackups(identity, room.places)).toEqual([]);
  const again = await openStudyFile(room.study, room.places);
  rename(again.database, "First");
  await again.close();
  expect(listBackups(identity, room.places)).toMatchObject([{ why: "atClose", edits: 2, sound: true }]);
  await (await openStudyFile(room.study, room.places)).close();
  expect(listBackups(identity, room.places)).toHaveLength(1);
});

test("two copies of one study that went different ways are each backed up", async () => {
  const room = makeRoom();
  const file = await createStudyFile(room.study, newStudy, room.places);
  const copy = join(room.desk, "copy.boilstudy");
  await file.saveCopy(copy);
  rename(file.database, "One way");
  expect(await file.backUp()).not.toBeNull();
  await file.close();
  const other = await openStudyFile(copy, room.places);
  rename(other.database, "Another way");
  expect(await other.backUp()).not.toBeNull();
  await other.close();
  expect(listBackups(other.database.identity, room.places)).toHaveLength(2);
});

test("only a name of the list opens", async () => {
  const room = makeRoom();
  const file = await createStudyFile(room.study, newStudy, room.places);
  rename(file.database, "First");
  const backup = await file.backUp();
  const { identity } = file.database;
  await file.close();
  const id = backup?.id ?? "";
  const names = [
    "",
    ".",
    "..",
    `../${identity}/${id}`,
    `./${id}`,
    `${id}\0`,
    `${id}.json`,
    room.study,
    "../../../desk/stove.boilstudy",
  ];
  for (const name of names) expect(await faultOf(() => openBackup(identity, name, room.places)), name).toBe("gone");
  for (const other of ["", "..", "../..", "../../desk", "/etc", "__proto__"]) {
    expect(listBackups(other, room.places)).toEqual([]);
    expect(await faultOf(() => openBackup(other, id, room.places)), other).toBe("gone");
  }
  expect(filesBelow(room.desk)).toEqual(["stove.boilstudy"]);
});

test("a backup that was damaged since says so, and one whose note was lost is read anew", async () => {
  const room = makeRoom();
  const file = await createStudyFile(room.study, newStudy, room.places);
  const { identity } = file.database;
  const ids: string[] = [];
  for (const name of ["First", "Second", "Third"]) {
    rename(file.database, name);
    ids.push((await file.backUp())?.id ?? "");
  }
  const at = (id = "") => join(kept(room), identity, id);
  truncateSync(at(ids[0]), readFileSync(at(ids[0])).length - 4096);
  rmSync(`${at(ids[1])}.json`);
  writeFileSync(`${at(ids[2])}.json`, "{");
  writeFileSync(at("notes.txt"), "mine");
  const listed = listBackups(identity, room.places);
  expect(listed.map(({ id, sound, edits }) => [id, sound, edits])).toEqual([
    [ids[2], true, 4],
    [ids[1], true, 3],
    [ids[0], false, 0],
  ]);
  expect(await faultOf(() => openBackup(identity, ids[0] ?? "", room.places))).toBe("damaged");
  await file.close();
});

test("a backup with a flipped bit, of the size and time that it had, is not gone back to", async () => {
  const room = makeRoom();
  const file = await createStudyFile(room.study, newStudy, room.places);
  rename(file.database, "A name that is found in the file");
  const { id = "" } = (await file.backUp()) ?? {};
  const { identity } = file.database;
  await file.close();
  const path = join(kept(room), identity, id);
  const bytes = readFileSync(path);
  const { atimeNs, mtimeNs } = lstatSync(path, { bigint: true });
  const place = bytes.lastIndexOf("A name that is found");
  bytes[place] = (bytes[place] ?? 0) ^ 1;
  writeFileSync(path, bytes);
  const seconds = (nanoseconds: bigint) => Number(nanoseconds) / 1e9;
  utimesSync(path, seconds(atimeNs), seconds(mtimeNs));
  expect(await faultOf(() => openBackup(identity, id, room.places))).toBe("damaged");
});

test("a backup that is made after the clock was set back by a day stays, and so do those before it", async () => {
  let now = Date.UTC(2026, 0, 10, 23, 0);
  const room = makeRoom({ now: () => new Date(now) });
  const file = await createStudyFile(room.study, newStudy, room.places);
  const { identity } = file.database;
  const ids: string[] = [];
  const make = async (name: string) => {
    now += 60_000;
    rename(file.database, name);
    ids.push((await file.backUp())?.id ?? "");
  };
  now -= 2 * 86_400_000;
  await make("The day before");
  now = Date.UTC(2026, 0, 9, 23, 30);
  await make("Late in the evening");
  now = Date.UTC(2026, 0, 10, 12, 0);
  for (let made = 0; made < 10; made++) await make(`Before ${made}`);
  now -= 86_400_000;
  for (let made = 0; made < 3; made++) await make(`After ${made}`);
  const listed = new Set(listBackups(identity, room.places).map(({ id }) => id));
  expect(ids.filter((id) => !listed.has(id))).toEqual([]);
  await file.close();
});

test("their number stays bounded", async () => {
  let minute = 0;
  const room = makeRoom({ now: () => new Date(Date.UTC(2026, 0, 1, 0, minute)) });
  const file = await createStudyFile(room.study, newStudy, room.places);
  const { identity } = file.database;
  for (minute = 1; minute <= 14; minute++) {
    rename(file.database, `Edit ${minute}`);
    await file.backUp();
  }
  const listed = listBackups(identity, room.places);
  expect(listed.map(({ edits }) => edits)).toEqual([15, 14, 13, 12, 11, 10, 9, 8, 7, 6]);
  expect(filesBelow(join(kept(room), identity))).toHaveLength(20);
  await file.close();
});

test("of one that was cut off nothing is left", async () => {
  const room = makeRoom();
  const file = await createStudyFile(room.study, newStudy, room.places);
  rename(file.database, "First");
  await file.backUp();
  const folder = join(kept(room), file.database.identity);
  // 2^22 is beyond what Linux numbers processes with: such a process is not there.
  writeFileSync(join(folder, "unfinished-4194305-0123456789ab.part"), "half");
  writeFileSync(join(folder, "unfinished-4194305-0123456789ab.part-journal"), "half");
  rename(file.database, "Second");
  await file.backUp();
  expect(filesBelow(folder).filter((name) => name.includes("part"))).toEqual([]);
  await file.close();
});
