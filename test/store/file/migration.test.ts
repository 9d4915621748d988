import { rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { createStudyFile, listBackups, openBackup, openStudyFile, StudyDatabase } from "../../../app/store/index.ts";
import { migrations } from "../../../app/store/schema/migrations.ts";
import { sampleChanges } from "../engine/sample.ts";
import { mountDrive, remount } from "./drive.ts";
import { failingLayouts, laterLayouts } from "./later-layout.ts";
import { faultOf, filesBelow, makeRoom, makeStudy, newStudy, type Room, rename, trace } from "./support.ts";

test("before a migration the file is copied, and the copy can still be read", async () => {
  const room = makeRoom();
  await makeStudy(room, "Of old");
  const later = { ...room.places, migrations: laterLayouts };
  const file = await openStudyFile(room.study, later);
  expect(file.notes).toEqual([{ note: "migrated", detail: String(laterLayouts.length - 1) }]);
  expect(file.database.version).toBe(laterLayouts.length);
  const { identity } = file.database;
  const [backup] = listBackups(identity, later);
  expect(backup).toMatchObject({ why: "beforeMigration", sound: true, edits: 2 });
  rename(file.database, "Of later days");
  await file.close();

  // The copy is of the old layout: the program of old can open it, and that of later days through a copy of it.
  const path = join(room.places.dataFolder, "backups", identity, backup?.id ?? "");
  const before = trace(path);
  const old = StudyDatabase.open(path, { readOnly: true, program: "test" });
  expect([old.version, old.head().name]).toEqual([laterLayouts.length - 1, "Of old"]);
  old.close();
  const { database, done } = await openBackup(identity, backup?.id ?? "", later);
  expect([database.version, database.head().name]).toEqual([laterLayouts.length, "Of old"]);
  done();
  expect(filesBelow(join(later.dataFolder, "private"))).toEqual([]);
  expect(trace(path)).toBe(before);

  const again = await openStudyFile(room.study, later);
  expect(again.notes).toEqual([]);
  await again.close();
});

test("where the backup cannot be made, no migration runs", async () => {
  const room = makeRoom();
  await makeStudy(room, "Of old");
  writeFileSync(join(room.places.dataFolder, "backups"), "a file where the folder should be");
  const before = trace(room.study);
  expect(await faultOf(() => openStudyFile(room.study, { ...room.places, migrations: laterLayouts }))).toBe(
    "ownFolder",
  );
  expect(trace(room.study)).toBe(before);
  const file = await openStudyFile(room.study, room.places);
  expect(file.readOnly).toBeNull();
  await faultOf(() => file.close());
});

test("a migration that fails is rehearsed on a copy: the file stays as it is", async () => {
  const room = makeRoom();
  await makeStudy(room, "Of old");
  const before = trace(room.study);
  expect(await faultOf(() => openStudyFile(room.study, { ...room.places, migrations: failingLayouts }))).not.toBe(
    "none",
  );
  expect(trace(room.study)).toBe(before);
  expect(filesBelow(room.desk)).toEqual(["stove.boilstudy"]);
  expect(filesBelow(join(room.places.dataFolder, "private"))).toEqual([]);
});

/** A study as the first release made it, with something of everything in it, closed. */
async function makeStudyOfFirstRelease(room: Room): Promise<void> {
  const first = { ...room.places, migrations: migrations.slice(0, 1) };
  const file = await createStudyFile(room.study, newStudy, first, (database) => {
    database.edit({ who: "Ana", what: "import", about: {}, why: null }, sampleChanges);
  });
  await file.close();
  rmSync(join(room.places.dataFolder, "backups"), { recursive: true, force: true });
}

function contentOf(database: StudyDatabase): unknown {
  for (const _ of database.verify());
  return [database.head(), database.runLines().map(({ run }) => database.run(run)), database.record(100)];
}

test("a study of the first release is copied, then brought up to date whole; the copy still is of that release", async () => {
  const room = makeRoom();
  await makeStudyOfFirstRelease(room);
  const old = StudyDatabase.open(room.study, { readOnly: true, program: "test" });
  const [content, identity] = [contentOf(old), old.identity];
  expect(old.version).toBe(1);
  old.close();

  const file = await openStudyFile(room.study, room.places);
  expect([file.readOnly, file.notes]).toEqual([null, [{ note: "migrated", detail: "1" }]]);
  expect(file.database.version).toBe(migrations.length);
  expect(contentOf(file.database)).toEqual(content);
  const [backup] = listBackups(identity, room.places);
  expect(backup).toMatchObject({ why: "beforeMigration", sound: true, runs: 2, edits: 2 });
  file.database.undo("Ana");
  expect(file.database.runLines()).toEqual([]);
  file.database.redo("Ana");
  await file.close();

  const path = join(room.places.dataFolder, "backups", identity, backup?.id ?? "");
  const copy = StudyDatabase.open(path, { readOnly: true, program: "test" });
  expect([copy.version, contentOf(copy)]).toEqual([1, content]);
  copy.close();
});

test("a study of the first release on a drive that can only be read is shown, and stays as it is", async () => {
  const room = makeRoom();
  const drive = mountDrive(room.folder, 2 ** 21);
  if (drive === null) return;
  const onDrive = { ...room, desk: drive, study: join(drive, "stove.boilstudy") };
  await makeStudyOfFirstRelease(onDrive);
  remount(drive, "ro");
  const before = trace(onDrive.study);
  const file = await openStudyFile(onDrive.study, room.places);
  expect(file.readOnly).toEqual({ because: "readOnlyPlace", detail: onDrive.study });
  expect(file.database.runLines().map(({ name }) => name)).toEqual(["R1", "R2"]);
  expect(file.database.head().remarks.size).toBe(1);
  await file.close();
  expect(trace(onDrive.study)).toBe(before);
});
