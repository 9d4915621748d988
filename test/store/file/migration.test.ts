import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { listBackups, openBackup, openStudyFile, StudyDatabase } from "../../../app/store/index.ts";
import { failingLayouts, laterLayouts } from "./later-layout.ts";
import { faultOf, filesBelow, makeRoom, makeStudy, rename, trace } from "./support.ts";

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
