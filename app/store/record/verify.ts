import { StoreFault } from "../fault.ts";
import type { Connection, Row } from "../schema/connection.ts";
import { changeColumns } from "./change-log.ts";
import { readCounters } from "./counters.ts";
import { readRun, seriesAt } from "./read-run.ts";
import { changeSeal } from "./seal.ts";
import { studySeal } from "./study-seal.ts";

/** How many rows are taken at a time: a few milliseconds' work. */
const runsAtOnce = 25;
const changesAtOnce = 200;

const damaged = (detail: string): never => {
  throw new StoreFault("damaged", detail);
};

function checkStudy(connection: Connection): void {
  const row = connection.one("SELECT seal, runs FROM study WHERE item = 1");
  if (row?.seal !== studySeal(connection)) damaged("the seal of the study does not fit");
  const runs = connection.number("SELECT count(*) FROM run NOT INDEXED");
  if (row?.runs !== runs) damaged(`${runs} runs are there, ${row?.runs} were`);
}

/** Every counter lies beyond all numbers that are in use. */
function checkCounters(connection: Connection): void {
  for (const [subject, next] of readCounters(connection)) {
    const query = subject === "act" ? "SELECT max(act) FROM reading" : `SELECT max(item) FROM ${subject}`;
    if (next <= connection.number(query)) damaged(`the counter ${subject} is behind`);
  }
}

/** Tables but for the largest, whose indexes are compared by the run. */
const comparedByPage = [
  ...["study", "variant", "variant_level", "fuel", "pot", "instrument", "setting", "attachment", "remark"],
  ...["run", "run_level", "phase", "phase_text", "series", "counter", "migration", "conflict"],
];

/** Without its CHECKs, which take most of the time: what they are about is under the seals. */
function checkIndexes(connection: Connection, table: string): void {
  connection.database.exec("PRAGMA ignore_check_constraints = ON");
  try {
    const first = connection.all(`PRAGMA integrity_check(${table})`)[0];
    if (first?.integrity_check !== "ok") damaged(String(first?.integrity_check));
  } finally {
    connection.database.exec("PRAGMA ignore_check_constraints = OFF");
  }
}

/**
 * Each reading of these runs is where the index of acts says, and no other reading of its act has another value. SQLite trusts the
 * order of an index: what it finds among those of an act may be of another, where a bit was flipped.
 */
function checkActs(connection: Connection, first: number, last: number): void {
  const odd = connection.one(
    `SELECT r.act AS act FROM reading AS r NOT INDEXED WHERE r.phase BETWEEN ? AND ? AND (
       SELECT count(*) <> total(o.value = r.value AND o.act = r.act) OR NOT total(o.phase = r.phase AND o."column" = r."column")
       FROM reading AS o INDEXED BY reading_act WHERE o.act = r.act) LIMIT 1`,
    ...[first * 8, last * 8 + 7],
  );
  if (odd !== undefined) damaged(`readings of act ${odd.act} do not agree`);
}

function checkCount(connection: Connection, table: string, index: string): void {
  const inTable = connection.number(`SELECT count(*) FROM ${table} NOT INDEXED`);
  const inIndex = connection.number(`SELECT count(*) FROM ${table} INDEXED BY ${index}`);
  if (inTable !== inIndex) damaged(`${table} has ${inTable} rows, its index ${index} ${inIndex}`);
}

function checkChange(row: Row, id: number, before: string): string {
  const { seal, ...sealed } = row;
  if (row.id !== id) damaged(`change ${id} of the record is missing`);
  if (changeSeal(before, Object.values(sealed) as (string | number | null)[]) !== seal) {
    damaged(`the seal of change ${id} of the record does not fit`);
  }
  return seal as string;
}

/** Yields how many rows of the record were looked at. */
function* checkRecord(connection: Connection): Generator<number, void> {
  const query = `SELECT ${changeColumns.join(", ")}, seal FROM change NOT INDEXED WHERE id > ? ORDER BY id LIMIT ?`;
  let id = 0;
  let before = "";
  for (;;) {
    const rows = connection.all(query, id, changesAtOnce);
    for (const row of rows) {
      id += 1;
      before = checkChange(row, id, before);
    }
    if (rows.length === 0) return;
    yield rows.length;
  }
}

/** Yields how many runs were looked at. */
function* checkRuns(connection: Connection): Generator<number, void> {
  let last = 0;
  for (;;) {
    const rows = connection.all(
      "SELECT item FROM run NOT INDEXED WHERE item > ? ORDER BY item LIMIT ?",
      last,
      runsAtOnce,
    );
    const first = last + 1;
    for (const row of rows) {
      last = row.item as number;
      readRun(connection, last);
    }
    if (rows.length === 0) return;
    checkActs(connection, first, last);
    yield rows.length;
  }
}

/**
 * Makes every seal anew and compares it, and compares indexes with their tables. Yields the share done, 0 to 1, after every few
 * milliseconds' work; edits may be made between.
 *
 * @throws StoreFault "damaged" at the first that does not fit
 */
export function* verifyStudy(connection: Connection): Generator<number, void> {
  checkStudy(connection);
  checkCounters(connection);
  const runs = connection.number("SELECT count(*) FROM run NOT INDEXED");
  const series = connection.all("SELECT item FROM series NOT INDEXED ORDER BY item").map((row) => row.item as number);
  const changes = connection.number("SELECT max(id) FROM change");
  // A row of the record is a fifth of a run's work, roughly.
  const whole = runs + series.length + changes / 5 + 1;
  let done = 0;
  const share = (more: number): number => {
    done += more;
    return Math.min(done / whole, 1);
  };
  for (const table of comparedByPage) {
    checkIndexes(connection, table);
    yield share(0);
  }
  for (const looked of checkRuns(connection)) yield share(looked);
  checkCount(connection, "reading", "reading_act");
  for (const item of series) {
    seriesAt(connection, item);
    yield share(1);
  }
  for (const looked of checkRecord(connection)) yield share(looked / 5);
  checkIndexes(connection, "change");
  yield 1;
}
