import type { Change, RecordedEdit } from "../content.ts";
import { StoreFault } from "../fault.ts";
import type { Connection } from "../schema/connection.ts";
import { EditLog, type RecordEnd } from "./change-log.ts";
import { type Numbered, writeCounter } from "./counters.ts";
import { placeOf, textAfter } from "./place.ts";
import { phaseKey, sealedRunAt, sealOfContent, textsOfPhase } from "./read-run.ts";
import { runSeal, seriesSeal } from "./seal.ts";
import { renewStudySeal } from "./study-seal.ts";
import { textAt } from "./text-at.ts";
import { nothingTouched, type Touched } from "./touched.ts";
import { writeChange } from "./write-change.ts";

/** A change to make. */
export interface Step {
  readonly change: Change;
  /** For a text that is put back: how many stood before it; null: it goes last. */
  readonly place: number | null;
}

/** The content of an added run or series is in the tables: the record keeps its seal alone. */
function recordedAfter(change: Change, text: string | null): string | null {
  if (text === null) return null;
  if (change.subject === "run") return JSON.stringify({ seal: runSeal(change.item, text, []) });
  if (change.subject === "series") return JSON.stringify({ seal: seriesSeal(change.item, text) });
  return text;
}

/** How many texts of the phase stand before the one that a change is about; null where it is about none. */
function placeAt(connection: Connection, change: Change): number | null {
  if (change.subject !== "text") return null;
  const names = [...textsOfPhase(connection, phaseKey(change.item, change.phase)).keys()];
  const place = names.indexOf(change.field);
  return place < 0 ? null : place;
}

function applyStep(connection: Connection, { change, place }: Step, log: EditLog, touched: Touched): void {
  const before = textAt(connection, change);
  const after = textAfter(change);
  if (before === after) return;
  const placeBefore = placeAt(connection, change);
  writeChange(connection, change, after, before !== null, place, touched);
  log.add({ ...placeOf(change), before, after: recordedAfter(change, after), place: placeBefore });
}

function renewSeals(connection: Connection, touched: Touched): void {
  for (const item of touched.runs) {
    const found = sealedRunAt(connection, item);
    if (found === null) continue;
    connection.write("UPDATE run SET seal = ? WHERE item = ?", sealOfContent(connection, item, found.run), item);
  }
  if (touched.addedRuns !== 0) connection.write("UPDATE study SET runs = runs + ?", touched.addedRuns);
  if (touched.isStudy || touched.addedRuns !== 0) renewStudySeal(connection);
}

/** The file would refuse at the end in any case, and could not say which. */
function refuseConflicts(connection: Connection): void {
  const row = connection.one("SELECT subject, number FROM conflict LIMIT 1");
  if (row === undefined) return;
  const what = row.subject === "act" ? "two values of the act of reading" : `two of subject ${row.subject} at position`;
  throw new StoreFault("refused", `${what} ${row.number}`);
}

export interface AppliedEdit {
  readonly end: RecordEnd;
  /** The greatest number used of each subject. */
  readonly used: ReadonlyMap<Numbered, number>;
}

/**
 * Makes the changes of one edit, records them and renews the seals; within a transaction. Changes that change nothing are left out.
 *
 * @throws StoreFault "refused" where none is left, or where the file refuses one
 */
export function applyEdit(
  connection: Connection,
  end: RecordEnd,
  edit: RecordedEdit,
  steps: Iterable<Step>,
  counters: ReadonlyMap<Numbered, number>,
): AppliedEdit {
  const log = new EditLog(connection, end, edit);
  const touched = nothingTouched();
  for (const step of steps) applyStep(connection, step, log, touched);
  if (log.isEmpty) throw new StoreFault("refused", "the edit changes nothing");
  refuseConflicts(connection);
  renewSeals(connection, touched);
  for (const [subject, number] of touched.used) {
    if (number >= (counters.get(subject) ?? 1)) writeCounter(connection, subject, number + 1);
  }
  return { end: log.end, used: touched.used };
}
