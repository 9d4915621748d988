import type { ChangeStrip, Locale, Method, Problem, QuantityName, RunsAndChangeChart } from "../../core/index.ts";
import type { ComparisonChoice, SetUpSubject } from "./requests.ts";

/** A question about the study, a variant, a run or one reading. */
export interface QuestionView {
  /** Names the question for an answer to it; the same as long as it is asked of the same reading. */
  readonly id: string;
  /** Stable name of the rule that asks. */
  readonly rule: string;
  readonly run: string | null;
  readonly phase: string | null;
  readonly column: string | null;
  /** The part of the set-up where it is answered, if there is one. */
  readonly setUp: SetUpSubject | null;
  readonly message: string;
  /** Why it is right as it stands; null while the question is open. */
  readonly answer: AnswerView | null;
}

export interface AnswerView {
  readonly because: string;
  readonly who: string;
  /** ISO 8601, UTC. */
  readonly at: string;
}

/** All questions of a study: where the answer is null, open. */
export interface QuestionsView {
  readonly questions: readonly (QuestionView & {
    /** Item of the run, by which edits name it. */
    readonly runId: string | null;
    readonly variant: string | null;
  })[];
}

export interface VariantView {
  readonly name: string;
  /** Position in the study, from 0: chooses colour and shape. */
  readonly index: number;
  /** All of its runs, those that do not count among them. */
  readonly runs: number;
  /** Without those that are on the Bench. */
  readonly leftOut: number;
  /** Runs that are not finished yet. */
  readonly onBench: number;
  readonly factors: readonly { readonly factor: string; readonly level: string }[];
}

/** The edit that undo or redo would be of: what it was, in words. */
export interface StepView {
  readonly edit: number;
  /** "the change of pot 1 at the end in run 7 from 4980 to 5080" */
  readonly label: string;
}

/** How far a study is. */
export interface StudyState {
  readonly study: string;
  /** Goes up with every edit, and when more of the study has been looked at. */
  readonly revision: number;
  readonly undo: StepView | null;
  readonly redo: StepView | null;
  /** Why nothing can be changed, and what to do; null where it can. */
  readonly readOnly: string | null;
  /** Share of the study that has been looked at, 0 to 1; null when all of it has. Until then questions are missing. */
  readonly looking: number | null;
  /** What to know of the file: it is worked on as a copy, a backup failed, … Sentences. */
  readonly fileNotes: readonly string[];
}

/** What the Study screen and the cover of every screen show. */
export interface StudyView extends StudyState {
  /** Where the study file is, for a person to read. */
  readonly file: string;
  /** Names of those who have made edits in this study or on this machine, the latest first. */
  readonly names: readonly string[];
  readonly locale: Locale;
  readonly name: string;
  /** The study is invented: shown wherever its results are. */
  readonly isExample: boolean;
  readonly method: Method;
  readonly confidence: number;
  readonly runs: number;
  /** Without those that are on the Bench. */
  readonly leftOut: number;
  /** Runs that are not finished yet, in the order of the study. */
  readonly onBench: readonly { readonly id: string; readonly run: string }[];
  readonly variants: readonly VariantView[];
  readonly blocks: readonly string[];
  readonly operators: readonly string[];
  readonly fuels: readonly { readonly name: string; readonly detail: string }[];
  /** "char", "fuel balance", …: what the settings say of it, in words. */
  readonly settings: readonly { readonly name: string; readonly detail: string }[];
  /** How many questions are open. */
  readonly openQuestions: number;
  /** The first of them, those about the whole study before those of its runs; all of them: `questions.show`. */
  readonly questions: readonly QuestionView[];
  readonly answeredQuestions: readonly QuestionView[];
  readonly notes: readonly string[];
  readonly inputs: readonly { readonly file: string; readonly sha256: string }[];
  /** Without those that are on the Bench. */
  readonly leftOutRuns: readonly { readonly run: string; readonly reason: string }[];
  readonly leftOutRows: readonly { readonly file: string; readonly row: number; readonly reasons: readonly string[] }[];
}

export interface MissingView {
  readonly quantity: QuantityName;
  readonly because: string;
}

/** One phase of a run: readings as the readings file would write them, results as numbers in the quantity's unit. */
export interface PhaseView {
  readonly phase: string;
  /** In the order of `RunsView.readingColumns`; "" where nothing was recorded. */
  readonly readings: readonly string[];
  readonly values: readonly { readonly quantity: QuantityName; readonly value: number }[];
  readonly missing: readonly MissingView[];
  readonly questions: readonly QuestionView[];
}

export interface RunView {
  /** Stays the same when the run is renamed: edits name the run by it. */
  readonly id: string;
  readonly run: string;
  readonly variant: string;
  readonly variantIndex: number;
  readonly date: string | null;
  readonly order: number | null;
  readonly block: string | null;
  readonly operator: string | null;
  readonly leftOut: string | null;
  readonly phases: readonly PhaseView[];
  readonly values: readonly { readonly quantity: QuantityName; readonly value: number }[];
  readonly missing: readonly MissingView[];
  /** All open questions about this run, those of its phases included. */
  readonly questions: readonly QuestionView[];
  readonly notes: readonly string[];
}

export interface RunsView {
  /** Headings of the phase's readings, in the order of the layout; only those that occur. */
  readonly readingColumns: readonly string[];
  /** Quantities that occur in some phase, and for whole runs, in the order in which they are shown. */
  readonly phaseQuantities: readonly QuantityName[];
  readonly runQuantities: readonly QuantityName[];
  readonly runs: readonly RunView[];
}

