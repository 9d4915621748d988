import type { Method, PhaseName } from "../../core/index.ts";

/**
 * What a study file holds, as plain data, and where in it a change is made. Everything that people name is a key of a Map or a
 * text, never a property: a variant may be called `__proto__`.
 */

/** One reading of a phase. Readings with one `act` are one act of reading an instrument, with one error and one value. */
export interface StoredReading {
  readonly act: number;
  readonly value: number;
}

/** How the times of a phase were written; `duration` where only that was given. */
export type StoredTiming = "time" | "dateTime" | "utcDateTime" | "duration";

/** One phase of a run: its row of the readings file, cell by cell. */
export interface StoredPhase {
  readonly phase: PhaseName;
  readonly timing: StoredTiming;
  /** Row in the file it came from, as a spreadsheet counts; null where it did not come from a file. */
  readonly sourceRow: number | null;
  /**
   * Numbers by their column of the readings layout, in its units. `start`, `end` and `boiled_at` are minutes after midnight of
   * the run's first day.
   */
  readonly readings: ReadonlyMap<string, StoredReading>;
  /** Texts by column: those of the layout (`fuel`, `lid`, `note`, …) and headings that it does not know; in their order. */
  readonly texts: ReadonlyMap<string, string>;
}

/** One run, without its identity: what is recorded of it. */
export interface StoredRun {
  readonly name: string;
  /** From 0; the order of the runs in the study. Never two of one position. */
  readonly position: number;
  /** Item number of its variant. */
  readonly variant: number;
  readonly method: Method;
  readonly date: string | null;
  readonly order: number | null;
  readonly block: string | null;
  readonly operator: string | null;
  /** Reason for leaving it out; null where it counts. Never empty. */
  readonly leftOut: string | null;
  /** Levels of design factors that differ from those of the variant; null: the run has no level where the variant has one. */
  readonly levels: ReadonlyMap<string, string | null>;
  /** Item number of the attachment it was read from. */
  readonly attachment: number | null;
  readonly phases: readonly StoredPhase[];
}

export interface StoredVariant {
  readonly name: string;
  readonly position: number;
  /** Level of each design factor, by the factor's name. */
  readonly levels: ReadonlyMap<string, string>;
}

/** A fuel, a pot, an instrument or a setting: `value` is data as JSON has it, checked by whoever reads it. */
export interface StoredNamed {
  readonly name: string;
  readonly value: unknown;
}

/** A file that readings came from. The file itself is not kept, its digest is. */
export interface StoredAttachment {
  readonly file: string;
  readonly sha256: string;
}

/**
 * What was said when a file was read (an assumption, a question, a row that was not taken), what somebody answered to a
 * question, or how far a run on the Bench is.
 */
export interface StoredRemark {
  readonly kind: "assumed" | "question" | "rowLeftOut" | "answer" | "bench";
  /** The run it is about, if it is in the study. */
  readonly run: number | null;
  readonly value: unknown;
}

/** A series of a logger: samples at times, minutes after midnight of the run's first day. */
export interface StoredSeries {
  readonly run: number;
  readonly name: string;
  readonly unit: string;
  readonly minutes: Float64Array;
  readonly values: Float64Array;
}

/** What is known without reading any run. */
export interface StoredHead {
  /** Stays with the file and its copies. */
  readonly identity: string;
  readonly name: string;
  readonly method: Method;
  /** 0.5 ≤ confidence < 1. */
  readonly confidence: number;
  readonly isExample: boolean;
  readonly createdAt: string;
  readonly createdBy: string;
  /** By item number, in order of position or of item. */
  readonly variants: ReadonlyMap<number, StoredVariant>;
  readonly fuels: ReadonlyMap<number, StoredNamed>;
  readonly pots: ReadonlyMap<number, StoredNamed>;
  readonly instruments: ReadonlyMap<number, StoredNamed>;
  /** By name: "charNetCalorific", "monteCarlo", … */
  readonly settings: ReadonlyMap<string, unknown>;
  readonly attachments: ReadonlyMap<number, StoredAttachment>;
  readonly remarks: ReadonlyMap<number, StoredRemark>;
}

