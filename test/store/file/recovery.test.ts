import { copyFileSync, existsSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { DatabaseSync } from "node:sqlite";
import { expect, test } from "vitest";
import { listBackups, openStudyFile, StudyDatabase } from "../../../app/store/index.ts";
import { OtherProcess } from "./other-process.ts";
import { faultOf, filesBelow, makeRoom, makeStudy, type Room, rename, trace } from "./support.ts";

/** A study as a program leaves it that dies within an edit: half of it in the file, what was there before in the journal. */
async function cutOff(room: Room): Promise<void> {
  await makeStudy(room, "First", "Confirmed");
  cutOffHere(room);
}

function cutOffHere(room: Room): void {
  const writer = new DatabaseSync(room.study);
  writer.exec("PRAGMA cache_size = 1; BEGIN; UPDATE study SET name = 'Half'; CREATE TABLE big (x)");
  const insert = writer.prepare("INSERT INTO big VALUES (?)");
  for (let row = 0; row < 300; row++) insert.run("x".repeat(1000));
  const [half, journal] = [readFileSync(room.study), readFileSync(`${room.study}-journal`)];
  writer.close();
  writeFileSync(room.study, half);
  writeFileSync(`${room.study}-journal`, journal);
}

test("an edit that was cut off is taken back, without anyone's help, and said", async () => {
  const room = makeRoom();
  await cutOff(room);
  expect(statSync(`${room.study}-journal`).size).toBeGreaterThan(512);
  const file = await openStudyFile(room.study, room.places);
  expect(file.readOnly).toBeNull();
  expect(file.notes).toEqual([{ note: "recovered", detail: room.study }]);
  expect(file.database.head().name).toBe("Confirmed");
  rename(file.database, "Went on");
  await file.close();
  expect(filesBelow(room.desk)).toEqual(["stove.boilstudy"]);
});

test("a journal that would break the file is tried on a copy: the file and the journal stay as they are", async () => {
  const room = makeRoom();
  await cutOff(room);
  const journal = readFileSync(`${room.study}-journal`);
  // The pages that it would put back are damaged, and their check sums with them: all behind the first record is random.
  const bytes = readFileSync(room.study);
  bytes.fill(0x5a, 4096 * 2);
  writeFileSync(room.study, bytes);
  journal.fill(0, 0, 8);
  journal[0] = 0xd9;
  writeFileSync(`${room.study}-journal`, journal);
  const before = [trace(room.study), trace(`${room.study}-journal`)];
  try {
    const file = await openStudyFile(room.study, room.places);
    expect(file.readOnly?.because).toBe("damaged");
    await file.close();
  } catch (error) {
    expect(error).toMatchObject({ code: "damaged" });
  }
  expect([trace(room.study), trace(`${room.study}-journal`)]).toEqual(before);
  expect(filesBelow(join(room.places.dataFolder, "private"))).toEqual([]);
});

test("a file of no bytes beside a journal is not opened: SQLite would throw the journal away", async () => {
  const room = makeRoom();
  await cutOff(room);
  const kept = join(room.folder, "kept");
  copyFileSync(`${room.study}-journal`, kept);
  rmSync(room.study);
  writeFileSync(room.study, "");
  expect(await faultOf(() => openStudyFile(room.study, room.places))).toBe("empty");
  expect(readFileSync(`${room.study}-journal`).equals(readFileSync(kept))).toBe(true);
});

test("a journal of one that died, while another holds the study: a copy is put right, the original is left to its holder", async () => {
  const room = makeRoom();
  await makeStudy(room, "First", "Confirmed");
  const other = new OtherProcess(room, "Bero");
  await other.hears();
  cutOffHere(room);
  const journal = readFileSync(`${room.study}-journal`);
  const before = trace(room.study);
  const file = await openStudyFile(room.study, room.places);
  expect(file.readOnly).toMatchObject({ because: "held", holder: { who: "Bero" } });
  expect(file.database.head().name).toBe("Confirmed");
  await file.close();
  expect(trace(room.study)).toBe(before);
  expect(readFileSync(`${room.study}-journal`).equals(journal)).toBe(true);
});

test("killed while it backs up and saves copies: no half of either is found under a name of its own", async () => {
  const room = makeRoom();
  await makeStudy(room, "First");
  for (let round = 1; round <= 6; round++) {
    const other = new OtherProcess(room, "Bero");
    await other.hears();
    await other.told(`edit Edit ${round}`);
    const copy = join(room.desk, `copy-${round}.boilstudy`);
    for (const what of ["back-up", `copy ${copy}`]) other.told(what).catch(() => {});
    await new Promise((resolve) => setTimeout(resolve, round * 12));
    await other.dies();
    const file = await openStudyFile(room.study, room.places);
    for (const backup of listBackups(file.database.identity, room.places)) expect(backup.sound).toBe(true);
    if (existsSync(copy)) {
      const opened = StudyDatabase.open(copy, { readOnly: true, program: "test" });
      expect(opened.head().name).toBe(`Edit ${round}`);
      opened.close();
    }
    expect(filesBelow(join(room.places.dataFolder, "private"))).toEqual([]);
    await file.close();
    const unfinished = filesBelow(join(room.places.dataFolder, "backups")).filter((name) => /unfinished/.test(name));
    expect(unfinished).toEqual([]);
  }
}, 60_000);
