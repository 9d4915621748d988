import { createHash } from "node:crypto";
import {
  chmodSync,
  closeSync,
  constants,
  copyFileSync,
  createReadStream,
  lstatSync,
  openSync,
  readSync,
  writeSync,
} from "node:fs";
import { copyFile } from "node:fs/promises";
import { backup, DatabaseSync } from "node:sqlite";
import { StoreFault } from "../fault.ts";
import { allPages } from "../study-database.ts";
import { discard, diskFault, hasJournal, isThere, syncFile } from "./disk.ts";

/** How long a copy waits for an edit of another process to end, in milliseconds. */
const patience = 5_000;

/** A study whose connection can be copied. */
export interface Copyable {
  copyTo(to: string): Promise<void>;
}

/**
 * A whole copy of a study that is open, here or in another process, through SQLite's own backup: what was confirmed before it began
 * is in it, nothing half. The source is only read. `from`: its path, or the open study itself, where its file has lost its name.
 * Nothing is left behind where it fails.
 */
export async function snapshot(from: string | Copyable, to: string): Promise<void> {
  try {
    await (typeof from === "string" ? copyOfFile(from, to) : from.copyTo(to));
    chmodSync(to, 0o600);
    syncFile(to);
  } catch (error) {
    discard(to);
    // A source that stays locked makes the backup end without a code.
    if (error instanceof Error && "errcode" in error && error.errcode === 0) throw new StoreFault("inUse", to);
    throw diskFault(error);
  }
}

async function copyOfFile(from: string, to: string): Promise<void> {
  if (!isThere(from)) throw new StoreFault("gone", from);
  const source = new DatabaseSync(from, { readOnly: true, timeout: patience });
  try {
    await backup(source, to, { rate: allPages });
  } finally {
    source.close();
  }
}

/**
 * The same at once, for the view of a study that another process writes: the bytes, read while a read lock keeps writers off.
 * Not for a file that this process has open: to close a file lets go all locks that the process has on it.
 */
export function copyUnderReadLock(from: string, to: string): void {
  const source = new DatabaseSync(from, { readOnly: true, timeout: patience });
  try {
    source.exec("BEGIN; PRAGMA user_version");
    copyBytesOf(from, to, () => source.exec("COMMIT"));
  } catch (error) {
    discard(to);
    throw diskFault(error);
  } finally {
    source.close();
  }
}

function copyBytesOf(from: string, to: string, whenRead: () => void): void {
  const source = openSync(from, constants.O_RDONLY | (constants.O_NOFOLLOW ?? 0));
  try {
    const target = openSync(to, "wx", 0o600);
    try {
      const buffer = new Uint8Array(1 << 20);
      for (;;) {
        const count = readSync(source, buffer, 0, buffer.length, null);
        if (count === 0) break;
        let written = 0;
        while (written < count) written += writeSync(target, buffer, written, count - written);
      }
      whenRead();
    } finally {
      closeSync(target);
    }
  } finally {
    closeSync(source);
  }
}

/**
 * The bytes of a study that SQLite is not to touch, with the journal that lies beside it: what a cut-off edit left can be put
 * right in the copy. For files that nobody writes.
 */
export function copyWithJournal(from: string, to: string): void {
  try {
    if (hasJournal(from)) {
      copyFileSync(`${from}-journal`, `${to}-journal`, constants.COPYFILE_EXCL);
      chmodSync(`${to}-journal`, 0o600);
    }
    copyFileSync(from, to, constants.COPYFILE_EXCL);
    chmodSync(to, 0o600);
  } catch (error) {
    discard(to);
    throw diskFault(error);
  }
}

/** Writes a file that is not there yet and makes sure that it is on disk, byte by byte; gives its SHA-256. */
export async function copyAndCheck(from: string, to: string, mode: number): Promise<string> {
  try {
    await copyFile(from, to, constants.COPYFILE_EXCL);
    chmodSync(to, mode);
    syncFile(to);
    const [wanted, written] = [await digestOf(from), await digestOf(to)];
    if (wanted !== written) throw new StoreFault("unreadable", `${to}: not what was written`);
    return wanted;
  } catch (error) {
    discard(to);
    throw diskFault(error);
  }
}

/** SHA-256 of a file's bytes, in hexadecimal. */
export async function digestOf(path: string): Promise<string> {
  const hash = createHash("sha256");
  for await (const chunk of createReadStream(path)) hash.update(chunk);
  return hash.digest("hex");
}

/** What tells that a file changed: its identity, size, time, and SQLite's count of transactions, which no clock can blur. */
export function stampOf(path: string): string {
  const { dev, ino, size, mtimeNs } = lstatSync(path, { bigint: true });
  const file = openSync(path, constants.O_RDONLY | (constants.O_NONBLOCK ?? 0) | (constants.O_NOFOLLOW ?? 0));
  try {
    const counter = new Uint8Array(4);
    readSync(file, counter, 0, 4, 24);
    return [dev, ino, size, mtimeNs, ...counter].join(":");
  } finally {
    closeSync(file);
  }
}
