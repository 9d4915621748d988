import { randomBytes } from "node:crypto";
import { lstatSync } from "node:fs";
import { readFile } from "node:fs/promises";
import { join } from "node:path";
import { asFault, StoreFault } from "../fault.ts";
import type { StudyDatabase } from "../study-database.ts";
import type { Backup } from "./backup.ts";
import { makeBackup, statesBackedUp } from "./backups.ts";
import { checkThatItOpens, markOf } from "./check-copy.ts";
import { codeOf, discard, diskFault, type FileIdentity, fileIdentity, isThere } from "./disk.ts";
import type { StudyLock } from "./lock.ts";
import type { FileNote, OpenedFile, ReadOnlyReason } from "./opened-file.ts";
import { placeNew } from "./place-new.ts";
import type { Places } from "./places.ts";
import { makePrivateFolder, removePrivateFolder } from "./private-folder.ts";
import { type Copyable, snapshot, stampOf } from "./snapshot.ts";
import type { WorkingCopy } from "./working-copy.ts";

/** A private copy, and how to make it anew. */
interface View {
  readonly folder: string;
  /** The file that is looked at for changes; null where none are expected. */
  readonly source: (() => string) | null;
  readonly make: () => { readonly at: string; readonly database: StudyDatabase };
}

interface Opening {
  readonly path: string;
  /** Where `database` lies. */
  readonly at: string;
  readonly database: StudyDatabase;
  readonly readOnly: ReadOnlyReason | null;
  readonly notes: readonly FileNote[];
  readonly lock: StudyLock | null;
  readonly places: Places;
  readonly working?: WorkingCopy;
  readonly view?: View;
}

/** See {@link OpenedFile}. What takes time is done one after the other: no copy begins while another is made. */
export class OpenFile implements OpenedFile {
  readonly path: string;
  readonly readOnly: ReadOnlyReason | null;
  readonly notes: readonly FileNote[];
  readonly #opening: Opening;
  readonly #markAtOpening: string;
  readonly #identity: FileIdentity;
  #at: string;
  #database: StudyDatabase;
  #stamp: string | null;
  #queue: Promise<unknown> = Promise.resolve();
  #closing: Promise<void> | null = null;
  /** The original of a working copy was found changed: nothing is written to it any more. */
  #originalIsAnother = false;

  constructor(opening: Opening) {
    this.path = opening.path;
    this.readOnly = opening.readOnly;
    this.notes = opening.notes;
    this.#opening = opening;
    this.#at = opening.at;
    this.#database = opening.database;
    this.#identity = fileIdentity(opening.at);
    this.#markAtOpening = opening.readOnly === null ? markOf(opening.database) : "";
    this.#stamp = stampIfThere(opening.view?.source?.() ?? null);
  }

  get database(): StudyDatabase {
    return this.#database;
  }

