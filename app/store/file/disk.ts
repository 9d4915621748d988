import { randomBytes } from "node:crypto";
import {
  closeSync,
  constants,
  fstatSync,
  fsyncSync,
  linkSync,
  lstatSync,
  openSync,
  readdirSync,
  readSync,
  realpathSync,
  renameSync,
  rmSync,
  type Stats,
  statfsSync,
  unlinkSync,
  writeFileSync,
} from "node:fs";
import { basename, dirname, join } from "node:path";
import { asFault, StoreFault } from "../fault.ts";
import { type FileFacts, headerBytes } from "./inspect-header.ts";
import { type Place, placeOf } from "./place-of.ts";
import type { Places } from "./places.ts";

/** Which file lies at a path, told apart from one that is put in its place. */
export type FileIdentity = string;

export function fileIdentity(path: string): FileIdentity {
  const { dev, ino } = lstatSync(path, { bigint: true });
  return `${dev}:${ino}`;
}

/** The real path of a file that is there: no links, in the spelling of the disk. @throws {StoreFault} "gone" */
export function realPathOf(path: string): string {
  try {
    return realpathSync.native(path);
  } catch (error) {
    throw diskFault(error);
  }
}

/**
 * The first bytes of a regular file and what lies beside it. Opened without waiting, so that a pipe that was put at the path
 * cannot hold the program up. @throws {StoreFault} "notAStudy" where it is no regular file.
 */
export function factsOf(realPath: string): FileFacts & { readonly stats: Stats } {
  if (!lstatSync(realPath).isFile()) throw new StoreFault("notAStudy", realPath);
  const file = openSync(realPath, constants.O_RDONLY | (constants.O_NONBLOCK ?? 0) | (constants.O_NOFOLLOW ?? 0));
  try {
    const stats = fstatSync(file);
    if (!stats.isFile()) throw new StoreFault("notAStudy", realPath);
    const buffer = new Uint8Array(headerBytes);
    const head = buffer.subarray(0, readSync(file, buffer, 0, headerBytes, 0));
    return {
      head,
      size: stats.size,
      journal: hasJournal(realPath),
      stray: strayBeside(realPath),
      stats,
    };
  } finally {
    closeSync(file);
  }
}

function strayBeside(path: string): string | null {
  if (isThere(`${path}-wal`)) return `${basename(path)}-wal`;
  const journal = lstatSync(`${path}-journal`, { throwIfNoEntry: false });
  return journal === undefined || journal.isFile() ? null : `${basename(path)}-journal`;
}

/** A rollback journal that SQLite would play back: it is not empty, and its first byte was not wiped. */
export function hasJournal(path: string): boolean {
  const journal = `${path}-journal`;
  try {
    if (!lstatSync(journal).isFile()) return false;
    const file = openSync(journal, constants.O_RDONLY | (constants.O_NONBLOCK ?? 0) | (constants.O_NOFOLLOW ?? 0));
    try {
      const first = new Uint8Array(1);
      return readSync(file, first, 0, 1, 0) === 1 && first[0] !== 0;
    } finally {
      closeSync(file);
    }
  } catch (error) {
    if (codeOf(error) === "ENOENT") return false;
    throw error;
  }
}

export function placeOfFile(realPath: string, places: Places): Place {
  let fileSystem: number | null = null;
  try {
    fileSystem = statfsSync(dirname(realPath)).type;
  } catch {
    // Not known; the name still tells.
  }
  return (places.placeOf ?? placeOf)(realPath, { fileSystem, platform: process.platform });
}

const temporaryMark = ".boilbench-part";

/** A name for a file that is not whole yet, in the folder of the one that it will be. */
export function temporaryBeside(path: string): string {
  return join(dirname(path), `.${basename(path)}.${randomBytes(6).toString("hex")}${temporaryMark}`);
}

const anHour = 3_600_000;

/**
 * Takes away what programs that died left half-written in a folder. Nobody takes an hour to write a file; of `own`, which only who
 * calls this may be writing, everything goes.
 */
export function removeLeftovers(folder: string, own: string | null = null): void {
  const before = Date.now() - anHour;
  for (const name of readdirSync(folder)) {
    if (!name.startsWith(".") || !name.includes(temporaryMark)) continue;
    const path = join(folder, name);
    try {
      const isOwn = own !== null && name.startsWith(`.${basename(own)}.`);
      if (isOwn || lstatSync(path).mtimeMs < before) unlinkSync(path);
    } catch {
      // Another program's, or gone by now: no reason not to go on.
    }
  }
}

/** Removes a file that is not to be, with what SQLite made beside it. What keeps it from that says less than what led here. */
export function discard(path: string): void {
  for (const name of [path, `${path}-journal`, `${path}-wal`, `${path}-shm`]) {
    try {
      rmSync(name, { force: true });
    } catch {
      // A folder that is no more, or may not be written to.
    }
  }
}

/** Gives a whole file its name. @throws {StoreFault} "exists" where something lies there: nothing is ever overwritten. */
export function publish(temporary: string, path: string): void {
  try {
    // A second name cannot be given where something lies: no moment in which another's file could be overwritten.
    linkSync(temporary, path);
  } catch (error) {
    if (codeOf(error) === "EEXIST" || isThere(path)) throw new StoreFault("exists", path);
    // A file system without second names (a stick, some network places).
    renameSync(temporary, path);
  }
  rmSync(temporary, { force: true });
  syncFolder(dirname(path));
}

/** Puts a whole file in the place of another. */
export function replace(temporary: string, path: string): void {
  renameSync(temporary, path);
  syncFolder(dirname(path));
}

/** A small file of the program's own: the old or the new, never half of one. */
export function writeWhole(path: string, text: string): void {
  const temporary = temporaryBeside(path);
  try {
    writeFileSync(temporary, text, { mode: 0o600, flag: "wx", flush: true });
    replace(temporary, path);
  } catch (error) {
    discard(temporary);
    throw error;
  }
}

export function syncFile(path: string): void {
  const file = openSync(path, "r+");
  try {
    fsyncSync(file);
  } finally {
    closeSync(file);
  }
}

/** A name is on disk once its folder is. Windows cannot, and does not need to. */
function syncFolder(path: string): void {
  if (process.platform === "win32") return;
  const folder = openSync(path, "r");
  try {
    fsyncSync(folder);
  } catch (error) {
    // Some network places have no such thing.
    if (codeOf(error) !== "EINVAL" && codeOf(error) !== "ENOTSUP") throw error;
  } finally {
    closeSync(folder);
  }
}

export function isThere(path: string): boolean {
  return lstatSync(path, { throwIfNoEntry: false }) !== undefined;
}

export function codeOf(error: unknown): string | null {
  return error instanceof Error && "code" in error && typeof error.code === "string" ? error.code : null;
}

/** Errors of a file system that are told apart no further than that the way to the file is no more, or that it fails. */
const lostWays = new Set([
  "ENOTDIR",
  "ELOOP",
  "ENOTCONN",
  "EHOSTDOWN",
  "EHOSTUNREACH",
  "ENETDOWN",
  "ENETUNREACH",
  "ETIMEDOUT",
]);

/** `asFault`, for all that a file system can answer. */
export function diskFault(error: unknown): StoreFault {
  const code = codeOf(error);
  if (code !== null && lostWays.has(code)) return new StoreFault("gone", (error as Error).message, { cause: error });
  try {
    return asFault(error);
  } catch {
    if (error instanceof Error && ("syscall" in error || "errcode" in error)) {
      return new StoreFault("unreadable", error.message, { cause: error });
    }
    throw error;
  }
}
