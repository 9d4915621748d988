import type { PhaseName } from "../../../core/index.ts";
import type { RunField, StoredPhase, StoredReading, StoredRun, StoredSeries, StoredTiming } from "../content.ts";
import { StoreFault } from "../fault.ts";
import type { Connection } from "../schema/connection.ts";
import { bytesOf, runText, seriesText } from "./content-text.ts";
import { phaseKey } from "./read-run.ts";
import { runSeal, seriesSeal } from "./seal.ts";

/** −0 is kept as 0: SQLite has no other, and the content must be what it was before it was stored. */
const plainZero = (value: number): number => value + 0;

const refuse = (detail: string): never => {
  throw new StoreFault("refused", detail);
};

function deletePhaseRows(connection: Connection, first: number, last: number): void {
  connection.write("DELETE FROM reading WHERE phase BETWEEN ? AND ?", first, last);
  connection.write("DELETE FROM phase_text WHERE phase BETWEEN ? AND ?", first, last);
  connection.write("DELETE FROM phase WHERE id BETWEEN ? AND ?", first, last);
}

const insertionOfReading = 'INSERT INTO reading (phase, "column", act, value) VALUES (?, ?, ?, ?)';
const insertionOfText = 'INSERT INTO phase_text (phase, "column", position, text) VALUES (?, ?, ?, ?)';

function insertReading(connection: Connection, key: number, column: string, { act, value }: StoredReading): void {
  connection.write(insertionOfReading, key, column, act, plainZero(value));
}

function insertTexts(connection: Connection, key: number, texts: Iterable<readonly [string, string]>): void {
  let position = 0;
  for (const [column, text] of texts) {
    connection.write(insertionOfText, key, column, position, text);
    position += 1;
  }
}

function insertPhase(connection: Connection, run: number, phase: StoredPhase): void {
  const key = phaseKey(run, phase.phase);
  connection.write(
    "INSERT INTO phase (id, run, name, timing, source_row) VALUES (?, ?, ?, ?, ?)",
    ...[key, run, phase.phase, phase.timing, phase.sourceRow],
  );
  for (const [column, reading] of phase.readings) insertReading(connection, key, column, reading);
  insertTexts(connection, key, phase.texts);
}

export function writePhase(connection: Connection, run: number, phase: PhaseName, content: StoredPhase | null): void {
  if (content !== null && content.phase !== phase) refuse(`phase ${content.phase} at the place of ${phase}`);
  const key = phaseKey(run, phase);
  deletePhaseRows(connection, key, key);
  if (content !== null) insertPhase(connection, run, content);
}

export function writeTiming(connection: Connection, run: number, phase: PhaseName, timing: StoredTiming): void {
  connection.write("UPDATE phase SET timing = ? WHERE id = ?", timing, phaseKey(run, phase));
}

export function writeReading(
  connection: Connection,
  run: number,
  phase: PhaseName,
  column: string,
  reading: StoredReading | null,
): void {
  const key = phaseKey(run, phase);
  connection.write('DELETE FROM reading WHERE phase = ? AND "column" = ?', key, column);
  if (reading !== null) insertReading(connection, key, column, reading);
}

/**
 * Writes a text, and keeps positions without gaps.
 *
 * @param texts those of the phase as they are now
 * @param place how many texts stand before it where it is new; null: all
 */
export function writeText(
  connection: Connection,
  key: number,
  texts: ReadonlyMap<string, string>,
  column: string,
  text: string | null,
  place: number | null,
): void {
  if (text !== null && texts.has(column)) {
    connection.write('UPDATE phase_text SET text = ? WHERE phase = ? AND "column" = ?', text, key, column);
    return;
  }
  const others = [...texts].filter(([name]) => name !== column);
  if (text !== null) others.splice(place ?? others.length, 0, [column, text]);
  connection.write("DELETE FROM phase_text WHERE phase = ?", key);
  insertTexts(connection, key, others);
}

function writeLevels(connection: Connection, run: number, levels: ReadonlyMap<string, string | null>): void {
  connection.write("DELETE FROM run_level WHERE run = ?", run);
  for (const [factor, level] of levels) {
    connection.write("INSERT INTO run_level (run, factor, level) VALUES (?, ?, ?)", run, factor, level);
  }
}

const columnOfField: Readonly<Record<Exclude<RunField, "levels">, string>> = {
  name: "name",
  variant: "variant",
  method: "method",
  date: "date",
  order: "run_order",
  block: "block",
  operator: "operator",
  leftOut: "left_out",
};

/** A number of SQLite that is not one would be stored as nothing. */
function orderOf(order: number | null): number | null {
  if (order !== null && !Number.isFinite(order)) refuse(`order ${order}`);
  return order === null ? null : plainZero(order);
}

export function writeRunField(connection: Connection, run: number, field: RunField, value: unknown): void {
  if (field === "levels") {
    writeLevels(connection, run, value as ReadonlyMap<string, string | null>);
    return;
  }
  const isNumber = field === "order" || field === "variant";
  // A STRICT table takes a number for a text and stores its digits.
  if (value !== null && typeof value !== (isNumber ? "number" : "string")) refuse(`${typeof value} for ${field}`);
  const bound = field === "order" ? orderOf(value as number | null) : (value as string | number | null);
  connection.write(`UPDATE run SET ${columnOfField[field]} = ? WHERE item = ?`, bound, run);
}

const fieldsOf = (run: StoredRun): (string | number | null)[] => [
  ...[run.name, run.position, run.variant, run.method, run.date, orderOf(run.order)],
  ...[run.block, run.operator, run.leftOut, run.attachment],
];

/**
 * Adds, replaces or removes a whole run, of which `text` is the text. One that is added is sealed at once, as a run without series: reading ten thousand of an
 * import back would double its time. All others are sealed at the end of the edit.
 */
export function writeRun(
  connection: Connection,
  item: number,
  run: StoredRun | null,
  text: string | null,
  isThere: boolean,
): void {
  if (isThere) {
    deletePhaseRows(connection, item * 8, item * 8 + 7);
    connection.write("DELETE FROM run_level WHERE run = ?", item);
  }
  if (run === null) {
    connection.write("DELETE FROM run WHERE item = ?", item);
    return;
  }
  if (isThere) {
    connection.write(
      `UPDATE run SET name = ?, position = ?, variant = ?, method = ?, date = ?, run_order = ?, block = ?, operator = ?,
       left_out = ?, attachment = ? WHERE item = ?`,
      ...fieldsOf(run),
      item,
    );
  } else {
    connection.write(
      `INSERT INTO run (name, position, variant, method, date, run_order, block, operator, left_out, attachment, item, seal)
       VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`,
      ...fieldsOf(run),
      item,
      runSeal(item, text ?? runText(run), []),
    );
  }
  for (const [factor, level] of run.levels) {
    connection.write("INSERT INTO run_level (run, factor, level) VALUES (?, ?, ?)", item, factor, level);
  }
  for (const phase of run.phases) insertPhase(connection, item, phase);
}

export function writeSeries(connection: Connection, item: number, series: StoredSeries | null): void {
  connection.write("DELETE FROM series WHERE item = ?", item);
  if (series === null) return;
  const { run, name, unit, minutes, values } = series;
  if (![minutes, values].every((samples) => samples.every(Number.isFinite))) refuse("a sample that is no number");
  connection.write(
    'INSERT INTO series (item, run, name, unit, minutes, "values", seal) VALUES (?, ?, ?, ?, ?, ?, ?)',
    ...[item, run, name, unit, bytesOf(minutes), bytesOf(values), seriesSeal(item, seriesText(series))],
  );
}
