import { rmSync } from "node:fs";
import { basename, dirname, join } from "node:path";
import { defaultSettings, type Locale, type Method, wordsFor } from "../../../core/index.ts";
import type { BackupsView, BackupView, EditedView, StudyView } from "../../contract/index.ts";
import {
  type Backup,
  type BackupOfFile,
  backupsOfFile,
  diskFault,
  type FaultCode,
  listBackups,
  openBackup,
  receiveStudyFile,
  StoreFault,
  type StudyDatabase,
  saveBackup,
} from "../../store/index.ts";
import { readExample } from "../example.ts";
import type { ReadStudy, SourceFile } from "../open-study.ts";
import { refuse } from "../refused.ts";
import { studyEnding } from "../shelf/file-name.ts";
import { studyView } from "../view/study-view.ts";
import { faultText, makeFolder, timeText } from "./fault-words.ts";
import { doneText } from "./record-words.ts";
import { takingIn } from "./stored-study.ts";
import type { StudySession } from "./study-session.ts";
import type { StudySessions } from "./study-sessions.ts";

/** How many runs that are there already a refusal names. */
const namesShown = 5;
/** What is said of the study that is copied, not of the copy. */
const faultsOfSource: ReadonlySet<FaultCode> = new Set(["changedOutside", "damaged", "inUse"]);

/** What is done with whole studies: begun, opened, copied, taken in, gone back. */
export class StudyDesk {
  readonly #sessions: StudySessions;
  readonly #exampleFolder: string;
  readonly #locale: Locale;
  #starting: Promise<StudySession> | null = null;
  /** New files are made one after the other: what is a free name stays one until it is taken. */
  #placing: Promise<unknown> = Promise.resolve();

  constructor(sessions: StudySessions, exampleFolder: string, locale: Locale) {
    this.#sessions = sessions;
    this.#exampleFolder = exampleFolder;
    this.#locale = locale;
  }

  get #words() {
    return wordsFor(this.#locale).studyFile;
  }

