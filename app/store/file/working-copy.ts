import { createHash } from "node:crypto";
import { chmodSync, lstatSync, readFileSync, renameSync, rmSync } from "node:fs";
import { join } from "node:path";
import { StoreFault } from "../fault.ts";
import { StudyDatabase } from "../study-database.ts";
import { markOf } from "./check-copy.ts";
import { discard, diskFault, isThere, removeLeftovers, replace, temporaryBeside, writeWhole } from "./disk.ts";
import type { FileNote } from "./opened-file.ts";
import { openingOf, ownFolder, type Places, timeOf } from "./places.ts";
import { copyAndCheck, copyWithJournal, digestOf, snapshot } from "./snapshot.ts";

/** The original as it was last seen: read, or written by this program. */
interface Seen {
  readonly size: number;
  readonly changedAt: number;
  readonly sha256: string;
  /** State of the study that it holds; null until the working copy was opened for the first time. */
  readonly mark: string | null;
}

interface WorkingState {
  readonly original: string;
  readonly seen: Seen;
  /** What is being written to it: if the program dies now, it may be the one or the other. */
  readonly pending: Seen | null;
}

/**
 * The copy that is worked on where the original lies on a network or in a synced folder. It lies under the digest of the original's
 * path, as two copies of one study have one identity. What was edited is in it until the original has it.
 */
export class WorkingCopy {
  readonly path: string;
  readonly notes: FileNote[] = [];
  readonly #folder: string;
  readonly #places: Places;
  #state: WorkingState;

  private constructor(folder: string, state: WorkingState, places: Places) {
    this.#folder = folder;
    this.path = workingPath(folder);
    this.#state = state;
    this.#places = places;
  }

  /** Takes up the copy that is there if the original is as it was left, and makes one anew otherwise. To be called under the lock. */
  static async take(original: string, places: Places): Promise<WorkingCopy> {
    const folder = folderOf(original, places);
    removeLeftovers(folder, statePath(folder));
    discard(outgoingPath(folder));
    const left = readState(folder, original);
    const working = workingPath(folder);
    if (left !== null && isThere(working)) {
      const now = await look(original);
      const known = [left.seen, left.pending].find((each) => each?.sha256 === now.sha256);
      const state = stateIn(working, places);
      if (known !== undefined && known !== null && state !== null) {
        const seen: Seen = { ...known, size: now.size, changedAt: now.changedAt };
        const copy = new WorkingCopy(folder, { original, seen, pending: null }, places);
        const unwritten = known.mark !== null && state !== known.mark;
        copy.notes.push({ note: unwritten ? "workingCopyTakenUp" : "workingCopy", detail: working });
        return copy;
      }
    }
    const aside = isThere(working) ? setAside(folder, left, places) : null;
    discard(working);
    const copy = new WorkingCopy(folder, await copyOriginal(original, folder), places);
    if (aside !== null) copy.notes.push({ note: "workingCopySetAside", detail: aside });
    copy.notes.push({ note: "workingCopy", detail: working });
    return copy;
  }

  /** The state that the original holds becomes known with the first opening. */
  opened(database: StudyDatabase): void {
    if (this.#state.seen.mark === null) {
      this.#remember({ ...this.#state, seen: { ...this.#state.seen, mark: markOf(database) } });
    }
  }

  /** Whether the original lacks something. */
  isUnwritten(database: StudyDatabase): boolean {
    return markOf(database) !== this.#state.seen.mark;
  }

