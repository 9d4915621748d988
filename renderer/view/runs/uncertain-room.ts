import type { GridRowView } from "../../../app/contract/index.ts";
import type { Locale } from "../../../core/index.ts";
import type { Blocks } from "../../state/grid-blocks.ts";
import { type RunsColumn, shownText, uncertainText } from "./grid-columns.ts";

/** How wide, in digits, what stands behind a number's whole part is, and its uncertainty. */
interface Room {
  readonly fraction: number;
  readonly half: number;
}

const ofRows = new WeakMap<readonly GridRowView[], Map<string, Room>>();

/** A decimal sign or the space between thousands is about half as wide as a digit. */
const widthOf = (text: string): number => [...text].reduce((sum, sign) => sum + (/\d/.test(sign) ? 1 : 0.5), 0);
/** Of "± " before the uncertainty. */
const signWidth = 1.5;

/** What the rows of one block need in one column; worked out once. */
function roomOf(rows: readonly GridRowView[], column: RunsColumn, locale: Locale): Room {
  const known = ofRows.get(rows) ?? new Map<string, Room>();
  ofRows.set(rows, known);
  const found = known.get(column.key);
  if (found !== undefined) return found;
  let [fraction, half] = [0, 0];
  for (const row of rows) {
    const text = uncertainText(row, column, locale);
    const behind = text?.fraction ?? /[.,].*$/.exec(shownText(row, column, locale))?.[0] ?? "";
    fraction = Math.max(fraction, widthOf(behind));
    if (text !== null) half = Math.max(half, widthOf(text.half) + signWidth);
  }
  known.set(column.key, { fraction, half });
  return { fraction, half };
}

export const fractionRoom = (at: number): string => `--fraction-${at}`;
export const halfRoom = (at: number): string => `--half-${at}`;

/**
 * The room that numbers of each column of results need, as properties of style: decimal signs stand below each other in all rows that were
 * fetched.
 */
export function uncertainRooms(
  blocks: Blocks<GridRowView>,
  columns: readonly RunsColumn[],
  locale: Locale,
): Readonly<Record<string, string>> {
  const rooms: Record<string, string> = {};
  for (const column of columns) {
    const { uncertaintyAt } = column;
    if (uncertaintyAt === null) continue;
    const needed = [...blocks.values()].map(({ rows }) => roomOf(rows, column, locale));
    rooms[fractionRoom(uncertaintyAt)] = `${Math.max(0, ...needed.map(({ fraction }) => fraction))}ch`;
    rooms[halfRoom(uncertaintyAt)] = `${Math.max(0, ...needed.map(({ half }) => half))}ch`;
  }
  return rooms;
}
