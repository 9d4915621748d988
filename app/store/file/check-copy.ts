import { join } from "node:path";
import { DatabaseSync } from "node:sqlite";
import { setImmediate } from "node:timers/promises";
import { StoreFault } from "../fault.ts";
import { StudyDatabase } from "../study-database.ts";
import { diskFault } from "./disk.ts";
import { newestVersion, openingOf, type Places } from "./places.ts";
import { makePrivateFolder, removePrivateFolder } from "./private-folder.ts";
import { copyWithJournal } from "./snapshot.ts";

/** What a copy of a study holds, as it was found on reading it to its end. */
export interface CheckedCopy {
  readonly identity: string;
  readonly runs: number;
  readonly edits: number;
  readonly mark: string;
}

/** Tells two states of a study apart: the number and the time of its last edit. */
export function markOf(database: StudyDatabase): string {
  const last = database.record(1)[0];
  return last === undefined ? "0" : `${last.edit} ${last.at}`;
}

export function editsOf(database: StudyDatabase): number {
  return database.record(1)[0]?.edit ?? 0;
}

/**
 * Opens a study that nobody else uses, to read; one of an older layout through a copy that is brought to ours, so that what lies at
 * `path` stays as it is. `done` takes the copy away.
 */
export function openToRead(
  path: string,
  places: Places,
): { readonly database: StudyDatabase; readonly done: () => void } {
  if (versionOf(path) >= newestVersion(places)) {
    return { database: StudyDatabase.open(path, openingOf(places, true)), done: () => {} };
  }
  const folder = makePrivateFolder(places);
  try {
    const copy = join(folder, "study.boilstudy");
    copyWithJournal(path, copy);
    StudyDatabase.open(copy, openingOf(places, false)).close();
    const database = StudyDatabase.open(copy, openingOf(places, true));
    return { database, done: () => removePrivateFolder(folder) };
  } catch (error) {
    removePrivateFolder(folder);
    throw error;
  }
}

/** Opens a copy that was just made, as anyone would who is given it. @throws {StoreFault} whatever is wrong with it. */
export function checkThatItOpens(path: string, places: Places): void {
  const { database, done } = openToRead(path, places);
  database.close();
  done();
}

/** Reads a copy to its end. @throws {StoreFault} "damaged" and whatever else is wrong with it. */
export function checkCopy(path: string, places: Places): CheckedCopy {
  const steps = readToEnd(path, places);
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
  }
}

/** The same, letting others have their turn in between. */
export async function checkCopyInSteps(path: string, places: Places): Promise<CheckedCopy> {
  const steps = readToEnd(path, places);
  for (let turn = performance.now(); ; ) {
    const step = steps.next();
    if (step.done) return step.value;
    if (performance.now() - turn < 10) continue;
    await setImmediate();
    turn = performance.now();
  }
}

function* readToEnd(path: string, places: Places): Generator<number, CheckedCopy> {
  checkPages(path, "integrity_check");
  yield 0;
  const { database, done } = openToRead(path, places);
  try {
    yield* database.verify();
    const { identity } = database;
    return { identity, runs: database.runLines().length, edits: editsOf(database), mark: markOf(database) };
  } finally {
    database.close();
    done();
  }
}

/** SQLite's own check of its pages; nothing is written. @throws {StoreFault} "damaged" */
export function checkPages(path: string, how: "integrity_check" | "quick_check"): void {
  const connection = new DatabaseSync(path, { readOnly: true, defensive: true, timeout: 5_000 });
  try {
    connection.exec("PRAGMA trusted_schema = OFF");
    const found = Object.values(connection.prepare(`PRAGMA ${how}(1)`).get() ?? {})[0];
    if (found !== "ok") throw new StoreFault("damaged", String(found));
  } catch (error) {
    throw diskFault(error);
  } finally {
    connection.close();
  }
}

function versionOf(path: string): number {
  const connection = new DatabaseSync(path, { readOnly: true, timeout: 5_000 });
  try {
    return Number(Object.values(connection.prepare("PRAGMA user_version").get() ?? {})[0]);
  } catch (error) {
    throw diskFault(error);
  } finally {
    connection.close();
  }
}
