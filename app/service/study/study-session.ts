import { setImmediate as setImmediatePromise } from "node:timers/promises";
import { type Locale, wordsFor } from "../../../core/index.ts";
import type { StepView, StudyState } from "../../contract/index.ts";
import type { Change, EditNote } from "../../store/index.ts";
import { asFault, type OpenedFile, type RecordedEdit, StoreFault } from "../../store/index.ts";
import type { OpenStudy } from "../open-study.ts";
import { refuse } from "../refused.ts";
import { faultText, fileNoteText, readOnlyText } from "./fault-words.ts";
import { editText } from "./record-words.ts";
import { StudyContent } from "./study-content.ts";

/** How long a slice of the work in the background may take, in milliseconds. */
const lookBetween = 12;
/** A study of so many runs is looked through before it is shown, in at most so many milliseconds; a larger one in the background. */
const smallStudy = 300;
const lookAtOpening = 250;
/** How long a study may go without a backup while it is edited. */
const backupEvery = 10 * 60_000;

/** The first edit of a study, after its making. */
const firstEdit = 2;

/** What is told with the study as long as it lasts. */
type Trouble = "backup" | "writeBack" | "refresh";

const ofRuns = new Set<Change["subject"]>(["reading", "text", "timing", "phase", "runField", "run"]);

/** One study that is open, for all windows that show it. */
export class StudySession {
  readonly handle: string;
  readonly content: StudyContent;
  /** By the clock that never goes back. */
  readonly openedAt = performance.now();
  readonly #file: OpenedFile;
  readonly #locale: Locale;
  #revision = 1;
  /** What has yet to be checked before anything may be written; null when all of it has. */
  #checking: Generator<number, void> | null;
  #looking: Generator<number, void> | null;
  #share = 0;
  #damage: string | null = null;
  #lacksQuestions = false;
  #background: NodeJS.Immediate | null = null;
  readonly #troubles = new Map<Trouble, string>();
  #lastBackup: number;
  #lastUse: number;
  #closed = false;

  constructor(handle: string, file: OpenedFile, locale: Locale) {
    this.handle = handle;
    this.#file = file;
    this.#locale = locale;
    this.content = new StudyContent(file.database, locale);
    this.#checking = file.readOnly === null ? file.database.verify() : null;
    this.#looking = this.content.look();
    this.#lastBackup = Date.now();
    this.#lastUse = Date.now();
    if (this.content.lines().length <= smallStudy) this.#advance(lookAtOpening);
    this.#goOn();
  }

  get file(): OpenedFile {
    return this.#file;
  }

  get idleFor(): number {
    return Date.now() - this.#lastUse;
  }

  use(): void {
    this.#lastUse = Date.now();
  }

  /** Works on for so long: first what must be known before anything is written, then the results and questions of all runs. */
  #advance(milliseconds: number): void {
    const until = performance.now() + milliseconds;
    while (performance.now() < until && (this.#checking ?? this.#looking) !== null) {
      if (this.#checking !== null) this.#check();
      else this.#look();
    }
  }

  /** One step of the check. */
  #check(): void {
    try {
      const { done, value } = this.#checking?.next() ?? { done: true };
      if (done === true) this.#checking = null;
      else this.#share = value / 2;
    } catch (error) {
      this.#checking = null;
      this.#foundDamage(error);
    }
  }

