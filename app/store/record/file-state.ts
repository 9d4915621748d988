import type { Connection } from "../schema/connection.ts";
import { type RecordEnd, readRecordEnd } from "./change-log.ts";
import { type Numbered, readCounters } from "./counters.ts";
import { UndoStack } from "./undo-stack.ts";

/** What is kept in memory of an open file. */
export interface FileState {
  end: RecordEnd;
  readonly stack: UndoStack;
  /** The next number of each subject, as it stands in the file. */
  readonly stored: Map<Numbered, number>;
  /** The next number of each subject, past those that were given out since. */
  readonly next: Map<Numbered, number>;
}

export function readFileState(connection: Connection): FileState {
  if (connection.salvages) {
    return { end: { id: 0, edit: 0, seal: "" }, stack: new UndoStack(), stored: new Map(), next: new Map() };
  }
  const stored = readCounters(connection);
  const stack = UndoStack.ofRecord(connection);
  return { end: readRecordEnd(connection), stack, stored, next: new Map(stored) };
}
