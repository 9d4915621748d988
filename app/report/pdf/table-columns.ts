import type { ReportTable } from "../../../core/index.ts";
import { breakableWords, breakLines, type TextStyle } from "../line-break.ts";
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
/** A cell longer than this may have a second line where headings would otherwise stand too high. */
const longText = 30;
/** Part of its one line that such a cell keeps: two lines, unevenly broken. */
const folded = 0.62;
/** Headings have no more lines than this where that can be had. */
const headingLines = 3;
/** Text is made no smaller than this to avoid a second line, in points. */
const leastForOneLine = 8.25;

/**
 * Widths of columns from what they hold. Best, every cell has its line; then headings may break, with smaller text if need be;
 * then long cells have two lines; then all cells, each column keeping at least its longest word or number; at last words are cut. What is left over, or missing,
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
  for (const { fold, mostLines } of [
    { fold: false, mostLines: headingLines },
    { fold: true, mostLines: headingLines },
    { fold: false, mostLines: Number.POSITIVE_INFINITY },
  ]) {
    for (const { size, needs } of plans) {
      if (size < leastForOneLine) break;
      const widths = withBrokenHeadings(fold ? needs.map(foldLong) : needs, room);
      if (widths !== null && highestHeading(table, widths, headStyle(size)) <= mostLines) return { size, widths };
    }
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

/** Every cell has its line, and headings share what is left of the room; null where that is less than nothing. */
function withBrokenHeadings(needs: readonly ColumnNeed[], room: number): number[] | null {
  const spare = room - sum(needs.map((need) => need.cells));
  if (spare < 0) return null;
  const wished = sum(needs.map((need) => need.most - need.cells));
  if (wished <= spare) {
    return share(
      needs,
      needs.map((need) => need.most),
      room,
    );
  }
  return needs.map((need) => need.cells + (spare * (need.most - need.cells)) / wished);
}

function foldLong(need: ColumnNeed): ColumnNeed {
  if (!need.isLong) return need;
  const cells = Math.max(need.least, need.cells * folded);
  return { ...need, cells, most: Math.max(cells, need.heading) };
}

function highestHeading(table: ReportTable, widths: readonly number[], style: TextStyle): number {
  return Math.max(...table.columns.map(({ label }, index) => breakLines(label, style, widths[index] ?? 0).length));
}

interface ColumnNeed {
  /** Longest word, or number. */
  readonly least: number;
  /** Every cell on one line, the heading broken. */
  readonly cells: number;
  /** Every cell and the heading on one line. */
  readonly most: number;
  /** The heading on one line. */
  readonly heading: number;
  /** Some cell is long enough for two lines. */
  readonly isLong: boolean;
  readonly weight: number;
}

function columnNeeds(table: ReportTable, room: number, style: TextStyle, head: TextStyle): ColumnNeed[] {
  const unbroken = (text: string) => (text.length <= shortText ? [text] : breakableWords(text));
  return table.columns.map((column, index) => {
    const cells = table.rows.map((row) => row[index] ?? "");
    const words = cells.flatMap((cell) =>
      column.align === "number" && cell.length <= longText ? [cell] : unbroken(cell),
    );
    const heading = widest(unbroken(column.label), head, room);
    const least = Math.min(room * widestWord, Math.max(widest(words, style, room), heading));
    const whole = Math.max(least, widest(cells, style, room * 2));
    const title = widest([column.label], head, room * 2);
    const isLong = cells.some((cell) => cell.length > longText);
    return {
      least,
      cells: whole,
      most: Math.max(whole, title),
      heading: title,
      isLong,
      weight: column.weight ?? 1,
    };
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
