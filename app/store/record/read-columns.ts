import type { PhaseName } from "../../../core/index.ts";
import type { StoredCell } from "../content.ts";
import type { Connection } from "../schema/connection.ts";
import { phaseNameAt } from "./content-text.ts";

/** Reading the file by column, over all runs: values alone, of which no seal is checked. */

const runOf = (key: number) => Math.floor(key / 8);

/**
 * What stands in one column of the phases' rows, as it is stored: numbers in the layout's units, times as minutes after midnight of
 * the run's first day, texts. Where a phase has a reading and a text of one name, the reading.
 */
export function readColumn(connection: Connection, column: string): StoredCell[] {
  return connection
    .lists(
      `SELECT phase, value FROM reading WHERE "column" = ?1
       UNION ALL
       SELECT phase, text FROM phase_text AS kept WHERE "column" = ?1
         AND NOT EXISTS (SELECT 1 FROM reading WHERE reading.phase = kept.phase AND reading."column" = ?1)`,
      column,
    )
    .map(([key, value]) => ({
      run: runOf(key as number),
      phase: phaseNameAt((key as number) % 8),
      value: value as number | string,
    }));
}

/** Columns in which any phase of the runs from `first` to `last` has something. */
export function readColumnNames(connection: Connection, first: number, last: number): string[] {
  const keys = [first * 8, last * 8 + 7];
  // Much faster than one statement for both.
  const readings = connection.lists('SELECT DISTINCT "column" FROM reading WHERE phase BETWEEN ? AND ?', ...keys);
  const texts = connection.lists(
    `SELECT DISTINCT "column" FROM phase_text WHERE phase BETWEEN ? AND ? AND text <> ''`,
    ...keys,
  );
  return [...new Set([...readings, ...texts].map(([column]) => column as string))];
}

/** Runs from `first` to `last` in one of whose phases stands a text that `fits`. */
export function readRunsWithText(
  connection: Connection,
  first: number,
  last: number,
  fits: (text: string) => boolean,
): ReadonlySet<number> {
  const found = new Set<number>();
  for (const [key, text] of connection.lists(
    "SELECT phase, text FROM phase_text WHERE phase BETWEEN ? AND ?",
    first * 8,
    last * 8 + 7,
  )) {
    if (fits(text as string)) found.add(runOf(key as number));
  }
  return found;
}

/** The phases of the runs from `first` to `last`, in the order of the procedure. */
export function readPhaseNames(
  connection: Connection,
  first: number,
  last: number,
): ReadonlyMap<number, readonly PhaseName[]> {
  const masks = new Map<number, number>();
  for (const [id] of connection.lists("SELECT id FROM phase WHERE id BETWEEN ? AND ?", first * 8, last * 8 + 7)) {
    const run = runOf(id as number);
    masks.set(run, (masks.get(run) ?? 0) | (1 << ((id as number) % 8)));
  }
  const lists = new Map<number, readonly PhaseName[]>();
  const listOf = (mask: number): readonly PhaseName[] => {
    let list = lists.get(mask);
    if (list === undefined) {
      list = [0, 1, 2, 3, 4, 5].filter((index) => (mask & (1 << index)) !== 0).map(phaseNameAt);
      lists.set(mask, list);
    }
    return list;
  };
  return new Map([...masks].map(([run, mask]) => [run, listOf(mask)]));
}

/** The date or the order of the runs that have one. */
export function readRunColumn(connection: Connection, column: "date" | "order"): ReadonlyMap<number, string | number> {
  const field = { date: "date", order: "run_order" }[column];
  const rows = connection.lists(`SELECT item, ${field} FROM run NOT INDEXED WHERE ${field} IS NOT NULL`);
  return new Map(rows.map(([item, value]) => [item as number, value as string | number]));
}

/** Levels in which runs differ from their variants; null: the run has none where its variant has one. */
export function readOwnLevels(connection: Connection): ReadonlyMap<number, ReadonlyMap<string, string | null>> {
  const found = new Map<number, Map<string, string | null>>();
  for (const [item, factor, level] of connection.lists("SELECT run, factor, level FROM run_level")) {
    const ofRun = found.get(item as number) ?? new Map<string, string | null>();
    found.set(item as number, ofRun.set(factor as string, level as string | null));
  }
  return found;
}
