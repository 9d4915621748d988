import type { Change } from "../content.ts";
import { StoreFault } from "../fault.ts";
import type { Connection } from "../schema/connection.ts";
import { phaseKey, textsOfPhase } from "./read-run.ts";

import { noteNumbers, type Touched } from "./touched.ts";
import { writePhase, writeReading, writeRun, writeRunField, writeSeries, writeText, writeTiming } from "./write-run.ts";
import {
  writeAttachment,
  writeNamed,
  writeRemark,
  writeSetting,
  writeStudyField,
  writeVariant,
} from "./write-study.ts";

/** What an edit of a part of a run needs to be there. */
function requireOwner(connection: Connection, change: Change): void {
  switch (change.subject) {
    case "runField":
    case "phase":
      if (connection.one("SELECT 1 FROM run WHERE item = ?", change.item) !== undefined) return;
      throw new StoreFault("refused", `there is no run ${change.item}`);
    case "timing":
    case "reading":
    case "text":
      if (connection.one("SELECT 1 FROM phase WHERE id = ?", phaseKey(change.item, change.phase)) !== undefined) return;
      throw new StoreFault("refused", `there is no phase ${change.phase} of run ${change.item}`);
    default:
      return;
  }
}

/** Which seals the change makes void. A series counts for the run that it was of and the one that it is of. */
function touch(connection: Connection, change: Change, isThere: boolean, touched: Touched): void {
  noteNumbers(touched, change);
  switch (change.subject) {
    case "series": {
      const row = connection.one("SELECT run FROM series WHERE item = ?", change.item);
      if (row !== undefined) touched.runs.add(row.run as number);
      if (change.after !== null) touched.runs.add(change.after.run);
      return;
    }
    case "run":
      touched.addedRuns += (change.after === null ? 0 : 1) - (isThere ? 1 : 0);
      if (isThere) touched.runs.add(change.item);
      return;
    case "runField":
    case "phase":
    case "timing":
    case "reading":
    case "text":
      touched.runs.add(change.item);
      return;
    default:
      touched.isStudy = true;
  }
}

function write(
  connection: Connection,
  change: Change,
  text: string | null,
  isThere: boolean,
  place: number | null,
): void {
  switch (change.subject) {
    case "study":
      writeStudyField(connection, change.field, change.after);
      return;
    case "setting":
      writeSetting(connection, change.field, change.after);
      return;
    case "variant":
      writeVariant(connection, change.item, change.after);
      return;
    case "fuel":
    case "pot":
    case "instrument":
      writeNamed(connection, change.subject, change.item, change.after);
      return;
    case "attachment":
      writeAttachment(connection, change.item, change.after);
      return;
    case "remark":
      writeRemark(connection, change.item, change.after);
      return;
    case "series":
      writeSeries(connection, change.item, change.after);
      return;
    case "run":
      writeRun(connection, change.item, change.after, text, isThere);
      return;
    case "runField":
      writeRunField(connection, change.item, change.field, change.after);
      return;
    case "phase":
      writePhase(connection, change.item, change.phase, change.after);
      return;
    case "timing":
      writeTiming(connection, change.item, change.phase, change.after);
      return;
    case "reading":
      writeReading(connection, change.item, change.phase, change.field, change.after);
      return;
    case "text": {
      const key = phaseKey(change.item, change.phase);
      writeText(connection, key, textsOfPhase(connection, key), change.field, change.after, place);
      return;
    }
  }
}

/**
 * Puts `after` at the place of a change.
 *
 * @param text of `after`
 * @param isThere whether anything stands there now
 * @param place for a text that is put back: how many stood before it; null: it goes last
 */
export function writeChange(
  connection: Connection,
  change: Change,
  text: string | null,
  isThere: boolean,
  place: number | null,
  touched: Touched,
): void {
  requireOwner(connection, change);
  touch(connection, change, isThere, touched);
  write(connection, change, text, isThere, place);
}
