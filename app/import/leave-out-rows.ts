import type { Problem } from "../../core/index.ts";
import { type LeftOutRow, type ReadingsInput, type ReadingsRead, readReadings } from "./read-readings.ts";

/** Rules whose errors are of the whole file, even where they name the heading's row: no row left out mends them. */
const wholeFileRules: ReadonlySet<string> = new Set([
  "file-too-large",
  "workbook",
  "encoding",
  "nul",
  "empty-file",
  "no-rows",
  "headings-not-found",
  "entry-beyond",
  "too-many-rows",
  "too-many-problems",
  "too-many-columns",
  "unterminated-quote",
  "stray-quote",
  "column-missing",
  "column-twice",
  "unit-unknown",
  "unit-missing",
  "unit-twice",
  "heading-missing",
  "heading-too-long",
  "nothing-left",
]);

/** Whether a problem is one of the whole file. */
export function isWholeFileProblem(problem: Problem): boolean {
  return problem.row === null || wholeFileRules.has(problem.rule);
}

/**
 * Rows that cannot be read as they are, in order. Where two rows contradict each other both are among them, since nobody
 * knows which is right.
 */
export function badRows(problems: readonly Problem[]): number[] {
  const rows = new Set<number>();
  for (const problem of problems) {
    if (problem.severity === "error" && problem.row !== null && !isWholeFileProblem(problem)) rows.add(problem.row);
  }
  return [...rows].sort((left, right) => left - right);
}

export interface ReadingsLeavingOut extends ReadingsRead {
  /** Errors of the rows that were left out, as they were found. */
  readonly setAside: readonly Problem[];
}

/**
 * Reads a table and leaves out every row that has an error, with its reasons. What rows say of their run still counts: a
 * left-out run does not come back because the row with the reason is bad. Errors of the whole file stand.
 */
export function readLeavingOutBadRows(input: ReadingsInput): ReadingsLeavingOut {
  const leaveOut = new Set(input.leaveOutRows ?? []);
  const setAside: Problem[] = [];
  const reasons = new Map<number, string[]>();
  for (;;) {
    const read = readReadings({ ...input, leaveOutRows: leaveOut });
    const bad = badRows(read.problems).filter((row) => !leaveOut.has(row));
    if (
      bad.length === 0 ||
      read.problems.some((problem) => problem.severity === "error" && isWholeFileProblem(problem))
    ) {
      const leftOutRows: LeftOutRow[] = read.leftOutRows.map((row) => ({
        ...row,
        reasons: reasons.get(row.row) ?? row.reasons,
      }));
      return { ...read, leftOutRows, setAside };
    }
    for (const row of bad) leaveOut.add(row);
    for (const problem of read.problems) {
      if (problem.severity !== "error" || problem.row === null) continue;
      setAside.push(problem);
      reasons.set(problem.row, [...(reasons.get(problem.row) ?? []), problem.message]);
    }
  }
}
