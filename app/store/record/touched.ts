import type { Change, StoredPhase } from "../content.ts";
import type { Numbered } from "./counters.ts";

/** What an edit has touched: which seals to make anew, and which numbers it used. */
export interface Touched {
  readonly runs: Set<number>;
  isStudy: boolean;
  /** Runs added less runs removed. */
  addedRuns: number;
  /** The greatest number used. */
  readonly used: Map<Numbered, number>;
}

export const nothingTouched = (): Touched => ({ runs: new Set(), isStudy: false, addedRuns: 0, used: new Map() });

function note({ used }: Touched, subject: Numbered, number: number): void {
  if (number > (used.get(subject) ?? 0)) used.set(subject, number);
}

function noteActs(touched: Touched, { readings }: StoredPhase): void {
  for (const { act } of readings.values()) note(touched, "act", act);
}

/** Numbers that a change brings into the file. */
export function noteNumbers(touched: Touched, change: Change): void {
  if (change.after === null) return;
  switch (change.subject) {
    case "run":
      note(touched, "run", change.item);
      for (const phase of change.after.phases) noteActs(touched, phase);
      return;
    case "phase":
      noteActs(touched, change.after);
      return;
    case "reading":
      note(touched, "act", change.after.act);
      return;
    case "variant":
    case "fuel":
    case "pot":
    case "instrument":
    case "attachment":
    case "remark":
    case "series":
      note(touched, change.subject, change.item);
      return;
    default:
      return;
  }
}
