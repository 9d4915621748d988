import type { QuantityKey } from "../quantity/quantity-key.ts";

/** A file that results were made from. */
export interface InputFile {
  readonly file: string;
  readonly sha256: string;
}

/** A row that is not in the study: left out because of errors in it, by hand, or because its run was abandoned before it was whole. */
export interface LeftOutRow {
  readonly file: string;
  readonly row: number;
  readonly run: string | null;
  readonly phase: string | null;
  readonly reasons: readonly string[];
}

/** What is known of a study beside its readings. */
export interface StudyProvenance {
  readonly inputs: readonly InputFile[];
  readonly leftOutRows: readonly LeftOutRow[];
  /** Ids of runs that are being made: they do not count yet, and are not told among those that were left out. */
  readonly runsOnBench?: readonly string[];
  /** What was assumed in reading the files. */
  readonly readingNotes: readonly string[];
  readonly isExample: boolean;
  readonly program: { readonly name: string; readonly version: string };
}

/** What the report is to show first. `variant` null: all against the baseline. */
export interface ReportChoice {
  readonly key: QuantityKey | null;
  readonly variant: string | null;
  readonly baseline: string;
}
