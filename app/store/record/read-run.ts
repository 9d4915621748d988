import type { Method, PhaseName } from "../../../core/index.ts";
import type { StoredPhase, StoredReading, StoredRun, StoredRunLine, StoredSeries, StoredTiming } from "../content.ts";
import { StoreFault } from "../fault.ts";
import type { Connection, Row } from "../schema/connection.ts";
import { phaseIndex, runText, samplesOf, seriesText } from "./content-text.ts";
import { runSeal, seriesSeal } from "./seal.ts";

/** Key of a phase: eight numbers for each run, of which six are used. */
export const phaseKey = (run: number, phase: PhaseName): number => run * 8 + phaseIndex(phase);

/** Texts of a phase, in their order. */
export function textsOfPhase(connection: Connection, key: number): Map<string, string> {
  return textsOf(connection, key, key).get(key) ?? new Map();
}

/** Texts of the phases of these keys, by phase, in their order. */
function textsOf(connection: Connection, first: number, last: number): Map<number, Map<string, string>> {
  // Ordered here, not by the index of positions, so that what is read is what the table holds.
  const rows = connection.lists(
    'SELECT phase, "column", position, text FROM phase_text WHERE phase BETWEEN ? AND ?',
    first,
    last,
  );
  const inOrder = rows.toSorted((a, b) => (a[2] as number) - (b[2] as number));
  const found = new Map<number, Map<string, string>>();
  for (const [phase, column, , text] of inOrder) {
    within(found, phase as number).set(column as string, text as string);
  }
  return found;
}

function readingsOf(connection: Connection, first: number, last: number): Map<number, Map<string, StoredReading>> {
  const found = new Map<number, Map<string, StoredReading>>();
  for (const [phase, column, act, value] of connection.lists(
    'SELECT phase, "column", act, value FROM reading WHERE phase BETWEEN ? AND ?',
    first,
    last,
  )) {
    within(found, phase as number).set(column as string, { act: act as number, value: value as number });
  }
  return found;
}

function within<T>(found: Map<number, Map<string, T>>, phase: number): Map<string, T> {
  let map = found.get(phase);
  if (map === undefined) {
    map = new Map();
    found.set(phase, map);
  }
  return map;
}

/** The phases of these keys, in the order of the procedure. */
function phasesOf(connection: Connection, first: number, last: number): StoredPhase[] {
  const readings = readingsOf(connection, first, last);
  const texts = textsOf(connection, first, last);
  return connection
    .lists("SELECT id, name, timing, source_row FROM phase WHERE id BETWEEN ? AND ? ORDER BY id", first, last)
    .map(([id, name, timing, sourceRow]) => ({
      phase: name as PhaseName,
      timing: timing as StoredTiming,
      sourceRow: sourceRow as number | null,
      readings: readings.get(id as number) ?? new Map(),
      texts: texts.get(id as number) ?? new Map(),
    }));
}

export function phaseAt(connection: Connection, run: number, phase: PhaseName): StoredPhase | null {
  const key = phaseKey(run, phase);
  return phasesOf(connection, key, key)[0] ?? null;
}

export const levelsOf = (connection: Connection, run: number): Map<string, string | null> =>
  new Map(
    connection
      .all("SELECT factor, level FROM run_level WHERE run = ?", run)
      .map((row): [string, string | null] => [row.factor as string, row.level as string | null]),
  );

export interface SealedRun {
  readonly run: StoredRun;
  /** As it stands in the file. */
  readonly seal: string;
}

export function sealedRunAt(connection: Connection, item: number): SealedRun | null {
  const row = connection.one(
    `SELECT name, position, variant, method, date, run_order, block, operator, left_out, attachment, seal
     FROM run WHERE item = ?`,
    item,
  );
  if (row === undefined) return null;
  const run: StoredRun = {
    name: row.name as string,
    position: row.position as number,
    variant: row.variant as number,
    method: row.method as Method,
    date: row.date as string | null,
    order: row.run_order as number | null,
    block: row.block as string | null,
    operator: row.operator as string | null,
    leftOut: row.left_out as string | null,
    levels: levelsOf(connection, item),
    attachment: row.attachment as number | null,
    phases: phasesOf(connection, item * 8, item * 8 + 7),
  };
  return { run, seal: row.seal as string };
}

