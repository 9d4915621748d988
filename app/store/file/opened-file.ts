import type { NewStudy as NewContent, StudyDatabase } from "../study-database.ts";
import type { Backup } from "./backup.ts";

/** What a new study is made of; who makes it, and with what, is known from the places. */
export type NewStudy = Omit<NewContent, "who" | "program">;

/** Who has a study open for writing. */
export interface Holder {
  readonly who: string;
  readonly process: number;
  readonly machine: string;
  /** ISO 8601, UTC. */
  readonly since: string;
}

/** Why a study can be looked at and not changed. */
export type ReadOnlyReason =
  | { readonly because: "held"; readonly holder: Holder | null }
  | { readonly because: "damaged" | "newer" | "readOnlyPlace"; readonly detail: string };

/** What happened at opening that a person should know. */
export interface FileNote {
  /**
   * `recovered`: an edit that was cut off was taken back. `migrated`: brought from an older layout. `workingCopy`: worked on in the
   * program's own folder. `workingCopyTakenUp`: edits that were never written back are there again. `workingCopySetAside`: such edits
   * were found, and the original is another by now: they are kept in the file of `detail`.
   */
  readonly note: "recovered" | "migrated" | "workingCopy" | "workingCopyTakenUp" | "workingCopySetAside";
  /** A path, or the version that it came from. */
  readonly detail: string;
}

/** A study that is open: its database, and everything about the file around it. */
export interface OpenedFile {
  /** Of the original, of the working copy, or of a private copy. Another one after `refresh` has said true. */
  readonly database: StudyDatabase;
  /** The original: its real path. */
  readonly path: string;
  readonly readOnly: ReadOnlyReason | null;
  readonly notes: readonly FileNote[];
  /**
   * To be called before each edit, and before anything is read for it.
   * @throws {StoreFault} "gone" where the file vanished, "changedOutside" where another file lies at its path or another program
   * wrote to it, "readOnly".
   */
  beforeEdit(): void;
  /**
   * Whether to open the study anew: another file lies at its path, or another program has written to it. One that is gone is not
   * replaced: what is open is then all that there is of it.
   */
  isReplaced(): boolean;
  /** Who writes now: told to others who find the study held. */
  isWrittenBy(who: string): void;
  /** For the view of a held study: reads the original again where it changed. True where it did; `database` is a new one then. */
  refresh(): boolean;
  /**
   * Working copies: to the original. Otherwise there is nothing to do.
   * @throws {StoreFault} "changedOutside" where the original is not as it was left: nothing is overwritten, both are kept. "gone".
   */
  writeBack(): Promise<void>;
  /** Null where nothing changed since the last backup of this file. */
  backUp(why?: Backup["why"]): Promise<Backup | null>;
  /** A new file with all that is in the study, also where its own file was deleted or replaced meanwhile. @throws {StoreFault} "exists" where there is one. */
  saveCopy(to: string): Promise<void>;
  /** The same as bytes. */
  copyAsBytes(): Promise<Uint8Array>;
  /**
   * Writes back, backs up if changed, lets the lock go. All is let go even where it throws; a working copy that could not be
   * written back is kept.
   */
  close(): Promise<void>;
}