  /** One step of working out. What goes wrong in it for another reason than damage is told to whoever asks for the results. */
  #look(): void {
    try {
      const { done, value } = this.#looking?.next() ?? { done: true };
      if (done !== true) {
        this.#share = (1 + value) / 2;
        return;
      }
    } catch (error) {
      console.error(error);
    }
    this.#looking = null;
    this.#revision += 1;
  }

  #foundDamage(error: unknown): void {
    const { code, detail } = asFault(error);
    this.#damage = detail || code;
    this.#revision += 1;
  }

  #goOn(): void {
    if (this.#closed || this.#background !== null || (this.#checking === null && this.#looking === null)) return;
    this.#background = setImmediate(() => {
      this.#background = null;
      this.#advance(lookBetween);
      this.#goOn();
    });
  }

  /** Waits until all is known that has to be before the study is written to; others have their turn in between. */
  async checked(): Promise<void> {
    while (this.#checking !== null && !this.#closed) {
      const until = performance.now() + lookBetween;
      while (this.#checking !== null && performance.now() < until) this.#check();
      await setImmediatePromise();
    }
    if (this.#closed) refuse(wordsFor(this.#locale).studyFile.shelf.closed);
  }

  /** The whole study, worked out; others have their turn in between. */
  async open(): Promise<OpenStudy> {
    return this.content.openInSlices(lookBetween, () => this.pause());
  }

  /** Others have their turn. Refused where the study was closed meanwhile. */
  async pause(): Promise<void> {
    await setImmediatePromise();
    if (this.#closed) refuse(wordsFor(this.#locale).studyFile.shelf.closed);
  }

  /** A window was shown questions of before the last edit: it is to see when those of now are known. */
  lacksQuestions(): void {
    this.#lacksQuestions = true;
  }

  /** All questions of the study as it is now; others have their turn in between. Not while it is being looked at. */
  async asked(): Promise<void> {
    if (this.#checking !== null || this.#looking !== null) return;
    return this.content.ask(lookBetween, () => this.pause());
  }

  /** The same, where nobody waits for them. */
  askAgain(): void {
    if (this.#closed) return;
    this.asked().catch((error: unknown) => {
      if (!this.#closed) console.error(error);
    });
  }

  get readOnly(): string | null {
    if (this.#damage !== null) return wordsFor(this.#locale).studyFile.readOnly.damaged(this.#damage);
    return this.#file.readOnly === null ? null : readOnlyText(this.#file.readOnly, this.#locale);
  }

  /** What a held study's writer changed meanwhile. Where it cannot be read, what was seen before stays, and that is told. */
  #refresh(): void {
    const { notRefreshed } = wordsFor(this.#locale).studyFile.notes;
    try {
      if (!this.#file.refresh()) return;
      this.content.replace(this.#file.database);
      this.#looking = this.content.look();
      this.#goOn();
      this.#untold("refresh");
      this.#revision += 1;
    } catch (error) {
      this.#told("refresh", notRefreshed(faultText(error, this.#file.path, this.#locale, "opening")));
    }
  }

  #told(what: Trouble, text: string): void {
    if (this.#troubles.get(what) === text) return;
    this.#troubles.set(what, text);
    this.#revision += 1;
  }

  #untold(what: Trouble): void {
    if (this.#troubles.delete(what)) this.#revision += 1;
  }

  state(): StudyState {
    this.#refresh();
    if (this.#lacksQuestions && this.content.overviewKnown !== null) {
      this.#lacksQuestions = false;
      this.#revision += 1;
    }
    const { database } = this.#file;
    const notes = this.#file.notes.map((note) => fileNoteText(note, this.#locale));
    const unread = this.content.unread.size;
    return {
      study: this.handle,
      revision: this.#revision,
      undo: this.#step(this.#undoable()),
      redo: this.#step(database.redoable()),
      readOnly: this.readOnly,
      looking: this.#checking === null && this.#looking === null ? null : this.#share,
      fileNotes: [
        ...notes,
        ...(unread > 0 ? [wordsFor(this.#locale).studyFile.notes.runsUnread(unread)] : []),
        ...this.#troubles.values(),
      ],
    };
  }

  /** What made the example's copy is no step of a person, and is not undone. */
  #undoable(): RecordedEdit | null {
    const edit = this.#file.database.undoable();
    return edit !== null && this.content.head.isExample && edit.edit === firstEdit ? null : edit;
  }

  #step(edit: RecordedEdit | null): StepView | null {
    return edit === null ? null : { edit: edit.edit, label: editText(edit, this.#locale) };
  }

  /** Makes an edit; on disk when it returns. Refused, with nothing changed, where it cannot be made. */
  edit(
    prepare: (database: OpenedFile["database"]) => { readonly note: EditNote; readonly changes: readonly Change[] },
  ): RecordedEdit {
    return this.#write(() => {
      const { note, changes } = prepare(this.#file.database);
      if (changes.length === 0) refuse(wordsFor(this.#locale).record.nothingChanged);
      const done = this.#file.database.edit(note, changes);
      return { done, subjects: changes.map(({ subject }) => subject) };
    });
  }

  /** Undoes the last edit, or does again what was undone last; `expected` is the one that the person saw. */
  step(
    way: "undo" | "redo",
    expected: number,
    who: string,
  ): { readonly done: RecordedEdit; readonly of: RecordedEdit } {
    const words = wordsFor(this.#locale).record;
    const { database } = this.#file;
    const next = way === "undo" ? this.#undoable() : database.redoable();
    if (next === null) refuse(way === "undo" ? words.nothingToUndo : words.nothingToRedo);
    if (next.edit !== expected) refuse(words.stepChanged(editText(next, this.#locale)));
    const done = this.#write(() => {
      const undone = way === "undo" ? database.undo(who) : database.redo(who);
      return { done: undone.done, subjects: [...undone.subjects] };
    });
    return { done, of: next };
  }

  #write(work: () => { readonly done: RecordedEdit; readonly subjects: readonly Change["subject"][] }): RecordedEdit {
    if (this.#checking !== null) throw new Error("a study is written to before it was checked");
    const cannot = this.readOnly;
    if (cannot !== null) refuse(cannot);
    let written: ReturnType<typeof work>;
    try {
      this.#file.beforeEdit();
      written = work();
    } catch (error) {
      if (error instanceof StoreFault) {
        if (error.code === "damaged") this.#foundDamage(error);
        refuse(faultText(error, this.#file.path, this.#locale));
      }
      throw error;
    }
    this.#follow(written.done, written.subjects);
    return written.done;
  }

  /** What follows from an edit that is on disk: whatever goes wrong in it, the edit was made, and is not told as lost. */
  #follow(done: RecordedEdit, subjects: readonly Change["subject"][]): void {
    this.#revision += 1;
    try {
      this.#file.isWrittenBy(done.who);
      const forgot = this.content.changed(subjects.some((subject) => !ofRuns.has(subject)));
      // Of many runs that came in, or under other settings, the questions are worked out in the background.
      if ((forgot || subjects.includes("run")) && this.content.unknown() > smallStudy) {
        this.#looking = this.content.look();
        this.#goOn();
      }
    } catch (error) {
      if (error instanceof StoreFault) this.#foundDamage(error);
      else console.error(error);
    }
  }

  /** What is due from time to time: writing back, and a backup. What fails is told with the study. */
  async tend(): Promise<void> {
    await this.#try("writeBack", () => this.#file.writeBack());
    if (Date.now() - this.#lastBackup < backupEvery) return;
    this.#lastBackup = Date.now();
    await this.#try("backup", () => this.#file.backUp());
  }

  async #try(what: "backup" | "writeBack", work: () => Promise<unknown>): Promise<void> {
    try {
      await work();
      this.#untold(what);
    } catch (error) {
      const { notes } = wordsFor(this.#locale).studyFile;
      const text = faultText(error, this.#file.path, this.#locale);
      this.#told(what, what === "backup" ? notes.backupFailed(text) : notes.notWrittenBack(text));
    }
  }

  async close(): Promise<void> {
    this.#closed = true;
    if (this.#background !== null) clearImmediate(this.#background);
    await this.#file.close();
  }
}
