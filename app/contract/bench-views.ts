import type { PhaseName } from "../../core/index.ts";
import type { QuestionView } from "./views.ts";

/** A run that was begun on the Bench and does not count yet. */
export interface BenchLineView {
  readonly id: string;
  readonly run: string;
  readonly variant: string;
  readonly date: string | null;
  readonly state: "open" | "abandoned";
  /** Why it was abandoned. */
  readonly reason: string | null;
  /** Title of the step that is to be done next; null when all are done. */
  readonly next: string | null;
}

/** What a new run would begin with. */
export interface BenchBeginView {
  readonly run: string;
  readonly variants: readonly string[];
  /** The one that was used last; null where there is none. */
  readonly variant: string | null;
  readonly pots: 1 | 2 | 3 | 4;
  readonly charAtHotStart: boolean;
  readonly emissions: boolean;
}

/** A field of a step. All texts are ready to be shown. */
export interface BenchFieldView {
  readonly phase: PhaseName | null;
  /** Column of the readings layout that edits name. */
  readonly column: string;
  readonly name: string;
  readonly what: string;
  readonly how: string;
  readonly feeds: string;
  readonly group: "mass" | "temperature" | "number" | "time" | "date" | "text" | "choice";
  readonly unit: string | null;
  readonly needed: boolean;
  /** What is recorded, on whichever basis; "" where nothing is. */
  readonly text: string;
  /** What would be known already, from an earlier phase or run: it is shown in the empty field, and Enter takes it. */
  readonly offered: { readonly text: string; readonly from: string } | null;
  /** What is usual here, beside the field; null where nothing is known of it. */
  readonly usual: string | null;
  readonly choices: readonly { readonly value: string; readonly label: string }[] | null;
  /** Enter passes over it: it was read once for the run, or is rarely noted; one key shows it. */
  readonly isPassed: boolean;
  /** Column of the same phase that does in its place: Enter passes over this field, too, once something is written there. */
  readonly insteadOf: string | null;
  /** The other basis on which the same may be read; `isIn` where that one is recorded. */
  readonly other: {
    readonly column: string;
    readonly name: string;
    readonly here: string;
    readonly isIn: boolean;
  } | null;
  /** The specimens of which the value is the mean, as text; null where it was not taken of several. */
  readonly specimens: string | null;
  /** Entry of the phase's fuel to which it belongs: 1 is the wood of the steps, 2 to 4 further ones. */
  readonly entry: 1 | 2 | 3 | 4 | null;
  /** Questions about it; answered ones too. */
  readonly questions: readonly QuestionView[];
}

export interface BenchStepView {
  readonly id: string;
  readonly title: string;
  readonly sentence: string;
  readonly phase: PhaseName | null;
  readonly fields: readonly BenchFieldView[];
  /** The column into which the step's moment goes. */
  readonly clock: {
    readonly act: "starts" | "boils" | "ends";
    readonly column: "start" | "end" | "boiled_at";
    /** What the key that stamps it says: "Lit now". */
    readonly press: string;
  } | null;
  /** Nothing that is needed in it lacks. */
  readonly isDone: boolean;
  /** What was written down, in a line: "pot 612 g · wood 1 504 g"; "" where nothing was. */
  readonly summary: string;
  /** Next further fuel entry that can be added in this phase; null where there is none. */
  readonly nextEntry: 2 | 3 | 4 | null;
}

/** The run clock as the service has it. Between answers the page counts on by its own steady clock. */
export interface BenchClockView {
  /** "since it was lit", "since the water boiled", "until 45 minutes are over". */
  readonly label: string;
  readonly phase: PhaseName;
  /** Since the moment that the label names. */
  readonly elapsedSeconds: number;
  /** What it counts down from; null where it counts up. */
  readonly countDownSeconds: number | null;
  /** What to know of it: the machine's time was set meanwhile. */
  readonly note: string | null;
}

export interface BenchResultView {
  readonly label: string;
  /** Null where it cannot be computed yet. */
  readonly text: string | null;
  /** Why not: "after the char", or a sentence. */
  readonly because: string | null;
}

export interface BenchRunView {
  readonly id: string;
  readonly run: string;
  readonly variant: string;
  readonly variantIndex: number;
  readonly date: string | null;
  readonly state: "open" | "abandoned" | "finished";
  readonly reason: string | null;
  readonly pots: 1 | 2 | 3 | 4;
  readonly charAtHotStart: boolean;
  readonly emissions: boolean;
  readonly steps: readonly BenchStepView[];
  /** The step that is to be done next; null when all are done. */
  readonly nextStep: string | null;
  /** Results by phase, as far as they go; those that wait for one reading say for which. */
  readonly soFar: readonly { readonly title: string; readonly results: readonly BenchResultView[] }[];
  /** Questions about the run that belong to no field. */
  readonly questions: readonly QuestionView[];
  readonly clock: BenchClockView | null;
  /** What lacks before it can be finished, a sentence each. */
  readonly lacks: readonly string[];
  /** Where that is, in the same order; empty where nothing was read yet. */
  readonly lacking: readonly { readonly phase: PhaseName | null; readonly column: string }[];
}

export interface BenchView {
  readonly unfinished: readonly BenchLineView[];
  readonly begin: BenchBeginView;
  /** Null where no run was asked for, or there is none of that number. */
  readonly bench: BenchRunView | null;
}
