import type { Locale, QuantityName } from "../../../core/index.ts";
import { type StoredRunLine, StoreFault, type StudyDatabase } from "../../store/index.ts";
import { cellText } from "../stored/index.ts";
import { digestValue } from "../study/run-digest.ts";
import type { StudyContent } from "../study/study-content.ts";
import { columnOfKey } from "./grid-columns.ts";
import type { GridRows } from "./grid-rows.ts";
import { sortedInSlices, type Turn } from "./turn.ts";

/** Where rows are sorted by what their cells hold. */
export interface SortPlace {
  readonly content: StudyContent;
  readonly database: StudyDatabase;
  readonly rows: GridRows;
  readonly locale: Locale;
}

type Cell = number | string | null;

const collators = new Map<Locale, Intl.Collator>();

/** Orders texts as people do, numbers in them by their size. */
function collatorOf(locale: Locale): Intl.Collator {
  const collator = collators.get(locale) ?? new Intl.Collator(locale, { numeric: true });
  collators.set(locale, collator);
  return collator;
}

/**
 * What each row is sorted by: a number that goes up as the cells do; NaN where the cell is empty. Numbers come before texts; times go by
 * when it was, from the midnight before the run's first phase. A result of the whole run is that of each of its rows.
 */
export async function sortKeys(place: SortPlace, key: string, turn: Turn): Promise<Float64Array> {
  const column = columnOfKey(key);
  const { rows } = place;
  if (column === null) return new Float64Array(rows.count).fill(Number.NaN);
  if ("quantity" in column) return resultKeys(place, column.kind, column.quantity);
  if (column.factor !== null) return keysOfCells(place, levelsOf(place, column.factor), turn);
  const ofLine = column.kind === "run" ? lineFields.get(column.column) : undefined;
  if (ofLine !== undefined) {
    return keysOfCells(place, (row) => ofLine(rows.line(rows.runs[row] ?? 0), place.content), turn);
  }
  return keysOfCells(place, readingsOf(place, column.column), turn);
}

const lineFields: ReadonlyMap<string, (line: StoredRunLine, content: StudyContent) => Cell> = new Map([
  ["run", (line: StoredRunLine) => line.name],
  ["variant", (line: StoredRunLine, { head }: StudyContent) => head.variants.get(line.variant)?.name ?? null],
  ["block", (line: StoredRunLine) => line.block],
  ["operator", (line: StoredRunLine) => line.operator],
  ["excluded", (line: StoredRunLine) => line.leftOut],
]);

/** Of runs that have not been worked out nothing is known. */
function resultKeys({ rows, content }: SortPlace, kind: "result" | "runResult", quantity: QuantityName): Float64Array {
  const keys = new Float64Array(rows.count);
  for (let row = 0; row < rows.count; row += 1) {
    const digest = content.digest(rows.line(rows.runs[row] ?? 0));
    const phase = kind === "result" ? (rows.phases[row] ?? null) : null;
    keys[row] = digest === null ? Number.NaN : digestValue(digest, phase, quantity);
  }
  return keys;
}

function levelsOf({ database, content, rows }: SortPlace, factor: string): (row: number) => Cell {
  const own = database.ownLevels();
  return (row) => {
    const { run, variant } = rows.line(rows.runs[row] ?? 0);
    const level = own.get(run)?.get(factor);
    return level === undefined ? (content.head.variants.get(variant)?.levels.get(factor) ?? null) : level;
  };
}

/** What stands in a column of the rows, read from the file in one go. */
function readingsOf({ database, content, rows }: SortPlace, column: string): (row: number) => Cell {
  const cells: Cell[] = new Array(rows.count).fill(null);
  try {
    if (column === "date" || column === "order") {
      const ofRuns = database.runColumn(column);
      for (let row = 0; row < rows.count; row += 1) cells[row] = ofRuns.get(rows.line(rows.runs[row] ?? 0).run) ?? null;
    }
    for (const { run, phase, value } of database.column(column)) {
      const row = rows.rowOf(run, phase);
      if (row !== null) cells[row] ??= value;
    }
    return (row) => cells[row] ?? null;
  } catch (error) {
    if (!(error instanceof StoreFault) || error.code !== "damaged") throw error;
    // Of a damaged file what can be read is sorted: run by run, as the cells show it.
    return (row) => shownCell(content, rows, row, column);
  }
}

function shownCell(content: StudyContent, rows: GridRows, row: number, column: string): Cell {
  const run = content.analysed(rows.line(rows.runs[row] ?? 0))?.results.run;
  const phase = run?.phases.find((one) => one.phase === rows.phases[row]);
  if (run === undefined || phase === undefined) return null;
  const text = cellText(run, phase, column);
  return text !== "" && Number.isFinite(Number(text)) ? Number(text) : text;
}

/** Numbers are their own keys; texts follow them, by their rank among all texts of the column. */
async function keysOfCells(
  { rows, locale }: SortPlace,
  cell: (row: number) => Cell,
  turn: Turn,
): Promise<Float64Array> {
  const keys = new Float64Array(rows.count).fill(Number.NaN);
  const texts = new Map<string, number>();
  const cells: Cell[] = new Array(rows.count);
  let largest = 0;
  for (let row = 0; row < rows.count; row += 1) {
    const value = cell(row);
    cells[row] = value;
    if (typeof value === "number") {
      keys[row] = value;
      largest = Math.max(largest, value);
    } else if (value !== null && value !== "") texts.set(value, 0);
    if (row % 1000 === 0 && turn.isOver) await turn.pause();
  }
  if (texts.size === 0) return keys;
  const { compare } = collatorOf(locale);
  let rank = largest;
  let before: string | null = null;
  for (const text of await sortedInSlices([...texts.keys()], compare, turn)) {
    if (before === null || compare(before, text) !== 0) rank += 1;
    texts.set(text, rank);
    before = text;
  }
  for (let row = 0; row < rows.count; row += 1) {
    const value = cells[row];
    if (typeof value === "string" && value !== "") keys[row] = texts.get(value) ?? Number.NaN;
  }
  return keys;
}
