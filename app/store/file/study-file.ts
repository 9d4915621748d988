import { randomBytes } from "node:crypto";
import { accessSync, constants, truncateSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { DatabaseSync } from "node:sqlite";
import { setTimeout } from "node:timers/promises";
import { StoreFault } from "../fault.ts";
import { StudyDatabase } from "../study-database.ts";
import { makeBackup, sweepBackups } from "./backups.ts";
import { checkPages } from "./check-copy.ts";
import { discard, diskFault, factsOf, isThere, placeOfFile, realPathOf, removeLeftovers } from "./disk.ts";
import { type Inspection, inspectHeader } from "./inspect-header.ts";
import { type StudyLock, takeLock } from "./lock.ts";
import { OpenFile } from "./open-file.ts";
import type { FileNote, Holder, NewStudy, OpenedFile, ReadOnlyReason } from "./opened-file.ts";
import { placeNew } from "./place-new.ts";
import { newestVersion, openingOf, type Places } from "./places.ts";
import { makePrivateFolder, removePrivateFolder, sweepPrivateFolders } from "./private-folder.ts";
import { copyUnderReadLock, copyWithJournal, snapshot } from "./snapshot.ts";
import { WorkingCopy, workingCopyOf } from "./working-copy.ts";

/** A head that asks for more is itself damaged. */
const largestFilledUp = 2 ** 30;

type Shown = Extract<Inspection, { is: "study" | "damaged" | "newer" }>;

/**
 * Makes a new study at a path where nothing lies, and opens it. `fill` gives it its first content before it is put there: it
 * is there whole, or not at all. @throws {StoreFault} "exists", "full", "readOnlyPlace", …
 */
export async function createStudyFile(
  path: string,
  study: NewStudy,
  places: Places,
  fill?: (database: StudyDatabase) => void,
): Promise<OpenedFile> {
  const real = await madePrivately(path, places, (made) => {
    const { who, program } = places;
    const database = StudyDatabase.create(made, { ...study, who, program }, openingOf(places, false));
    try {
      fill?.(database);
    } finally {
      database.close();
    }
  });
  return openStudyFile(real, places);
}

/** Puts the bytes of a study where nothing lies, whole or not at all. Gives its real path. @throws {StoreFault} as above */
export function receiveStudyFile(path: string, bytes: Uint8Array, places: Places): Promise<string> {
  return madePrivately(path, places, (made) => writeFileSync(made, bytes, { flag: "wx", mode: 0o600 }));
}

/** A file that is made in the program's own folder and then put where nothing lies. */
async function madePrivately(path: string, places: Places, make: (at: string) => void): Promise<string> {
  const folder = makePrivate(places);
  try {
    if (isThere(path)) throw new StoreFault("exists", path);
    const made = join(folder, "study.boilstudy");
    make(made);
    return await placeNew(made, path);
  } catch (error) {
    throw diskFault(error);
  } finally {
    removePrivateFolder(folder);
  }
}

/** Opens a study. @throws {StoreFault} where nothing of it can be shown. */
export async function openStudyFile(path: string, places: Places): Promise<OpenedFile> {
  try {
    sweepPrivateFolders(places);
    const real = realPathOf(path);
    const attempt = takeLock(real, places);
    const lock = "lock" in attempt ? attempt.lock : null;
    try {
      if (lock === null) return await openHeld(real, "holder" in attempt ? attempt.holder : null, places);
      return await openUnderLock(real, inspect(real, places), lock, places);
    } catch (error) {
      lock?.release();
      throw error;
    }
  } catch (error) {
    throw diskFault(error);
  }
}

async function openUnderLock(real: string, found: Shown, lock: StudyLock, places: Places): Promise<OpenedFile> {
  if (found.is !== "study") return openPrivately(real, obstacleOf(found), lock, places);
  const obstacle = whyNotWritable(real);
  if (obstacle !== null) return openPrivately(real, { because: "readOnlyPlace", detail: obstacle }, lock, places);
  try {
    const notes: FileNote[] = found.hotJournal ? [{ note: "recovered", detail: real }] : [];
    if (placeOfFile(real, places) !== "local") return await openWorkingCopy(real, notes, lock, places);
    removeLeftovers(dirname(real), real);
    if (found.hotJournal) rehearseRecovery(real, places);
    const database = await openToWrite(real, real, found.hotJournal, notes, places);
    return new OpenFile({ path: real, at: real, database, readOnly: null, notes, lock, places });
  } catch (error) {
    const fault = diskFault(error);
    if (fault.code !== "damaged" && fault.code !== "newer" && fault.code !== "readOnlyPlace") throw fault;
    // What the head did not tell. The file is only read from here on.
    return openPrivately(real, { because: fault.code, detail: fault.detail }, lock, places);
  }
}

async function openWorkingCopy(real: string, notes: FileNote[], lock: StudyLock, places: Places) {
  // On a network another machine may be writing right now.
  removeLeftovers(dirname(real));
  const working = await WorkingCopy.take(real, places);
  notes.push(...working.notes);
  const database = await openToWrite(working.path, real, true, notes, places);
  working.opened(database);
  return new OpenFile({ path: real, at: working.path, database, readOnly: null, notes, lock, places, working });
}

/** Opens what is ours to write, at `at`: the study `of` or its working copy. */
async function openToWrite(at: string, of: string, hotJournal: boolean, notes: FileNote[], places: Places) {
  if (hotJournal) recover(at);
  const now = inspectHeader(factsOf(at), newestVersion(places));
  const version = now.is === "study" ? now.version : newestVersion(places);
  if (version < newestVersion(places)) {
    await backUpBeforeMigration(at, of, places);
    notes.push({ note: "migrated", detail: String(version) });
  }
  const database = StudyDatabase.open(at, {
    ...openingOf(places, false),
    beforeMigrating: (from) => {
      // The backup was made above. Whatever finds its way past it must not change the file.
      if (from !== version) throw new StoreFault("refused", `no backup was made of version ${from}`);
    },
  });
  sweepBackups(database.identity, places);
  return database;
}

async function backUpBeforeMigration(at: string, of: string, places: Places): Promise<void> {
  const folder = makePrivateFolder(places);
  try {
    // Only the study's identity is wanted, and only a study of our layout can be asked: a copy is brought to it.
    const copy = join(folder, "study.boilstudy");
    copyUnderReadLock(at, copy);
    const database = StudyDatabase.open(copy, openingOf(places, false));
    const { identity } = database;
    database.close();
    await makeBackup((to) => snapshot(at, to), of, identity, "beforeMigration", places);
  } finally {
    removePrivateFolder(folder);
  }
}

/** A cut-off edit is taken back in a copy first: if that leads to a broken file, the original and its journal stay as they are. */
function rehearseRecovery(real: string, places: Places): void {
  const folder = makePrivateFolder(places);
  try {
    const copy = join(folder, "study.boilstudy");
    copyWithJournal(real, copy);
    recover(copy);
    checkPages(copy, "quick_check");
  } finally {
    removePrivateFolder(folder);
  }
}

/** SQLite takes back a cut-off edit by itself on the first look into the file. */
function recover(path: string): void {
  const connection = new DatabaseSync(path, { defensive: true, timeout: 5_000 });
  try {
    connection.exec("PRAGMA user_version");
  } finally {
    connection.close();
  }
}

/**
 * A study that another process writes: a copy of it as it is now. In the midst of an edit its head and its size need not agree: what
 * seems damaged is looked at again.
 */
async function openHeld(real: string, holder: Holder | null, places: Places): Promise<OpenedFile> {
  // Where the other program works on a copy, that has its edits first.
  const source = () => workingCopyOf(real, places) ?? real;
  let found = inspect(source(), places);
  for (let look = 1; found.is === "damaged" && look < 5; look++) {
    await setTimeout(20);
    found = inspect(source(), places);
  }
  const reason: ReadOnlyReason = found.is === "study" ? { because: "held", holder } : obstacleOf(found);
  return openCopy(real, reason, null, places, (to) => copyHeld(source(), to), source);
}

function obstacleOf(found: Extract<Shown, { is: "damaged" | "newer" }>): ReadOnlyReason {
  return { because: found.is, detail: found.is === "newer" ? String(found.version) : found.detail };
}

/** Of a writer that died while another process took the lock the journal is left: then there is nobody who writes. */
function copyHeld(source: string, to: string): void {
  try {
    copyUnderReadLock(source, to);
  } catch (error) {
    const { code } = diskFault(error);
    if (code !== "readOnlyPlace" && code !== "unreadable") throw error;
    copyWithJournal(source, to);
  }
}

function openPrivately(real: string, readOnly: ReadOnlyReason, lock: StudyLock | null, places: Places): OpenedFile {
  return openCopy(real, readOnly, lock, places, (to) => copyWithJournal(real, to), null);
}

function openCopy(
  path: string,
  readOnly: ReadOnlyReason,
  lock: StudyLock | null,
  places: Places,
  copyTo: (to: string) => void,
  source: (() => string) | null,
): OpenedFile {
  const folder = makePrivateFolder(places);
  const make = () => {
    const at = join(folder, `${randomBytes(6).toString("hex")}.boilstudy`);
    try {
      copyTo(at);
      return { at, database: openCopied(at, readOnly, places) };
    } catch (error) {
      discard(at);
      throw error;
    }
  };
  try {
    const view = { folder, source, make };
    return new OpenFile({ path, ...make(), readOnly, notes: [], lock, places, view });
  } catch (error) {
    removePrivateFolder(folder);
    throw error;
  }
}

/** A private copy may be put right and brought to our layout where that can be done; what is damaged or newer is left as it is. */
function openCopied(at: string, { because }: ReadOnlyReason, places: Places): StudyDatabase {
  if (because === "held" || because === "readOnlyPlace") {
    StudyDatabase.open(at, openingOf(places, false)).close();
  } else if (factsOf(at).journal) {
    recover(at);
  }
  if (because !== "damaged") return StudyDatabase.open(at, openingOf(places, true));
  fillUp(at);
  return StudyDatabase.open(at, { ...openingOf(places, true), salvage: true });
}

/** A copy of a file that was cut short gets empty pages for those that are missing: SQLite reads nothing of it otherwise. */
function fillUp(copy: string): void {
  const { head, size } = factsOf(copy);
  if (head.length < 100) return;
  const fields = new DataView(head.buffer, head.byteOffset, head.byteLength);
  // Page size and number of pages: sqlite.org/fileformat.html, 1.3.
  const pageSize = fields.getUint16(16);
  const wanted = (pageSize === 1 ? 65_536 : pageSize) * fields.getUint32(28);
  if (wanted > size && wanted <= largestFilledUp) truncateSync(copy, wanted);
}

function inspect(real: string, places: Places): Shown {
  const found = inspectHeader(factsOf(real), newestVersion(places));
  if (found.is === "study" || found.is === "damaged" || found.is === "newer") return found;
  throw new StoreFault(found.is, "detail" in found ? found.detail : real);
}

/** Null where a study can be written: SQLite needs its folder as well, for the journal. */
function whyNotWritable(real: string): string | null {
  for (const path of [real, dirname(real)]) {
    try {
      accessSync(path, constants.W_OK);
    } catch {
      return path;
    }
  }
  return null;
}

function makePrivate(places: Places): string {
  try {
    sweepPrivateFolders(places);
    return makePrivateFolder(places);
  } catch (error) {
    throw diskFault(error);
  }
}
