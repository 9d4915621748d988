import type { Method, PhaseName } from "../../core/index.ts";
import type {
  Change,
  EditNote,
  RecordedChange,
  RecordedEdit,
  StoredHead,
  StoredRun,
  StoredRunLine,
  StoredSeries,
} from "./content.ts";
import type { Migration } from "./schema/migration.ts";

export interface NewStudy {
  readonly name: string;
  readonly method: Method;
  readonly confidence: number;
  readonly isExample: boolean;
  readonly who: string;
  /** "boilbench 0.1.0" */
  readonly program: string;
}

export interface CreateOptions {
  readonly migrations?: readonly Migration[];
  readonly now?: () => Date;
}

export interface OpenOptions {
  readonly readOnly: boolean;
  readonly program: string;
  readonly migrations?: readonly Migration[];
  readonly now?: () => Date;
  /** Called before the first migration runs; where it throws, none does. */
  readonly beforeMigrating?: (fromVersion: number) => void;
}

/** Things that are numbered; a number that was used once is never used again. */
export type Numbered = "variant" | "fuel" | "pot" | "instrument" | "attachment" | "remark" | "series" | "run" | "act";

export interface Undone {
  /** The edit that was recorded: the undo or the redo itself. */
  readonly done: RecordedEdit;
  /** What it was of. */
  readonly of: RecordedEdit;
  readonly changes: readonly RecordedChange[];
}

const notYet = (): never => {
  throw new Error("not written yet");
};

/** An open study file. */
export class StudyDatabase {
  readonly identity: string = "";
  readonly version: number = 0;
  readonly isReadOnly: boolean = true;

  static create(_path: string, _study: NewStudy, _options?: CreateOptions): StudyDatabase {
    return notYet();
  }
  static open(_path: string, _options: OpenOptions): StudyDatabase {
    return notYet();
  }
  head(): StoredHead {
    return notYet();
  }
  runLines(): StoredRunLine[] {
    return notYet();
  }
  run(_item: number): StoredRun {
    return notYet();
  }
  seriesOf(_run: number): ReadonlyMap<number, StoredSeries> {
    return notYet();
  }
  nextItem(_subject: Numbered, _count = 1): number {
    return notYet();
  }
  edit(_note: EditNote, _changes: readonly Change[]): RecordedEdit {
    return notYet();
  }
  undo(_who: string): Undone {
    return notYet();
  }
  redo(_who: string): Undone {
    return notYet();
  }
  undoable(): RecordedEdit | null {
    return notYet();
  }
  redoable(): RecordedEdit | null {
    return notYet();
  }
  history(_run: number, _phase: PhaseName | null, _field: string): RecordedChange[] {
    return notYet();
  }
  record(_limit: number, _before?: number): RecordedEdit[] {
    return notYet();
  }
  changesOf(_edit: number): RecordedChange[] {
    return notYet();
  }
  verify(): Generator<number, void> {
    return notYet();
  }
  contentDigest(): string {
    return notYet();
  }
  changesTo(_other: StudyDatabase): Change[] {
    return notYet();
  }
  dataVersion(): number {
    return notYet();
  }
  close(): void {
    notYet();
  }
}