export const seriesSealsOf = (connection: Connection, run: number): [number, string][] =>
  connection
    .all("SELECT item, seal FROM series WHERE run = ? ORDER BY item", run)
    .map((row): [number, string] => [row.item as number, row.seal as string]);

/** The seal that a run's content gives. */
export const sealOfContent = (connection: Connection, item: number, run: StoredRun): string =>
  runSeal(item, runText(run), seriesSealsOf(connection, item));

/**
 * One run, its seal checked.
 *
 * @throws StoreFault "refused" where there is none, "damaged" where its seal does not fit
 */
export function readRun(connection: Connection, item: number): StoredRun {
  const found = sealedRunAt(connection, item);
  if (found === null) throw new StoreFault("refused", `there is no run ${item}`);
  if (connection.checksSeals && sealOfContent(connection, item, found.run) !== found.seal) {
    throw new StoreFault("damaged", `the seal of run ${item} does not fit`);
  }
  return found.run;
}

const lineColumns = "item, name, position, variant, method, block, operator, left_out, seal";

const lineOf = ([run, name, position, variant, method, block, operator, leftOut, seal]: readonly unknown[]) =>
  ({ run, name, position, variant, method, block, operator, leftOut, seal }) as StoredRunLine;

/** Lines of all runs, by position. Sorted anew rather than by the index, so that a broken index hides no run. */
export function readRunLines(connection: Connection): StoredRunLine[] {
  if (connection.salvages) return salvagedLines(connection);
  return connection.lists(`SELECT ${lineColumns} FROM run NOT INDEXED ORDER BY position, item`).map(lineOf);
}

/** The lines before the first page that cannot be read, and those after the last. */
function salvagedLines(connection: Connection): StoredRunLine[] {
  const found = new Map<number, StoredRunLine>();
  for (const order of ["ASC", "DESC"]) {
    try {
      for (const row of connection.each(`SELECT ${lineColumns} FROM run NOT INDEXED ORDER BY item ${order}`)) {
        const line = lineOf(Object.values(row));
        if (found.has(line.run)) break;
        found.set(line.run, line);
      }
    } catch {
      // A page that is broken: from the other end there may be more.
    }
  }
  return [...found.values()].sort((a, b) => a.position - b.position || a.run - b.run);
}

const seriesOfRow = (row: Row): StoredSeries => ({
  run: row.run as number,
  name: row.name as string,
  unit: row.unit as string,
  minutes: samplesOf(row.minutes as Uint8Array),
  values: samplesOf(row.values as Uint8Array),
});

const seriesColumns = 'item, run, name, unit, minutes, "values", seal';

export function seriesAt(connection: Connection, item: number): StoredSeries | null {
  const row = connection.one(`SELECT ${seriesColumns} FROM series WHERE item = ?`, item);
  if (row === undefined) return null;
  const series = seriesOfRow(row);
  if (connection.checksSeals && seriesSeal(item, seriesText(series)) !== row.seal) {
    throw new StoreFault("damaged", `the seal of series ${item} does not fit`);
  }
  return series;
}

/** Items of all series, or of those of one run. */
export const seriesItems = (connection: Connection, run: number | null): number[] =>
  (run === null
    ? connection.all("SELECT item FROM series NOT INDEXED ORDER BY item")
    : connection.all("SELECT item FROM series WHERE run = ? ORDER BY item", run)
  ).map((row) => row.item as number);

/** Series of a run by item, their seals checked. */
export function readSeries(connection: Connection, run: number): Map<number, StoredSeries> {
  const found = new Map<number, StoredSeries>();
  for (const item of seriesItems(connection, run)) {
    const series = seriesAt(connection, item);
    if (series !== null) found.set(item, series);
  }
  return found;
}
