import { backup } from "node:sqlite";
import type { PhaseName } from "../../core/index.ts";
import type {
  Change,
  EditNote,
  RecordedChange,
  RecordedEdit,
  StoredCell,
  StoredHead,
  StoredRun,
  StoredRunLine,
  StoredSeries,
  StoredVariant,
  Subject,
} from "./content.ts";
import { asFault, StoreFault } from "./fault.ts";
import { applyEdit, type Step } from "./record/apply-edit.ts";
import { readEdit, readEdits, readRecordEnd, recordedChange, rowsOf, subjectsOf } from "./record/change-log.ts";
import { changesBetween } from "./record/changes-to.ts";
import type { Numbered } from "./record/counters.ts";
import { type FileState, readFileState } from "./record/file-state.ts";
import { readHistory, variantEver } from "./record/history.ts";
import { type NewStudy, newFile } from "./record/new-file.ts";
import {
  readColumn,
  readColumnNames,
  readOwnLevels,
  readPhaseNames,
  readRunColumn,
  readRunsWithText,
} from "./record/read-columns.ts";
import { readRun, readRunLines, readSeries } from "./record/read-run.ts";
import { readHead, studyRow } from "./record/read-study.ts";
import { textSeal } from "./record/seal.ts";
import { stepsOfRedo, stepsOfUndo } from "./record/steps-back.ts";
import { smallContent } from "./record/study-seal.ts";
import { verifyStudy } from "./record/verify.ts";
import type { Connection } from "./schema/connection.ts";
import { migrate } from "./schema/migrate.ts";
import type { Migration } from "./schema/migration.ts";
import { migrations as ourMigrations } from "./schema/migrations.ts";
import { openFile } from "./schema/open-file.ts";

export type { NewStudy, Numbered };

/** A copy takes all pages in one go: an edit meanwhile waits for its end, instead of making the copy begin anew. */
export const allPages = 2 ** 30;

export interface CreateOptions {
  readonly migrations?: readonly Migration[];
  readonly now?: () => Date;
}

export interface OpenOptions {
  readonly readOnly: boolean;
  readonly program: string;
  readonly migrations?: readonly Migration[];
  readonly now?: () => Date;
  /** Of a damaged file, opened for reading: what can be read is given, the rest is missing or throws "damaged". */
  readonly salvage?: boolean;
  /** Called before the first migration runs; where it throws, none does. */
  readonly beforeMigrating?: (fromVersion: number) => void;
}

export interface Undone {
  /** The edit that was recorded: the undo or the redo itself. */
  readonly done: RecordedEdit;
  /** What it was of. */
  readonly of: RecordedEdit;
  /** What was changed; the changes themselves are in the record. */
  readonly subjects: ReadonlySet<Subject>;
}

/**
 * An open study file: content, edits, their record. Every edit is one transaction, on disk when the method returns; all methods are
 * synchronous.
 *
 * Phases come back in the order of the procedure, readings and levels in that of their names. All methods throw StoreFault:
 * "damaged" where a seal does not fit what is read; those that write also "full", "gone", "inUse", "readOnlyPlace", and then change
 * nothing.
 */
export class StudyDatabase {
  readonly identity: string;
  /** Of the schema. */
  readonly version: number;
  readonly isReadOnly: boolean;
  readonly #connection: Connection;
  readonly #now: () => Date;
  readonly #isNewer: boolean;
  readonly #state: FileState;
  #dataVersion: number;
  /** The last transaction failed: SQLite may then count its own rolling back as somebody's write. */
  #hasFailed = false;

  private constructor(connection: Connection, version: number, isReadOnly: boolean, isNewer: boolean, now: () => Date) {
    this.#connection = connection;
    this.#now = now;
    this.#isNewer = isNewer;
    this.version = version;
    this.isReadOnly = isReadOnly;
    // First: a write by somebody else while the rest is read is then noticed at the first edit.
    this.#dataVersion = connection.number("PRAGMA data_version");
    this.#state = readFileState(connection);
    this.identity = studyRow(connection).identity as string;
  }

  /**
   * Makes a new file, with the schema and the first content in place.
   *
   * @throws StoreFault "exists" where a file is there; "refused" where the study's name, method or confidence is none
   */
  static create(path: string, study: NewStudy, options: CreateOptions = {}): StudyDatabase {
    const { migrations = ourMigrations, now = () => new Date() } = options;
    try {
      const connection = newFile(path, study, migrations, now);
      return new StudyDatabase(connection, migrations.length, false, false, now);
    } catch (error) {
      throw asFault(error);
    }
  }

