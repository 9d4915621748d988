import { createHash } from "node:crypto";
import { accessSync, constants, readFileSync, rmSync } from "node:fs";
import { hostname } from "node:os";
import { dirname, join } from "node:path";
import { DatabaseSync } from "node:sqlite";
import { StoreFault } from "../fault.ts";
import { diskFault, removeLeftovers, writeWhole } from "./disk.ts";
import type { Holder } from "./opened-file.ts";
import { ownFolder, type Places, timeOf } from "./places.ts";

/**
 * Who may write a study: one process of all that share a data folder. The lock is a transaction on a small SQLite file, held open as
 * long as the study is. The operating system lets it go when the process ends, however it ends: a lock is never stale, and
 * nobody has to judge whether one is.
 */
export interface StudyLock {
  /** Tells others who writes now. */
  isHeldBy(who: string): void;
  release(): void;
}

export type LockAttempt = { readonly lock: StudyLock } | { readonly holder: Holder | null };

/** SQLite's code for a lock that another has. */
const busy = 5;
/** Long enough for two that try at once to sort it out, short enough to wait for. */
const patience = 300;
const heldHere = new Set<string>();

/** @throws {StoreFault} "inUse" where this process has the study open already. */
export function takeLock(realPath: string, places: Places): LockAttempt {
  const name = createHash("sha256").update(realPath).digest("hex");
  const path = join(ownFolder(places, "locks"), `${name}.lock`);
  const holderPath = join(places.dataFolder, "locks", `${name}.json`);
  if (heldHere.has(path)) throw new StoreFault("inUse", realPath);

  const connection = openLock(path);
  try {
    // With its journal in memory nothing of it is ever written: a full disk keeps no study shut.
    connection.exec("PRAGMA journal_mode = MEMORY; BEGIN EXCLUSIVE");
  } catch (error) {
    connection.close();
    if (error instanceof Error && "errcode" in error && error.errcode === busy)
      return { holder: readHolder(holderPath) };
    throw error;
  }
  heldHere.add(path);
  const since = timeOf(places).toISOString();
  let told = places.who;
  sayWhoHolds(holderPath, told, since);
  const isHeldBy = (who: string) => {
    if (who === told || !heldHere.has(path)) return;
    told = who;
    sayWhoHolds(holderPath, who, since);
  };
  const release = () => {
    if (!heldHere.delete(path)) return;
    rmSync(holderPath, { force: true });
    connection.close();
  };
  return { lock: { isHeldBy, release } };
}

/** A lock file that may not be written to would be opened to read, and its transaction would keep nobody off. */
function openLock(path: string): DatabaseSync {
  let connection: DatabaseSync | null = null;
  try {
    connection = new DatabaseSync(path, { timeout: patience });
    accessSync(path, constants.W_OK);
    return connection;
  } catch (error) {
    connection?.close();
    throw new StoreFault("ownFolder", diskFault(error).detail, { cause: error });
  }
}

/** The name is a courtesy: a full disk must not keep a study shut. What a dead process left must not be believed, though. */
function sayWhoHolds(holderPath: string, who: string, since: string): void {
  const holder: Holder = { who, process: process.pid, machine: hostname(), since };
  try {
    removeLeftovers(dirname(holderPath), holderPath);
    rmSync(holderPath, { force: true });
    writeWhole(holderPath, JSON.stringify(holder));
  } catch {}
}

function readHolder(path: string): Holder | null {
  try {
    const read: unknown = JSON.parse(readFileSync(path, "utf8"));
    if (typeof read !== "object" || read === null) return null;
    const { who, process: id, machine, since } = read as Record<string, unknown>;
    if (typeof who !== "string" || typeof machine !== "string" || typeof since !== "string") return null;
    return typeof id === "number" ? { who, process: id, machine, since } : null;
  } catch {
    return null;
  }
}