  /** The study of a request; null: the one that was used last, here or at the last start, or else the example. */
  async of(handle: string | null): Promise<StudySession> {
    if (handle !== null) return this.#sessions.of(handle);
    const { latest } = this.#sessions;
    if (latest !== null) return this.#sessions.of(latest);
    // Several requests of a window that starts mean one study.
    this.#starting ??= this.#start().finally(() => {
      this.#starting = null;
    });
    return this.#starting;
  }

  async #start(): Promise<StudySession> {
    const last = this.#sessions.shelf.view().studies.find(({ recent, isGone }) => recent && !isGone);
    if (last !== undefined) {
      try {
        return await this.#sessions.of(last.place);
      } catch {
        // The Studies page says what is wrong with it, when it is opened there.
      }
    }
    return this.example();
  }

  /** The same, once it is known that it may be written to. */
  async toEdit(handle: string | null): Promise<StudySession> {
    const session = await this.of(handle);
    await session.checked();
    return session;
  }

  async view(session: StudySession): Promise<StudyView> {
    await session.asked();
    return studyView(session, this.#sessions.shelf.recent.read().names, this.#locale);
  }

  /** A fresh copy of the example study. */
  async example(): Promise<StudySession> {
    let read: ReadStudy;
    try {
      read = readExample(this.#exampleFolder, this.#locale);
    } catch {
      refuse(wordsFor(this.#locale).service.exampleMissing);
    }
    const folder = join(this.#sessions.dataFolder, "examples");
    return this.#begun(read, read.study.name, wordsFor(this.#locale).studyFile.exampleAuthor, folder);
  }

  /** A study of the list. */
  async open(place: string): Promise<StudySession> {
    const path = this.#sessions.shelf.pathOf(place);
    return path === null ? refuse(this.#words.shelf.notListed) : this.#sessions.openAt(path);
  }

  async create(name: string, method: Method, who: string): Promise<StudySession> {
    this.#sessions.shelf.recent.picked(who);
    const study = { name, method, confidence: defaultSettings(method).confidence, isExample: false };
    return this.#place(name, (path) => this.#sessions.create(path, study, who));
  }

  /** Makes a new file under a name that is free. */
  #place<T>(name: string, make: (path: string) => Promise<T>, folder?: string): Promise<T> {
    const placed = this.#placing.then(() => {
      return make(this.#sessions.shelf.freePath(name, this.#words.fallbackName, folder));
    });
    this.#placing = placed.catch(() => {});
    return placed;
  }

  /** What was read, as a new study: its file is there whole, or not at all. */
  async takeAsNew(read: ReadStudy, who: string): Promise<StudySession> {
    this.#sessions.shelf.recent.picked(who);
    return this.#begun(read, read.study.name, who);
  }

  #begun(read: ReadStudy, name: string, who: string, folder?: string): Promise<StudySession> {
    const { method, confidence } = read.study.settings;
    const { isExample } = read.provenance;
    const fill = (database: StudyDatabase) => {
      const { note, changes } = takingIn(database, database.head(), 0, read, true);
      database.edit({ ...note, who }, changes);
    };
    const make = (path: string) => this.#sessions.create(path, { name, method, confidence, isExample }, who, fill);
    return this.#place(name, make, folder);
  }

  /** What was read, into an open study: all of it, in one step, or nothing. */
  takeInto(session: StudySession, read: ReadStudy, withSettings: boolean, who: string): void {
    const words = wordsFor(this.#locale).record;
    const there = new Set(session.content.lines().map(({ name }) => name));
    const twice = read.study.runs.map(({ name }) => name).filter((name) => there.has(name));
    if (twice.length > 0) refuse(words.runsAlreadyThere(twice.length, twice.slice(0, namesShown)));
    session.edit((database) => {
      const next = session.content.lines().reduce((most, { position }) => Math.max(most, position), -1) + 1;
      const { note, changes } = takingIn(database, session.content.head, next, read, withSettings);
      return { note: { ...note, who }, changes };
    });
    this.#sessions.shelf.recent.picked(who);
  }

  /** A study file that came through a window, put into the studies folder whole, and opened. */
  async receive(file: SourceFile): Promise<StudySession> {
    const given = basename(file.name.replaceAll("\\", "/")).replace(/\.boilstudy$/i, "");
    const path = await this.#placeFile(given, async (at) => {
      await receiveStudyFile(at, file.bytes, this.#sessions.places());
    });
    try {
      return await this.#sessions.openAt(path);
    } catch (error) {
      // What cannot be opened is still where it came from.
      rmSync(path, { force: true });
      throw error;
    }
  }

  /** The path of a new file in the studies folder, which `make` makes. */
  #placeFile(name: string, make: (path: string) => Promise<void>, source: string | null = null): Promise<string> {
    return this.#place(name, async (path) => {
      makeFolder(dirname(path), this.#locale);
      try {
        await make(path);
      } catch (error) {
        const isOfSource = source !== null && faultsOfSource.has(diskFault(error).code);
        refuse(faultText(error, isOfSource ? source : path, this.#locale, isOfSource ? "saving" : "placing"));
      }
      return path;
    });
  }

  saveCopy(session: StudySession, name: string): Promise<string> {
    return this.#placeFile(name, (path) => session.file.saveCopy(path), session.file.path);
  }

  async copyAsBytes(session: StudySession): Promise<Uint8Array> {
    try {
      return await session.file.copyAsBytes();
    } catch (error) {
      refuse(faultText(error, session.file.path, this.#locale));
    }
  }

  backups(session: StudySession): BackupsView {
    const identity = session.content.head.identity;
    const backups = listBackups(identity, this.#sessions.places()).filter(({ sound }) => sound);
    return {
      backups: backups.map((backup): BackupView => this.#backupView(backup)),
      folder: join(this.#sessions.dataFolder, "backups", identity),
    };
  }

  #backupView({ id, at, runs, edits, bytes, why }: Backup): BackupView {
    return { id, at, runs, edits, kilobytes: Math.ceil(bytes / 1000), why: this.#words.backups[why] };
  }

  async makeBackup(session: StudySession): Promise<BackupsView> {
    if (session.readOnly !== null) refuse(session.readOnly);
    try {
      await session.file.backUp();
    } catch (error) {
      refuse(this.#words.notes.backupFailed(faultText(error, session.file.path, this.#locale)));
    }
    return this.backups(session);
  }

  /**
   * A study as it was in a backup: an edit of the study, which can be undone; of a study that can only be read, a new study beside it.
   */
  async goBack(session: StudySession, id: string, who: string): Promise<StudySession> {
    const identity = session.content.head.identity;
    const places = this.#sessions.places();
    const listed = listBackups(identity, places).find((backup) => backup.id === id && backup.sound);
    if (listed === undefined) refuse(this.#words.shelf.backupNotListed);
    this.#sessions.shelf.recent.picked(who);
    if (session.readOnly !== null) return this.#backupAsNew(identity, session.content.head.name, listed);
    await session.checked();
    await session.file.backUp("beforeGoingBack").catch((error: unknown) => {
      refuse(this.#words.notes.backupFailed(faultText(error, session.file.path, this.#locale)));
    });
    try {
      const { database: backup, done } = await openBackup(identity, id, places);
      try {
        session.edit((database) => ({
          note: { who, what: "goBack", about: { at: listed.at }, why: null },
          changes: database.changesTo(backup),
        }));
      } finally {
        done();
      }
    } catch (error) {
      if (error instanceof StoreFault) refuse(faultText(error, session.file.path, this.#locale));
      throw error;
    }
    return session;
  }

  async #backupAsNew(identity: string, study: string, { id, at }: Backup): Promise<StudySession> {
    const name = this.#words.backupName(study, timeText(at, this.#locale));
    const path = await this.#placeFile(name, (to) => saveBackup(identity, id, to, this.#sessions.places()));
    return this.#sessions.openAt(path);
  }

  #backupsOfPlace(place: string): readonly BackupOfFile[] {
    const path = this.#sessions.shelf.pathOf(place) ?? refuse(this.#words.shelf.notListed);
    return backupsOfFile(path, this.#sessions.places());
  }

  /** The backups of a study that cannot be opened. */
  backupsOfPlace(place: string): BackupsView {
    const backups = this.#backupsOfPlace(place).map(({ backup }) => this.#backupView(backup));
    return { backups, folder: join(this.#sessions.dataFolder, "backups") };
  }

  /** One of them, as a study of its own. */
  async openBackup(place: string, id: string): Promise<StudySession> {
    const found = this.#backupsOfPlace(place).find(({ backup }) => backup.id === id);
    if (found === undefined) refuse(this.#words.shelf.backupNotListed);
    const path = this.#sessions.shelf.pathOf(place) ?? "";
    const name = basename(path).slice(0, -studyEnding.length);
    return this.#backupAsNew(found.identity, name, found.backup);
  }

  /** An edit that is on disk, for the page. */
  edited(
    session: StudySession,
    done: Parameters<typeof doneText>[0],
    of: Parameters<typeof doneText>[1],
    run: string | null = null,
  ): EditedView {
    this.#sessions.shelf.recent.picked(done.who);
    if (done.what === "renameStudy") this.#sessions.remember(session);
    return { ...session.state(), done: doneText(done, of, this.#locale), run };
  }
}