  /** Opens a file, checks it, and brings it up to our schema. A file that is refused is not written to. */
  static open(path: string, options: OpenOptions): StudyDatabase {
    const {
      readOnly,
      program,
      migrations = ourMigrations,
      now = () => new Date(),
      beforeMigrating,
      salvage = false,
    } = options;
    const { connection, version } = openFile(path, migrations, readOnly, salvage);
    const isNewer = version > migrations.length;
    try {
      const isOlder = version < migrations.length && !readOnly;
      if (isOlder) {
        beforeMigrating?.(version);
        migrate(connection, migrations, version, program, now);
      }
      connection.checksSeals = !isNewer;
      const opened = isOlder ? migrations.length : version;
      const database = new StudyDatabase(connection, opened, readOnly, isNewer, now);
      if (isNewer) database.#readAsFarAsKnown();
      return database;
    } catch (error) {
      connection.close(true);
      if (!isNewer) throw asFault(error);
      throw new StoreFault("newer", `schema version ${version} cannot be read`, { cause: error });
    }
  }

  /** Columns that a later version no longer has are noticed at once. */
  #readAsFarAsKnown(): void {
    this.head();
    for (const { run } of this.runLines().slice(0, 1)) {
      this.run(run);
      this.seriesOf(run);
      this.history(run, null, "name");
    }
    this.record(1);
  }

  #read<T>(work: (connection: Connection) => T): T {
    try {
      return work(this.#connection);
    } catch (error) {
      throw asFault(error);
    }
  }

  head(): StoredHead {
    return this.#read(readHead);
  }

  /** By position. */
  runLines(): StoredRunLine[] {
    return this.#read(readRunLines);
  }

  /** @throws StoreFault "refused" where there is no such run */
  run(item: number): StoredRun {
    return this.#read((connection) => readRun(connection, item));
  }

  /** What stands in one column of all phases, as it is stored. No seal is checked. */
  column(column: string): StoredCell[] {
    return this.#read((connection) => readColumn(connection, column));
  }

  /** The date or the order of the runs that have one. No seal is checked. */
  runColumn(column: "date" | "order"): ReadonlyMap<number, string | number> {
    return this.#read((connection) => readRunColumn(connection, column));
  }

  /** Levels in which runs differ from their variants, by run. No seal is checked. */
  ownLevels(): ReadonlyMap<number, ReadonlyMap<string, string | null>> {
    return this.#read(readOwnLevels);
  }

  /** Columns in which any phase of the runs from `first` to `last` has something. */
  columnNames(first: number, last: number): string[] {
    return this.#read((connection) => readColumnNames(connection, first, last));
  }

  /** Runs from `first` to `last` in one of whose phases stands a text that `fits`. No seal is checked. */
  runsWithText(first: number, last: number, fits: (text: string) => boolean): ReadonlySet<number> {
    return this.#read((connection) => readRunsWithText(connection, first, last, fits));
  }

  /** The phases of the runs from `first` to `last`, in the order of the procedure. */
  phaseNames(first: number, last: number): ReadonlyMap<number, readonly PhaseName[]> {
    return this.#read((connection) => readPhaseNames(connection, first, last));
  }

  /** Series of a run by item. */
  seriesOf(run: number): ReadonlyMap<number, StoredSeries> {
    return this.#read((connection) => readSeries(connection, run));
  }

  /** The first of `count` numbers that were never used in this file, not even by something undone, nor given out since. */
  nextItem(subject: Numbered, count = 1): number {
    const first = this.#state.next.get(subject) ?? 1;
    this.#state.next.set(subject, first + count);
    return first;
  }

  /**
   * Makes changes in their order, as one edit.
   *
   * @throws StoreFault "changedOutside"; "refused" where the file refuses a change, or where none changes anything
   */
  edit(note: EditNote, changes: readonly Change[]): RecordedEdit {
    return this.#write(note, "edit", null, () => changes.map((change) => ({ change, place: null })));
  }

  /** Takes back the newest edit that is done, as a new recorded edit. */
  undo(who: string): Undone {
    return this.#goBack(who, "undo", this.#state.stack.undoable);
  }

  /** Makes again the edit that was undone last. */
  redo(who: string): Undone {
    return this.#goBack(who, "redo", this.#state.stack.redoable);
  }

  #goBack(who: string, way: "undo" | "redo", edit: number | null): Undone {
    if (edit === null) throw new StoreFault("refused", `there is nothing to ${way}`);
    const of = this.#read((connection) => readEdit(connection, edit));
    if (of === null) throw new StoreFault("damaged", `the record does not hold edit ${edit}`);
    const steps = way === "undo" ? stepsOfUndo : stepsOfRedo;
    const note = { who, what: of.what, about: of.about, why: null };
    const done = this.#write(note, way, edit, () => steps(this.#connection, edit));
    return { done, of, subjects: this.#read((connection) => subjectsOf(connection, done.edit)) };
  }

  #write(note: EditNote, way: RecordedEdit["way"], of: number | null, steps: () => Iterable<Step>): RecordedEdit {
    if (this.isReadOnly) throw new StoreFault("readOnly", "the file was opened for reading");
    const state = this.#state;
    const { who, what, about, why } = note;
    const edit = { edit: state.end.edit + 1, at: this.#now().toISOString(), who, way, of, what, about, why };
    try {
      const { end, used } = this.#connection.transaction(() => {
        this.#refuseOutsideChange();
        return applyEdit(this.#connection, state.end, edit, steps(), state.stored);
      });
      this.#hasFailed = false;
      state.end = end;
      state.stack.follow(edit.edit, way);
      for (const [subject, number] of used) {
        state.stored.set(subject, Math.max(state.stored.get(subject) ?? 1, number + 1));
        state.next.set(subject, Math.max(state.next.get(subject) ?? 1, number + 1));
      }
      return edit;
    } catch (error) {
      this.#hasFailed = true;
      throw asFault(error);
    }
  }

  #refuseOutsideChange(): void {
    if (this.isChangedOutside()) throw new StoreFault("changedOutside", "another program has written to the file");
  }

  /** Whether another program has written to the file since it was opened, or put something else into it. */
  isChangedOutside(): boolean {
    try {
      const version = this.#connection.number("PRAGMA data_version");
      if (version === this.#dataVersion) return false;
      const { id, seal } = readRecordEnd(this.#connection);
      if (!this.#hasFailed || id !== this.#state.end.id || seal !== this.#state.end.seal) return true;
      this.#dataVersion = version;
      return false;
    } catch (error) {
      const fault = asFault(error);
      if (fault.code === "damaged" || fault.code === "notAStudy") return true;
      throw fault;
    }
  }

  /** Size that the file has by its own count of pages. */
  bytes(): number {
    return this.#read((connection) => connection.number("PRAGMA page_count") * connection.number("PRAGMA page_size"));
  }

  undoable(): RecordedEdit | null {
    return this.#editAt(this.#state.stack.undoable);
  }

  redoable(): RecordedEdit | null {
    return this.#editAt(this.#state.stack.redoable);
  }

  #editAt(edit: number | null): RecordedEdit | null {
    return edit === null ? null : this.#read((connection) => readEdit(connection, edit));
  }

  /**
   * All that ever stood in one place, oldest first. Where a whole phase or run was added, replaced or removed, `before` and `after`
   * are what that meant for this place: a reading, a text, the value of a field.
   *
   * @param phase null where `field` is one of the run itself; a phase's timing has the field "timing"
   */
  history(run: number, phase: PhaseName | null, field: string): RecordedChange[] {
    return this.#read((connection) => readHistory(connection, run, phase, field));
  }

  /** A variant as it stands, or as it stood last; null where there never was one of that number. */
  variantEver(item: number): StoredVariant | null {
    return this.#read((connection) => variantEver(connection, item));
  }

  /** Edits, newest first; only those before the edit `before`. */
  record(limit: number, before?: number): RecordedEdit[] {
    return this.#read((connection) => readEdits(connection, limit, before ?? null));
  }

  /** Changes of an edit, the last first. Levels are lists of pairs; a run that was added is `{ seal }`. */
  changesOf(edit: number): RecordedChange[] {
    return this.#read((connection) => rowsOf(connection, edit).reverse().map(recordedChange));
  }

  /**
   * Makes all seals anew and compares them. Yields the share done, 0 to 1, every few milliseconds' work.
   *
   * @throws StoreFault "damaged" at the first that does not fit
   */
  *verify(): Generator<number, void> {
    if (this.#isNewer) throw new StoreFault("newer", "seals of a later version are not known");
    try {
      yield* verifyStudy(this.#connection);
    } catch (error) {
      throw asFault(error);
    }
  }

  /** SHA-256 over all content, through the seals of the runs: the record and the counters are not part of it. */
  contentDigest(): string {
    return this.#read((connection) => {
      const runs = connection.all("SELECT item, seal FROM run NOT INDEXED ORDER BY item");
      return textSeal(smallContent(connection) + JSON.stringify(runs.map((row) => Object.values(row))));
    });
  }

  /** What turns the content of this file into that of another of the same lineage. */
  changesTo(other: StudyDatabase): Change[] {
    return this.#read((ours) => changesBetween(ours, other.#connection));
  }

  /** Changes when another connection has written. */
  dataVersion(): number {
    return this.#read((connection) => connection.number("PRAGMA data_version"));
  }

  /** Copies what this connection holds, also where the file has lost its name or gave it to another. */
  async copyTo(to: string): Promise<void> {
    await backup(this.#connection.database, to, { rate: allPages });
  }

  /** `asItIs`: nothing beside the file is put away, as it may be another's by now. */
  close(asItIs = this.isReadOnly): void {
    this.#connection.close(asItIs);
  }
}
