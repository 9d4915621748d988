import { mkdirSync } from "node:fs";
import { dirname, join } from "node:path";
import { type Locale, wordsFor } from "../../../core/index.ts";
import { createStudyFile, type NewStudy, openStudyFile, type Places, StoreFault } from "../../store/index.ts";
import { program } from "../program.ts";
import { refuse } from "../refused.ts";
import { placeName, realOf, Shelf } from "../shelf/shelf.ts";
import type { UserFolders } from "../shelf/user-folders.ts";
import { faultText } from "./fault-words.ts";
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
  /** By the place of the file; a promise while it is being opened, so that two windows do not open it twice. */
  readonly #open = new Map<string, Promise<StudySession>>();
  /** Studies that are being let go: whoever opens one anew waits for that. */
  readonly #closing = new Map<string, Promise<void>>();
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
  places(): Places {
    const words = wordsFor(this.#locale).studyFile;
    const who = this.shelf.recent.read().names[0] ?? words.nobody;
    return { dataFolder: this.#folders.data, program: `${program.name} ${program.version}`, who };
  }

  /** The study that was opened last in this process. */
  get latest(): string | null {
    return this.#latest;
  }

  /** An open study, or one of the list, which is opened again. */
  async of(handle: string): Promise<StudySession> {
    const open = this.#open.get(handle);
    if (open !== undefined) return this.#used(await open);
    const path = this.shelf.pathOf(handle);
    if (path === null) refuse(wordsFor(this.#locale).studyFile.shelf.notListed);
    return this.openAt(path);
  }

  /** Opens the file at a path, which a host or the list gave, never a page. */
  async openAt(path: string): Promise<StudySession> {
    const real = realOf(path);
    const handle = placeName(real);
    const open = this.#open.get(handle);
    if (open !== undefined) {
      const session = await open;
      // What could only be read may be writable by now: whoever held it may have closed it.
      if (session.readOnly === null) return this.#used(session);
      await this.#close(handle);
    }
    return this.#begin(handle, real, async () => openStudyFile(real, this.places()));
  }

  /** Makes a new study file at a free path, and opens it. */
  async create(path: string, study: NewStudy): Promise<StudySession> {
    try {
      mkdirSync(dirname(path), { recursive: true });
    } catch (error) {
      refuse(faultText(error, dirname(path), this.#locale));
    }
    const real = join(realOf(dirname(path)), path.slice(dirname(path).length + 1));
    return this.#begin(placeName(real), real, async () => createStudyFile(real, study, this.places()));
  }

  async #begin(
    handle: string,
    path: string,
    open: () => Promise<Awaited<ReturnType<typeof openStudyFile>>>,
  ): Promise<StudySession> {
    if (this.#closed) refuse(wordsFor(this.#locale).service.failed);
    const before = this.#closing.get(handle) ?? Promise.resolve();
    const opening = before.then(open).then((file) => new StudySession(handle, file, this.#locale));
    this.#open.set(handle, opening);
    try {
      const session = await opening;
      this.remember(session);
      return this.#used(session);
    } catch (error) {
      this.#open.delete(handle);
      if (error instanceof StoreFault) refuse(faultText(error, path, this.#locale));
      throw error;
    }
  }

  /** Keeps a study in the list of recent ones, by the name that it has now. */
  remember(session: StudySession): void {
    if (this.#remembers) this.shelf.recent.opened(session.file.path, session.content.head.name, new Date());
  }

  #used(session: StudySession): StudySession {
    this.#latest = session.handle;
    session.use();
    return session;
  }

  async #tend(): Promise<void> {
    for (const [handle, opening] of this.#open) {
      const session = await opening.catch(() => null);
      if (session === null) continue;
      if (session.idleFor > closeAfter) await this.#close(handle);
      else await session.tend();
    }
  }

  /** Lets go of a study whose file is to be removed. */
  async forget(handle: string): Promise<void> {
    if (this.#latest === handle) this.#latest = null;
    await this.#close(handle);
  }

  async #close(handle: string): Promise<void> {
    const opening = this.#open.get(handle);
    if (opening === undefined) return;
    this.#open.delete(handle);
    const closing = opening
      .then((session) => session.close())
      .catch((error: unknown) => console.error(error))
      .finally(() => this.#closing.delete(handle));
    this.#closing.set(handle, closing);
    await closing;
  }

  /** Closes every study. What fails in one keeps none of the others from being closed. */
  async close(): Promise<void> {
    this.#closed = true;
    clearInterval(this.#tending);
    await Promise.allSettled([...this.#open.keys()].map((handle) => this.#close(handle)));
  }
}