/** What a list of runs needs, without their phases. */
export interface StoredRunLine {
  readonly run: number;
  readonly name: string;
  readonly position: number;
  readonly variant: number;
  readonly method: Method;
  readonly block: string | null;
  readonly operator: string | null;
  readonly leftOut: string | null;
  /** Digest of all that is recorded of the run: the same content has the same seal. */
  readonly seal: string;
}

/** What stands in one column of a phase's row. */
export interface StoredCell {
  readonly run: number;
  readonly phase: PhaseName;
  readonly value: number | string;
}

export const runFields = [
  "name",
  "variant",
  "method",
  "date",
  "order",
  "block",
  "operator",
  "leftOut",
  "levels",
] as const;
export type RunField = (typeof runFields)[number];

/** A place of the file, and what stands there (null: nothing). */
export type Change =
  | { readonly subject: "study"; readonly field: "name"; readonly after: string }
  | { readonly subject: "study"; readonly field: "method"; readonly after: Method }
  | { readonly subject: "study"; readonly field: "confidence"; readonly after: number }
  | { readonly subject: "setting"; readonly field: string; readonly after: unknown }
  | { readonly subject: "variant"; readonly item: number; readonly after: StoredVariant | null }
  | {
      readonly subject: "fuel" | "pot" | "instrument";
      readonly item: number;
      readonly after: StoredNamed | null;
    }
  | { readonly subject: "attachment"; readonly item: number; readonly after: StoredAttachment | null }
  | { readonly subject: "remark"; readonly item: number; readonly after: StoredRemark | null }
  | { readonly subject: "series"; readonly item: number; readonly after: StoredSeries | null }
  /** A whole run, with its phases and readings. Remarks and series about it must go first, and come after. */
  | { readonly subject: "run"; readonly item: number; readonly after: StoredRun | null }
  /** One value of a run, as it stands in `StoredRun` (levels as a Map). */
  | { readonly subject: "runField"; readonly item: number; readonly field: RunField; readonly after: unknown }
  | {
      readonly subject: "phase";
      readonly item: number;
      readonly phase: PhaseName;
      readonly after: StoredPhase | null;
    }
  | {
      readonly subject: "timing";
      readonly item: number;
      readonly phase: PhaseName;
      readonly after: StoredTiming;
    }
  | {
      readonly subject: "reading";
      readonly item: number;
      readonly phase: PhaseName;
      readonly field: string;
      readonly after: StoredReading | null;
    }
  | {
      readonly subject: "text";
      readonly item: number;
      readonly phase: PhaseName;
      readonly field: string;
      readonly after: string | null;
    };

export type Subject = Change["subject"];

/** Who makes an edit, what it is, and why: what the record keeps beside what was and what is. */
export interface EditNote {
  readonly who: string;
  /** Stable name of the kind of edit ("cell", "leaveOut", "import"), put into words where it is shown. */
  readonly what: string;
  /** What the words need: names and numbers as they were then. */
  readonly about: Readonly<Record<string, string | number | null>>;
  readonly why: string | null;
}

/** One edit of the record. */
export interface RecordedEdit extends EditNote {
  readonly edit: number;
  /** ISO 8601, UTC. */
  readonly at: string;
  readonly way: "edit" | "undo" | "redo";
  /** The edit that an undo or redo is of; null for an edit. */
  readonly of: number | null;
}

/** One change of the record: `before` and `after` as JSON; a whole run that was added has its seal in place of its content. */
export interface RecordedChange extends RecordedEdit {
  readonly subject: Subject;
  readonly item: number | null;
  readonly phase: PhaseName | null;
  readonly field: string | null;
  readonly before: unknown;
  readonly after: unknown;
}