/** An edit is on disk. */
export interface EditedView extends StudyState {
  /** What was done, as one sentence: told to the person. */
  readonly done: string;
  /** The run that was begun; null for other edits. */
  readonly run: string | null;
}

/** One step of the record of edits. */
export interface RecordedView {
  readonly edit: number;
  /** ISO 8601, UTC. */
  readonly at: string;
  readonly who: string;
  /** What was done, in words. */
  readonly what: string;
  readonly why: string | null;
  readonly way: "edit" | "undo" | "redo";
}

export interface RecordView {
  readonly edits: readonly RecordedView[];
  /** There are older ones. */
  readonly more: boolean;
}

/** All that ever stood in one cell, oldest first. */
export interface CellHistoryView {
  readonly steps: readonly (RecordedView & {
    /** As the cell shows it; "" where nothing stood there. */
    readonly before: string;
    readonly after: string;
  })[];
}

export interface BackupView {
  readonly id: string;
  readonly at: string;
  readonly runs: number;
  readonly edits: number;
  readonly kilobytes: number;
  /** Why it was made, in words. */
  readonly why: string;
}

export interface BackupsView {
  /** Newest first. */
  readonly backups: readonly BackupView[];
  /** Where they are, for a person to read. */
  readonly folder: string;
}

/** A study that can be opened. */
export interface ShelfEntry {
  readonly place: string;
  readonly name: string;
  /** Where it is, for a person to read. */
  readonly file: string;
  /** When it was last opened here or changed, ISO 8601, UTC. */
  readonly at: string;
  /** Opened here before; the others lie in the studies folder. */
  readonly recent: boolean;
  /** It is not where it was. */
  readonly isGone: boolean;
}

export interface ShelfView {
  readonly studies: readonly ShelfEntry[];
  /** Where new studies are put, for a person to read. */
  readonly folder: string;
  readonly names: readonly string[];
}

/** A file on its way in: its cells, what is wrong with it, and what taking it would give. */
export interface ImportView {
  readonly importId: string;
  readonly readingsFile: string;
  readonly settingsFile: string | null;
  readonly columns: readonly string[];
  /** Blank lines are not listed; `row` counts them. Cells as many as columns, or as the row has. */
  readonly rows: readonly { readonly row: number; readonly cells: readonly string[]; readonly leftOut: boolean }[];
  /** Errors and questions, all at once, in order of row. */
  readonly problems: readonly Problem[];
  /** What was assumed in reading ("semicolons separate the cells, decimal commas") and columns kept as notes. */
  readonly notes: readonly string[];
  /** What would be taken. Null while an error of the whole file stands. */
  readonly summary: { readonly runs: number; readonly phases: number; readonly variants: number } | null;
  /** True when no error stands. */
  readonly acceptable: boolean;
  readonly suggestedName: string;
}

export interface QuantityChoiceView {
  /** "taskFuel5L", "cold-start.thermalEfficiency". */
  readonly key: string;
  /** "wood for 5 litres", "thermal efficiency, cold start". */
  readonly label: string;
  /** As shown: "g", "%". */
  readonly unit: string;
}

export interface CompareView {
  readonly choice: { readonly quantity: string; readonly variant: string; readonly baseline: string };
  readonly quantities: readonly QuantityChoiceView[];
  readonly variants: readonly VariantView[];
  /** The finding as one sentence without its bracket, and the bracket's content as a line of its own. */
  readonly finding: string;
  readonly detail: string;
  readonly tone: "sure" | "open";
  /** What to know before relying on it; blocks ignored, one run, … */
  readonly warnings: readonly string[];
  readonly chart: RunsAndChangeChart;
  /** The chart's data as a table. */
  readonly chartTable: readonly {
    readonly variant: string;
    readonly runs: readonly { readonly name: string; readonly text: string; readonly leftOut: boolean }[];
    readonly mean: string;
    readonly interval: string;
    readonly standardDeviation: string;
    readonly coefficientOfVariation: string;
    readonly change: string;
  }[];
  /** Everything measured, chosen variant against baseline. */
  readonly everything: readonly {
    readonly key: string;
    readonly label: string;
    /** Mean ± half-width of the interval. */
    readonly baseline: string;
    readonly variant: string;
    readonly strip: ChangeStrip | null;
    readonly verdict: string;
    readonly tone: "sure" | "open";
    /** The other method's formula, shown for what it is. */
    readonly formulaOnly: boolean;
  }[];
  /** What would make it surer: sentences. */
  readonly surer: readonly string[];
}

/** Nothing to compare: why, and what to do. */
export interface CompareEmptyView {
  readonly because: string;
  readonly choices: readonly QuantityChoiceView[];
  readonly choice: ComparisonChoice;
}

export interface ReportView {
  /** Address of the preview under the host's own origin, "preview/…". */
  readonly previewPath: string;
  readonly title: string;
  readonly finding: string;
}

export interface ExportedFile {
  readonly fileName: string;
  readonly mediaType: string;
  readonly contentBase64: string;
}

/** What comes of files that were handed over to be analysed. */
export type FilesAnalysed =
  | { readonly outcome: "refused"; readonly problems: readonly Problem[] }
  | { readonly outcome: "unknownBaseline"; readonly variants: readonly string[] }
  | { readonly outcome: "done"; readonly files: readonly ExportedFile[] };
