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

/**
 * Widths of columns from what they hold: each at least its longest word (a number column: its longest number) and at most its
 * longest text; what is left over, or missing, is shared by weight. Text gets smaller, down to `sizes`' last, until words fit.
 */
export function planColumns(
  table: ReportTable,
  width: number,
  sizes: readonly number[],
  headStyle: (size: number) => TextStyle,
): ColumnPlan {
  let plan: ColumnPlan | null = null;
  for (const size of sizes) {
    const style: TextStyle = { face: "text", size };
    const room = width - columnGap * Math.max(0, table.columns.length - 1);
    const needs = table.columns.map((column, index) => {
      const cells = table.rows.map((row) => row[index] ?? "");
      const head = headStyle(size);
      const words = cells.flatMap((cell) => (column.align === "number" ? [cell] : breakableWords(cell)));
      const least = Math.min(
        room * widestWord,
        Math.max(widest(words, style, room), widest(breakableWords(column.label), head, room)),
      );
      const most = Math.max(least, widest(cells, style, room * 2), widest([column.label], head, room * 2));
      return { least, most, weight: column.weight ?? 1 };
    });
    const least = sum(needs.map((need) => need.least));
    const most = sum(needs.map((need) => need.most));
    const weights = sum(needs.map((need) => need.weight)) || 1;
    if (most <= room) {
      // Everything fits on one line each; the spare room goes between the columns.
      return { size, widths: needs.map((need) => need.most + ((room - most) * need.weight) / weights) };
    }
    if (least <= room) {
      const wishes = needs.map((need) => (need.most - need.least) * need.weight);
      const wished = sum(wishes) || 1;
      return {
        size,
        widths: needs.map((need, index) => need.least + ((room - least) * (wishes[index] ?? 0)) / wished),
      };
    }
    plan = { size, widths: needs.map((need) => (need.least * room) / least) };
  }
  return plan ?? { size: 9, widths: [] };
}

function widest(texts: readonly string[], style: TextStyle, enough: number): number {
  return texts.reduce((so, text) => Math.max(so, textWidth(text.trimEnd(), style.face, style.size, enough)), 0);
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
