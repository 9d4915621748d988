import type { PhaseName, QuantityName } from "../../core/index.ts";
import type { QuestionView } from "./views.ts";

export type GridColumnKind = "run" | "reading" | "result" | "runResult";

/** A column of the grid of readings and results. */
export interface GridColumnView {
  /** "run.variant", "reading.pot1_start_g", "result.thermalEfficiency", "runResult.taskFuel5L". */
  readonly key: string;
  readonly kind: GridColumnKind;
  /** Column of the readings layout that edits name; null for results. */
  readonly column: string | null;
  /** For results. */
  readonly quantity: QuantityName | null;
  readonly isNumber: boolean;
  /** Nothing stands there in any row of the study: hidden until somebody wants to write there. */
  readonly isEmpty: boolean;
}

/** One row: a phase of a run. */
export interface GridRowView {
  readonly runId: string;
  readonly run: string;
  readonly phase: PhaseName;
  /** First row of its run in this order: results of the whole run stand there alone. */
  readonly isFirst: boolean;
  readonly variant: string;
  readonly variantIndex: number;
  readonly leftOut: string | null;
  /** By column: readings as the readings file writes them, results as numbers in the quantity's unit; null where there is none. */
  readonly cells: readonly (string | number | null)[];
  /**
   * Half-widths of the results' expanded uncertainty at the study's confidence, in the quantity's unit: in the order of the columns of
   * results; null where there is none. Empty where the settings state no errors.
   */
  readonly expanded: readonly (number | null)[];
  /** Why a result is missing, by the key of its column. */
  readonly missing: readonly { readonly key: string; readonly because: string }[];
  /** Open questions about the row's readings; about the run as a whole: with its first row. */
  readonly questions: readonly QuestionView[];
}

/** A part of the grid. */
export interface GridView {
  readonly revision: number;
  readonly columns: readonly GridColumnView[];
  /** The settings state errors of instruments or values: results have an uncertainty. */
  readonly hasErrors: boolean;
  /** Rows and runs that the choice has, and all that there are. */
  readonly rows: number;
  readonly runs: number;
  readonly allRows: number;
  readonly allRuns: number;
  readonly from: number;
  readonly part: readonly GridRowView[];
}
