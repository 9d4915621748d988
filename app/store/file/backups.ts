import { createHash, randomBytes } from "node:crypto";
import { lstatSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { join } from "node:path";
import { StoreFault } from "../fault.ts";
import type { StudyDatabase } from "../study-database.ts";
import type { Backup } from "./backup.ts";
import { backupsToRemove } from "./backups-to-remove.ts";
import { type CheckedCopy, checkCopy, checkCopyInSteps, openToRead } from "./check-copy.ts";
import { discard, diskFault, isThere, publish, removeLeftovers, writeWhole } from "./disk.ts";
import { placeNew } from "./place-new.ts";
import { ownFolder, type Places, timeOf } from "./places.ts";
import { isAlive } from "./private-folder.ts";

/** What is known of a backup without opening it; believed as long as the file is the one that it was written of. */
interface BackupNote extends CheckedCopy {
  readonly sound: boolean;
  /** Real path of the study that it was made of. */
  readonly of: string;
  readonly bytes: number;
  readonly changedAt: number;
}

const fileName =
  /^(\d{4}-\d\d-\d\dT)(\d\d)-(\d\d)-(\d\d\.\d{3}Z)-(regular|beforeMigration|beforeGoingBack|atClose)\.boilstudy$/;

/** Identities come from files, which may say anything: what is no plain name does not become a folder's. */
function nameOf(identity: string): string {
  if (/^[0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12}$/.test(identity)) return identity;
  return createHash("sha256").update(identity).digest("hex");
}

function folderOf(identity: string, places: Places): string {
  return ownFolder(places, "backups", nameOf(identity));
}

/** The backups of a study, newest first. One that nothing is known of any more is read to its end. */
export function listBackups(identity: string, places: Places): Backup[] {
  const folder = folderOf(identity, places);
  return readdirSync(folder)
    .map((id) => describe(folder, id, places))
    .filter((backup) => backup !== null)
    .sort((a, b) => (a.at < b.at ? 1 : -1));
}

/** A backup, and the study that it is of. */
export interface BackupOfFile {
  readonly identity: string;
  readonly backup: Backup;
}

/** The sound backups that were made of the file at a path, whatever lies there now: newest first. */
export function backupsOfFile(path: string, places: Places): BackupOfFile[] {
  return readdirSync(ownFolder(places, "backups"))
    .filter((identity) => nameOf(identity) === identity)
    .flatMap((identity) => {
      const folder = folderOf(identity, places);
      return listBackups(identity, places)
        .filter(({ id, sound }) => sound && readNote(folder, id)?.of === path)
        .map((backup) => ({ identity, backup }));
    })
    .sort((a, b) => (a.backup.at < b.backup.at ? 1 : -1));
}

/**
 * A backup, to take what is in it: read to its end first, as disks lose what was sound. `done` closes it.
 * @throws {StoreFault} "gone" where it is not one that is listed; "damaged", … where it cannot be read.
 */
export async function openBackup(
  identity: string,
  id: string,
  places: Places,
): Promise<{ readonly database: StudyDatabase; readonly done: () => void }> {
  const path = pathOf(identity, id, places);
  await checkCopyInSteps(path, places);
  const { database, done } = openToRead(path, places);
  return {
    database,
    done: () => {
      database.close();
      done();
    },
  };
}

/** The file of a backup that is listed. */
function pathOf(identity: string, id: string, places: Places): string {
  const folder = folderOf(identity, places);
  const listed = readdirSync(folder).find((name) => name === id && fileName.test(name));
  if (listed === undefined) throw new StoreFault("gone", "no backup of this name");
  return join(folder, listed);
}

/** A backup as a study file of its own. @throws {StoreFault} "gone" where it is not one that is listed; "exists". */
export async function saveBackup(identity: string, id: string, to: string, places: Places): Promise<void> {
  await placeNew(pathOf(identity, id, places), to);
}

/** Makes a backup of a study that is open; `copy` writes it. Nothing is left behind where it fails. */
export async function makeBackup(
  copy: (to: string) => Promise<void>,
  of: string,
  identity: string,
  why: Backup["why"],
  places: Places,
): Promise<Backup> {
  const folder = folderOf(identity, places);
  removeUnfinished(folder);
  const unfinished = join(folder, `unfinished-${process.pid}-${randomBytes(6).toString("hex")}.part`);
  let id: string;
  try {
    await copy(unfinished);
    const checked = await checkCopyInSteps(unfinished, places);
    id = freeName(folder, timeOf(places), why);
    publish(unfinished, join(folder, id));
    noteDown(folder, id, { ...checked, sound: true, of });
  } catch (error) {
    discard(unfinished);
    throw diskFault(error);
  }
  const made = describe(folder, id, places);
  if (made === null) throw new StoreFault("gone", id);
  removeOldBackups(identity, places);
  return made;
}

/** The states of a study, as `markOf` gives them, that sound backups of this file hold. Clocks go wrong: the order says nothing. */
export function statesBackedUp(of: string, identity: string, places: Places): string[] {
  const folder = folderOf(identity, places);
  return listBackups(identity, places)
    .filter(({ sound }) => sound)
    .map(({ id }) => readNote(folder, id))
    .filter((note) => note?.of === of)
    .map((note) => note?.mark ?? "");
}

/** Keeps the space bounded; gives those that went. */
export function removeOldBackups(identity: string, places: Places): Backup[] {
  const folder = folderOf(identity, places);
  const old = backupsToRemove(listBackups(identity, places), timeOf(places));
  for (const { id } of old) {
    discard(join(folder, id));
    rmSync(join(folder, `${id}.json`), { force: true });
  }
  return old;
}

function describe(folder: string, id: string, places: Places): Backup | null {
  const named = fileName.exec(id);
  const stats = lstatSync(join(folder, id), { throwIfNoEntry: false });
  if (named === null || stats === undefined || !stats.isFile()) return null;
  const [, day, hour, minute, rest, why] = named;
  const note = readNote(folder, id) ?? examine(folder, id, places);
  return {
    id,
    at: `${day}${hour}:${minute}:${rest}`,
    bytes: stats.size,
    runs: note.runs,
    edits: note.edits,
    why: why as Backup["why"],
    sound: note.sound,
  };
}

function readNote(folder: string, id: string): BackupNote | null {
  try {
    const note = JSON.parse(readFileSync(join(folder, `${id}.json`), "utf8")) as BackupNote;
    const { size, mtimeMs } = lstatSync(join(folder, id));
    return note.bytes === size && note.changedAt === mtimeMs ? note : null;
  } catch {
    return null;
  }
}

/** A backup that changed since it was made, or whose note is lost: what it holds now is what counts. */
function examine(folder: string, id: string, places: Places): Pick<BackupNote, "runs" | "edits" | "sound"> {
  try {
    const found = { ...checkCopy(join(folder, id), places), sound: true, of: "" };
    noteDown(folder, id, found);
    return found;
  } catch {
    return { runs: 0, edits: 0, sound: false };
  }
}

function noteDown(folder: string, id: string, note: Omit<BackupNote, "bytes" | "changedAt">): void {
  const { size, mtimeMs } = lstatSync(join(folder, id));
  try {
    writeWhole(join(folder, `${id}.json`), JSON.stringify({ ...note, bytes: size, changedAt: mtimeMs }));
  } catch {
    // The backup is whole without it; it is examined anew when it is listed.
  }
}

function freeName(folder: string, from: Date, why: Backup["why"]): string {
  const taken = readdirSync(folder);
  for (let time = from.getTime(); ; time++) {
    const stamp = new Date(time).toISOString().replaceAll(":", "-");
    if (!taken.some((name) => name.startsWith(stamp))) return `${stamp}-${why}.boilstudy`;
  }
}

/** Takes away what programs that died left of a study's backups, where it has any. Never a reason not to open it. */
export function sweepBackups(identity: string, places: Places): void {
  try {
    if (isThere(join(places.dataFolder, "backups", nameOf(identity)))) removeUnfinished(folderOf(identity, places));
  } catch {
    // The next backup says what is wrong with the folder.
  }
}

/** What a process that died left of a backup; one that lives may be at it. */
function removeUnfinished(folder: string): void {
  removeLeftovers(folder);
  for (const name of readdirSync(folder)) {
    const owner = /^unfinished-(\d{1,10})-[0-9a-f]{12}\.part$/.exec(name)?.[1];
    if (owner !== undefined && !isAlive(Number(owner))) discard(join(folder, name));
  }
}
