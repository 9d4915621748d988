import type { PhaseName } from "../../../core/index.ts";
import type { GridChoice } from "../../contract/index.ts";
import type { StudyContent } from "../study/study-content.ts";
import type { AskedOfRuns } from "./asked.ts";
import type { FoundTexts } from "./find-text.ts";
import type { GridRows } from "./grid-rows.ts";
import { type SortPlace, sortKeys } from "./sort-keys.ts";
import type { Turn } from "./turn.ts";

/** The rows of a choice, in its order. */
export class GridOrder {
  readonly rows: GridRows;
  /** Rows by their place in the order. */
  readonly order: Int32Array;
  /** Of each run the place of its first row in the order; -1 where it has none. */
  readonly #firsts: Int32Array;
  /** Runs that have a row. */
  readonly runs: number;

  constructor(rows: GridRows, order: Int32Array) {
    this.rows = rows;
    this.order = order;
    this.#firsts = firstPlaces(rows, order);
    this.runs = this.#firsts.reduce((count, place) => (place < 0 ? count : count + 1), 0);
  }

  /** The row at a place of the order. */
  at(place: number): { readonly run: number; readonly phase: PhaseName; readonly isFirst: boolean } | null {
    const row = this.order[place];
    const phase = row === undefined ? undefined : this.rows.phases[row];
    if (row === undefined || phase === undefined) return null;
    const run = this.rows.runs[row] ?? 0;
    return { run, phase, isFirst: this.#firsts[run] === place };
  }

  /** Place of the row of a run's phase, null phase: of its first row; null where it is not among the rows. */
  placeOf(run: number, phase: PhaseName | null): number | null {
    if (phase === null) {
      const place = this.rows.placeOf(run);
      const first = place === null ? -1 : (this.#firsts[place] ?? -1);
      return first < 0 ? null : first;
    }
    const row = this.rows.rowOf(run, phase);
    const found = row === null ? -1 : this.order.indexOf(row);
    return found < 0 ? null : found;
  }
}

function firstPlaces({ lines, runs }: GridRows, order: Int32Array): Int32Array {
  const firsts = new Int32Array(lines.length).fill(-1);
  order.forEach((row, place) => {
    const run = runs[row] ?? 0;
    if (firsts[run] === -1) firsts[run] = place;
  });
  return firsts;
}

/** What an order is made from. */
export interface OrderPlace extends SortPlace {
  readonly found: FoundTexts;
  readonly asked: AskedOfRuns;
}

/**
 * Rows of a choice in their order. Runs must be worked out where it sorts by a result or looks for a text.
 *
 * Sorted rows stand by what the one cell holds, those without last either way, equal ones in the order of the study. A question about a
 * whole run stands with its first row, so which rows have questions is asked of the sorted rows.
 */
export async function gridOrder(place: OrderPlace, choice: GridChoice, turn: Turn): Promise<GridOrder> {
  const { rows, content } = place;
  const fits = fitting(rows, choice, content);
  const has = await place.found.rowsWith(choice.find, place, turn);
  const kept = new Int32Array(rows.count);
  let count = 0;
  for (let row = 0; row < rows.count; row += 1) {
    if (!fits(row) || !has(row)) continue;
    kept[count] = row;
    count += 1;
  }
  const order = kept.slice(0, count);
  if (choice.sort !== null) {
    const keys = await sortKeys(place, choice.sort.column, turn);
    sortRows(order, keys, choice.sort.falling);
  }
  const all = new GridOrder(rows, order);
  return choice.only === "questions" ? new GridOrder(rows, questioned(all, place.asked)) : all;
}

function fitting(
  rows: GridRows,
  { variant, phase, only }: GridChoice,
  { head }: StudyContent,
): (row: number) => boolean {
  if (variant === null && phase === null && (only === "all" || only === "questions")) return () => true;
  const variants = new Set([...head.variants].flatMap(([item, { name }]) => (name === variant ? [item] : [])));
  return (row) => {
    const line = rows.line(rows.runs[row] ?? 0);
    if (variant !== null && !variants.has(line.variant)) return false;
    if (phase !== null && rows.phases[row] !== phase) return false;
    return only === "counting" ? line.leftOut === null : only !== "leftOut" || line.leftOut !== null;
  };
}

function sortRows(order: Int32Array, keys: Float64Array, falling: boolean): void {
  const way = falling ? -1 : 1;
  order.sort((one, other) => {
    const [left, right] = [keys[one] ?? Number.NaN, keys[other] ?? Number.NaN];
    if (left < right) return -way;
    if (left > right) return way;
    if (left === right) return one - other;
    const [noLeft, noRight] = [Number.isNaN(left), Number.isNaN(right)];
    return noLeft === noRight ? one - other : noLeft ? 1 : -1;
  });
}

function questioned(all: GridOrder, asked: AskedOfRuns): Int32Array {
  return all.order.filter((_, place) => {
    const row = all.at(place);
    if (row === null) return false;
    const { run, phase, isFirst } = row;
    return asked.of(all.rows.line(run)).some((one) => (one.phase === null ? isFirst : one.phase === phase));
  });
}