  /** @throws {StoreFault} "changedOutside" where the original is not as it was left; "gone", "full", … Nothing is lost by it. */
  async writeBack(): Promise<void> {
    const { original, seen } = this.#state;
    const outgoing = outgoingPath(this.#folder);
    let temporary: string | null = null;
    try {
      const before = await look(original);
      if (before.sha256 !== seen.sha256) throw new StoreFault("changedOutside", original);
      discard(outgoing);
      await snapshot(this.path, outgoing);
      const mark = stateIn(outgoing, this.#places);
      if (mark === null) throw new StoreFault("damaged", this.path);

      temporary = temporaryBeside(original);
      const sha256 = await copyAndCheck(outgoing, temporary, before.mode);
      const { size, mtimeMs: changedAt } = lstatSync(temporary);
      const next: Seen = { size, changedAt, sha256, mark };
      this.#remember({ ...this.#state, pending: next });
      // Others had time to write while the copy was made.
      const after = lstatSync(original);
      if (after.size !== before.size || after.mtimeMs !== before.changedAt) {
        throw new StoreFault("changedOutside", original);
      }
      // A journal of a cut-off edit was taken in with the working copy. Played back into the new file it would destroy it.
      rmSync(`${original}-journal`, { force: true });
      replace(temporary, original);
      this.#remember({ original, seen: next, pending: null });
    } catch (error) {
      if (temporary !== null) discard(temporary);
      throw diskFault(error);
    } finally {
      discard(outgoing);
    }
  }

  /** To be called once the original has everything. Files that were set aside stay. */
  remove(): void {
    rmSync(statePath(this.#folder), { force: true });
    discard(this.path);
  }

  #remember(state: WorkingState): void {
    writeWhole(statePath(this.#folder), JSON.stringify(state));
    this.#state = state;
  }
}

/** Where the working copy of an original lies if it has one just now. */
export function workingCopyOf(original: string, places: Places): string | null {
  const folder = folderOf(original, places);
  return isThere(workingPath(folder)) && isThere(statePath(folder)) ? workingPath(folder) : null;
}

async function copyOriginal(original: string, folder: string): Promise<WorkingState> {
  const working = workingPath(folder);
  for (let attempt = 1; ; attempt++) {
    const before = await look(original);
    copyWithJournal(original, working);
    if ((await digestOf(working)) === before.sha256) {
      const { size, changedAt, sha256 } = before;
      const state: WorkingState = { original, seen: { size, changedAt, sha256, mark: null }, pending: null };
      writeWhole(statePath(folder), JSON.stringify(state));
      return state;
    }
    discard(working);
    if (attempt === 3) throw new StoreFault("inUse", `${original}: it changes while it is read`);
  }
}

/**
 * A working copy that does not go with its original any more. Kept if there may be something in it that nothing else has: its
 * new path. Null where there is nothing.
 */
function setAside(folder: string, state: WorkingState | null, places: Places): string | null {
  const working = workingPath(folder);
  // Without a state it was not open yet: the state is written before the first edit can be made.
  if (state === null && !isThere(statePath(folder))) return null;
  if (state !== null && (state.seen.mark === null || stateIn(working, places) === state.seen.mark)) return null;
  const aside = join(folder, `aside-${timeOf(places).toISOString().replaceAll(":", "-")}.boilstudy`);
  if (isThere(`${working}-journal`)) renameSync(`${working}-journal`, `${aside}-journal`);
  renameSync(working, aside);
  return aside;
}

/** The state of the study in a file of the program's own; null where it cannot be opened. What was cut off is rolled back. */
function stateIn(path: string, places: Places): string | null {
  try {
    const database = StudyDatabase.open(path, openingOf(places, false));
    try {
      return markOf(database);
    } finally {
      database.close();
    }
  } catch {
    return null;
  }
}

async function look(original: string): Promise<Omit<Seen, "mark"> & { readonly mode: number }> {
  try {
    const sha256 = await digestOf(original);
    const { size, mtimeMs, mode } = lstatSync(original);
    return { size, changedAt: mtimeMs, sha256, mode: mode & 0o777 };
  } catch (error) {
    throw diskFault(error);
  }
}

function folderOf(original: string, places: Places): string {
  const path = ownFolder(places, "working", createHash("sha256").update(original).digest("hex"));
  chmodSync(path, 0o700);
  return path;
}

function workingPath(folder: string): string {
  return join(folder, "study.boilstudy");
}

function outgoingPath(folder: string): string {
  return join(folder, "outgoing.boilstudy");
}

function statePath(folder: string): string {
  return join(folder, "state.json");
}

/** Null where there is none, or one that says nothing of this original. */
function readState(folder: string, original: string): WorkingState | null {
  try {
    const state = JSON.parse(readFileSync(statePath(folder), "utf8")) as WorkingState;
    return state.original === original && typeof state.seen.sha256 === "string" ? state : null;
  } catch {
    return null;
  }
}
