import { basename, dirname, join } from "node:path";
import { type Locale, wordsFor } from "../../../core/index.ts";
import {
  createStudyFile,
  type NewStudy,
  type OpenedFile,
  openStudyFile,
  type Places,
  StoreFault,
  type StudyDatabase,
} from "../../store/index.ts";
import { program } from "../program.ts";
import { refuse } from "../refused.ts";
import { placeName, realOf, Shelf } from "../shelf/shelf.ts";
import type { UserFolders } from "../shelf/user-folders.ts";
import { type Doing, faultText, makeFolder } from "./fault-words.ts";
import { StudySession } from "./study-session.ts";

/** How often open studies are tended, and after how long without a window one is closed, in milliseconds. */
const tendEvery = 60_000;
const closeAfter = 30 * 60_000;

/** The studies that are open in this process: one session a file, whichever way its path is written, for all windows. */
export class StudySessions {
  readonly shelf: Shelf;
  readonly #folders: UserFolders;
  readonly #locale: Locale;
  readonly #remembers: boolean;
  /** By the place of the file. */
  readonly #open = new Map<string, StudySession>();
  /** What opens and closes the study of one place is done one after the other: two windows do not open it twice. */
  readonly #turns = new Map<string, Promise<unknown>>();
  #latest: string | null = null;
  readonly #tending: NodeJS.Timeout;
  #closed = false;

  constructor(folders: UserFolders, locale: Locale, remembers: boolean) {
    this.#folders = folders;
    this.#remembers = remembers;
    this.#locale = locale;
    this.shelf = new Shelf(folders);
    this.#tending = setInterval(() => void this.#tend(), tendEvery);
    this.#tending.unref();
  }

  get dataFolder(): string {
    return this.#folders.data;
  }

  /** What the store needs to know; `who` is told to others who find a study held. */
  places(author?: string): Places {
    const words = wordsFor(this.#locale).studyFile;
    const who = author ?? this.shelf.recent.read().names[0] ?? words.nobody;
    return { dataFolder: this.#folders.data, program: `${program.name} ${program.version}`, who };
  }

  /** The study that was opened last in this process. */
  get latest(): string | null {
    return this.#latest;
  }

  /** An open study, or one of the list, which is opened again. */
  async of(handle: string): Promise<StudySession> {
    const open = this.#open.get(handle);
    if (open !== undefined) return this.#used(open);
    const path = this.shelf.pathOf(handle);
    if (path === null) refuse(wordsFor(this.#locale).studyFile.shelf.notListed);
    return this.openAt(path);
  }

  /** Opens the file at a path, which a host or the list gave, never a page. */
  async openAt(path: string): Promise<StudySession> {
    const real = realOf(path);
    const handle = placeName(real);
    const asked = performance.now();
    return this.#inTurn(handle, async () => {
      const open = this.#open.get(handle);
      // Another window may have opened it while this one waited for its turn.
      if (open !== undefined && (open.openedAt >= asked || !mayBeAnother(open))) return this.#used(open);
      await this.#letGo(handle);
      return this.#begin(handle, real, "opening", () => openStudyFile(real, this.places()));
    });
  }

  /** Makes a new study file at a free path, and opens it; `fill` gives it its first content. */
  async create(
    path: string,
    study: NewStudy,
    author: string,
    fill?: (database: StudyDatabase) => void,
  ): Promise<StudySession> {
    makeFolder(dirname(path), this.#locale);
    const real = join(realOf(dirname(path)), basename(path));
    const handle = placeName(real);
    return this.#inTurn(handle, async () => {
      // What was open there is gone from its place.
      await this.#letGo(handle);
      return this.#begin(handle, real, "placing", () => createStudyFile(real, study, this.places(author), fill));
    });
  }

  async #inTurn<T>(handle: string, work: () => Promise<T>): Promise<T> {
    const done = (this.#turns.get(handle) ?? Promise.resolve()).then(work);
    const turn = done.catch(() => {});
    this.#turns.set(handle, turn);
    try {
      return await done;
    } finally {
      if (this.#turns.get(handle) === turn) this.#turns.delete(handle);
    }
  }

  async #begin(handle: string, path: string, doing: Doing, open: () => Promise<OpenedFile>): Promise<StudySession> {
    if (this.#closed) refuse(wordsFor(this.#locale).service.failed);
    let file: OpenedFile | null = null;
    try {
      file = await open();
      const session = new StudySession(handle, file, this.#locale);
      this.#open.set(handle, session);
      this.#rememberAside(session);
      this.remember(session);
      return this.#used(session);
    } catch (error) {
      await file?.close().catch(() => {});
      if (error instanceof StoreFault) refuse(faultText(error, path, this.#locale, doing));
      throw error;
    }
  }

  /** Keeps a study in the list of recent ones, by the name that it has now. */
  remember(session: StudySession): void {
    if (this.#remembers) this.shelf.recent.opened(session.file.path, session.content.head.name, new Date());
  }

  /** Edits that were set aside lie where nobody looks: they are put into the list. */
  #rememberAside({ file, content }: StudySession): void {
    if (!this.#remembers) return;
    const { asideName } = wordsFor(this.#locale).studyFile;
    for (const { note, detail } of file.notes) {
      if (note !== "workingCopySetAside") continue;
      this.shelf.recent.opened(detail, asideName(content.head.name), new Date());
    }
  }

  #used(session: StudySession): StudySession {
    this.#latest = session.handle;
    session.use();
    return session;
  }

  async #tend(): Promise<void> {
    for (const [handle, session] of this.#open) {
      if (session.idleFor > closeAfter) await this.#close(handle);
      else await session.tend();
    }
  }

  #close(handle: string): Promise<void> {
    return this.#inTurn(handle, () => this.#letGo(handle));
  }

  /** Closes what is open at a place; to be called in its turn. */
  async #letGo(handle: string): Promise<void> {
    const session = this.#open.get(handle);
    if (session === undefined) return;
    this.#open.delete(handle);
    try {
      await session.close();
    } catch (error) {
      console.error(error);
    }
  }

  /** Closes every study. What fails in one keeps none of the others from being closed. */
  async close(): Promise<void> {
    this.#closed = true;
    clearInterval(this.#tending);
    // Those that are being opened are let go once they are.
    await Promise.all([...new Set([...this.#open.keys(), ...this.#turns.keys()])].map((handle) => this.#close(handle)));
  }
}

/** What could only be read may be writable by now, and another file may lie at its place; one that is gone is shown on. */
function mayBeAnother({ readOnly, file }: StudySession): boolean {
  return readOnly !== null || file.isReplaced();
}