  beforeEdit(): void {
    if (this.readOnly !== null) throw new StoreFault("readOnly", this.path);
    this.#requireFile();
    if (this.#isWrittenOver()) throw new StoreFault("changedOutside", this.#at);
  }

  isWrittenBy(who: string): void {
    this.#opening.lock?.isHeldBy(who);
  }

  #requireFile(): void {
    const there = this.#fileThere();
    if (there === "none") throw new StoreFault("gone", this.#at);
    if (there === "another") throw new StoreFault("changedOutside", this.#at);
  }

  /** What lies at the path of the database now. */
  #fileThere(): "ours" | "another" | "none" {
    try {
      return fileIdentity(this.#at) === this.#identity || this.readOnly !== null ? "ours" : "another";
    } catch {
      return "none";
    }
  }

  isReplaced(): boolean {
    if (this.readOnly !== null) return false;
    const there = this.#fileThere();
    if (there === "none") return false;
    return there === "another" || this.#originalIsAnother || this.#isWrittenOver();
  }

  /** Another program wrote to the file, or cut it short. */
  #isWrittenOver(): boolean {
    return this.#database.isChangedOutside() || lstatSync(this.#at).size < this.#database.bytes();
  }

  /** What a copy is made of: the file, or where that is gone or another, what is open of it. */
  #source(): string | Copyable {
    if (this.#fileThere() !== "ours") return this.#database;
    if (this.readOnly === null && this.#isWrittenOver()) throw new StoreFault("changedOutside", this.#at);
    return this.#at;
  }

  /** @throws {StoreFault} "gone" or "changedOutside" rather than what came of reading a file that is no longer there. */
  async #copyOfSource(to: string): Promise<void> {
    const source = this.#source();
    try {
      await snapshot(source, to);
    } catch (error) {
      if (typeof source !== "string") this.#requireFile();
      throw error;
    }
  }

  refresh(): boolean {
    const { view } = this.#opening;
    if (view === undefined || view.source === null) return false;
    const stamp = stampIfThere(view.source());
    // A file that is away for the moment (a share that is lost) leaves what was seen of it.
    if (stamp === null || stamp === this.#stamp) return false;
    let made: ReturnType<View["make"]>;
    try {
      made = view.make();
    } catch (error) {
      throw diskFault(error);
    }
    this.#database.close();
    try {
      discard(this.#at);
    } catch {
      // A copy is being made of it; it goes with its folder.
    }
    ({ at: this.#at, database: this.#database } = made);
    this.#stamp = stamp;
    return true;
  }

  writeBack(): Promise<void> {
    return this.#inTurn(() => this.#writeBack());
  }

  async #writeBack(): Promise<void> {
    const { working } = this.#opening;
    if (!working?.isUnwritten(this.#database)) return;
    try {
      await working.writeBack();
    } catch (error) {
      this.#originalIsAnother = asFault(error).code === "changedOutside";
      throw error;
    }
  }

  backUp(why: Backup["why"] = "regular"): Promise<Backup | null> {
    return this.#inTurn(() => this.#backUp(why));
  }

  async #backUp(why: Backup["why"]): Promise<Backup | null> {
    if (this.readOnly !== null) return null;
    const { places } = this.#opening;
    const { identity } = this.#database;
    if (statesBackedUp(this.path, identity, places).includes(markOf(this.#database))) return null;
    return makeBackup((to) => this.#copyOfSource(to), this.path, identity, why, places);
  }

  saveCopy(to: string): Promise<void> {
    return this.#inTurn(async () => {
      // Known before the work is done; what lies there is not overwritten either way.
      if (isThere(to)) throw new StoreFault("exists", to);
      await this.#withCopy((copy) => placeNew(copy, to));
    });
  }

  copyAsBytes(): Promise<Uint8Array> {
    return this.#inTurn(() => this.#withCopy(async (copy) => new Uint8Array(await readFile(copy))));
  }

  /** The copy is made and checked in the program's own folder: the place where it goes may be one that SQLite cannot work on. */
  async #withCopy<T>(use: (copy: string) => Promise<T>): Promise<T> {
    const folder = makePrivateFolder(this.#opening.places);
    try {
      const copy = join(folder, `${randomBytes(6).toString("hex")}.boilstudy`);
      await this.#copyOfSource(copy);
      checkThatItOpens(copy, this.#opening.places);
      return await use(copy);
    } catch (error) {
      throw diskFault(error);
    } finally {
      removePrivateFolder(folder);
    }
  }

  close(): Promise<void> {
    this.#closing ??= this.#queue.then(() => this.#close());
    return this.#closing;
  }

  async #close(): Promise<void> {
    const { working, lock, view, places } = this.#opening;
    const faults: unknown[] = [];
    const attempt = async (what: () => unknown) => {
      try {
        await what();
      } catch (error) {
        faults.push(error);
      }
    };
    await attempt(() => this.#writeBack());
    await attempt(() => this.#backUpAtClose(places));
    let hasAll = false;
    await attempt(() => {
      hasAll = working !== undefined && !working.isUnwritten(this.#database);
    });
    await attempt(() => this.#database.close(this.readOnly !== null || this.#fileThere() === "another"));
    await attempt(() => {
      if (hasAll) working?.remove();
      if (view !== undefined) removePrivateFolder(view.folder);
    });
    lock?.release();
    if (faults.length > 0) throw diskFault(faults[0]);
  }

  /** A study that was only looked at needs no backup, unless one of its earlier openings ended without. */
  async #backUpAtClose(places: Places): Promise<void> {
    if (this.readOnly !== null || (this.#fileThere() === "ours" && this.#isWrittenOver())) return;
    const edited = markOf(this.#database) !== this.#markAtOpening;
    if (edited || statesBackedUp(this.path, this.#database.identity, places).length > 0) await this.#backUp("atClose");
  }

  #inTurn<T>(what: () => Promise<T>): Promise<T> {
    if (this.#closing !== null) return Promise.reject(new StoreFault("gone", `${this.path} is closed`));
    const done = this.#queue.then(what);
    this.#queue = done.catch(() => {});
    return done;
  }
}

function stampIfThere(path: string | null): string | null {
  if (path === null) return null;
  try {
    return stampOf(path);
  } catch (error) {
    if (codeOf(error) === null) throw error;
    return null;
  }
}
