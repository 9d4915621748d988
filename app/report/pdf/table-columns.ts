import type { ReportTable } from "../../../core/index.ts";
import { breakableWords, type TextStyle } from "../line-break.ts";
import { textWidth } from "../text-run.ts";

export interface ColumnPlan {
  readonly widths: readonly number[];
  /** Size of text at which the table fits, in points. */
  readonly size: number;
}

export const columnGap = 14;
/** No cell asks for more than this of the table before its words are broken. */
const widestWord = 0.4;

/** So short a text is not broken at its spaces: "run 12", "wood, g". */
const shortText = 13;
/** Text is made no smaller than this to avoid a second line, in points. */
const leastForOneLine = 8.25;

/**
 * Widths of columns from what they hold. Best, every cell has its line; then headings may break, with smaller text if need be;
 * then cells, each column keeping at least its longest word or number; at last words are cut. What is left over, or missing,
 * is shared by weight. `sizes` are tried from the first to the last.
 */
export function planColumns(
  table: ReportTable,
  width: number,
  sizes: readonly number[],
  headStyle: (size: number) => TextStyle,
): ColumnPlan {
  const room = width - columnGap * Math.max(0, table.columns.length - 1);
  const plans = sizes.map((size) => ({
    size,
    needs: columnNeeds(table, room, { face: "text", size }, headStyle(size)),
  }));
  for (const { size, needs } of plans) {
    if (size < leastForOneLine) break;
    const spare = room - sum(needs.map((need) => need.cells));
    const wished = sum(needs.map((need) => need.most - need.cells));
    if (wished <= spare)
      return {
        size,
        widths: share(
          needs,
          needs.map((need) => need.most),
          room,
        ),
      };
    if (spare >= 0)
      return { size, widths: needs.map((need) => need.cells + (spare * (need.most - need.cells)) / wished) };
  }
  for (const { size, needs } of plans) {
    const spare = room - sum(needs.map((need) => need.least));
    if (spare < 0) continue;
    const wishes = needs.map((need) => (need.cells - need.least) * need.weight);
    const wished = sum(wishes) || 1;
    return { size, widths: needs.map((need, index) => need.least + (spare * (wishes[index] ?? 0)) / wished) };
  }
  const last = plans.at(-1);
  const least = sum(last?.needs.map((need) => need.least) ?? []);
  return { size: last?.size ?? 9, widths: last?.needs.map((need) => (need.least * room) / least) ?? [] };
}

interface ColumnNeed {
  /** Longest word, or number. */
  readonly least: number;
  /** Every cell on one line, the heading broken. */
  readonly cells: number;
  /** Every cell and the heading on one line. */
  readonly most: number;
  readonly weight: number;
}

function columnNeeds(table: ReportTable, room: number, style: TextStyle, head: TextStyle): ColumnNeed[] {
  const unbroken = (text: string) => (text.length <= shortText ? [text] : breakableWords(text));
  return table.columns.map((column, index) => {
    const cells = table.rows.map((row) => row[index] ?? "");
    const words = cells.flatMap((cell) => (column.align === "number" ? [cell] : unbroken(cell)));
    const heading = widest(unbroken(column.label), head, room);
    const least = Math.min(room * widestWord, Math.max(widest(words, style, room), heading));
    const whole = Math.max(least, widest(cells, style, room * 2));
    const most = Math.max(whole, widest([column.label], head, room * 2));
    return { least, cells: whole, most, weight: column.weight ?? 1 };
  });
}

/** Widths with the room that is left shared by weight. */
function share(needs: readonly ColumnNeed[], widths: readonly number[], room: number): number[] {
  const spare = room - sum(widths);
  const weights = sum(needs.map((need) => need.weight)) || 1;
  return widths.map((width, index) => width + (spare * (needs[index]?.weight ?? 1)) / weights);
}

function widest(texts: readonly string[], style: TextStyle, enough: number): number {
  return texts.reduce((so, text) => Math.max(so, textWidth(text.trimEnd(), style.face, style.size, enough)), 0);
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
