/**
 * Something wrong (error) or odd (question) in what was recorded.
 * A sentence for it comes from core/words; here is where it is and what stands there.
 */
export interface Problem {
  readonly severity: "error" | "question";
  /** Stable name of the rule, for tests and for help; never shown. */
  readonly rule: string;
  readonly file: string;
  /** As a spreadsheet counts, heading = 1; null for the whole file. */
  readonly row: number | null;
  /** Heading of the column; null for a whole row or file. */
  readonly column: string | null;
  /** The cell's own text; null where there is none. */
  readonly cell: string | null;
  readonly run: string | null;
  readonly phase: string | null;
  /** What is wrong and what to do about it, for a person. */
  readonly message: string;
}
