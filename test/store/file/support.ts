import { createHash } from "node:crypto";
import {
  existsSync,
  lstatSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  realpathSync,
  rmSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join, relative } from "node:path";
import { afterEach } from "vitest";
import type { NewStudy } from "../../../app/store/file/opened-file.ts";
import type { Places } from "../../../app/store/file/places.ts";
import { createStudyFile } from "../../../app/store/file/study-file.ts";
import { type FaultCode, StoreFault, StudyDatabase } from "../../../app/store/index.ts";

export const newStudy: NewStudy = { name: "Kiln bricks", method: "wbt", confidence: 0.9, isExample: false };

/** A folder of its own for a test: `desk` where studies lie, `data` that the program keeps. */
export interface Room {
  readonly folder: string;
  readonly desk: string;
  readonly study: string;
  readonly places: Places;
}

const endings: (() => unknown)[] = [];

/** Done when the test is over, the last given first. */
export function atEnd(ending: () => unknown): void {
  endings.push(ending);
}

export function makeRoom(change: Partial<Places> = {}): Room {
  const folder = realpathSync.native(mkdtempSync(join(tmpdir(), "boilbench-file-")));
  atEnd(() => rmSync(folder, { recursive: true, force: true }));
  const desk = join(folder, "desk");
  mkdirSync(desk);
  const places: Places = {
    dataFolder: join(folder, "data"),
    program: "boilbench test",
    who: "Ana",
    placeOf: () => "local",
    ...change,
  };
  return { folder, desk, study: join(desk, "stove.boilstudy"), places };
}

afterEach(async () => {
  for (const ending of endings.splice(0).toReversed()) await ending();
});

/** A study at `room.study` with these edits, closed; without backups. */
export async function makeStudy(room: Room, ...names: readonly string[]): Promise<void> {
  const file = await createStudyFile(room.study, newStudy, room.places);
  for (const name of names) rename(file.database, name);
  await file.close();
  rmSync(join(room.places.dataFolder, "backups"), { recursive: true, force: true });
}

/** One edit. */
export function rename(database: StudyDatabase, name: string): void {
  database.edit({ who: "Ana", what: "rename", about: {}, why: null }, [
    { subject: "study", field: "name", after: name },
  ]);
}

export async function faultOf(what: () => unknown): Promise<FaultCode | "none"> {
  try {
    await what();
    return "none";
  } catch (error) {
    if (error instanceof StoreFault) return error.code;
    throw error;
  }
}

/** All that can be seen of a file from outside without changing it. */
export function trace(path: string): string {
  const { ino, size, mtimeNs, ctimeNs, mode } = lstatSync(path, { bigint: true });
  const digest = createHash("sha256").update(readFileSync(path)).digest("hex");
  return [ino, size, mtimeNs, ctimeNs, mode, digest].join(" ");
}

/** Every file below a folder, by its path from there. */
export function filesBelow(folder: string): string[] {
  if (!existsSync(folder)) return [];
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => !entry.isDirectory())
    .map((entry) => relative(folder, join(entry.parentPath, entry.name)))
    .sort();
}

export function nameIn(path: string): string {
  const database = StudyDatabase.open(path, { readOnly: true, program: "test" });
  for (const _ of database.verify());
  const { name } = database.head();
  database.close();
  return name;
}
