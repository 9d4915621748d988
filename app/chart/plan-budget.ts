import type { BudgetChart } from "../../core/index.ts";
import { shortenText, wrapLabel } from "./label.ts";
import { plainText } from "./plain-text.ts";
import type { ChartPlan, MeasureAt, RowPlan } from "./plan.ts";

/** Below this width names stand above their bars. */
const namesBesideFrom = 430;
const lineHeight = 1.25;
const usualRowHeight = 34;
const leastRowHeight = 20;
const nameGap = 14;
/** Names have no more of the width than this. */
const mostOfWidth = 0.4;
/** Between a bar's end and its share. */
export const shareGap = 7;

interface Frame {
  readonly fontSize: number;
  readonly namesAbove: boolean;
  readonly nameHeight: number;
  readonly titleHeight: number;
  readonly tickHeight: number;
}

function frame(width: number): Frame {
  const namesAbove = width < namesBesideFrom;
  const fontSize = namesAbove ? 12 : 13;
  return {
    fontSize,
    namesAbove,
    nameHeight: namesAbove ? fontSize * lineHeight : 0,
    titleHeight: fontSize * lineHeight + 8,
    tickHeight: fontSize + 10,
  };
}

export function budgetChartHeight(chart: BudgetChart, width: number): number {
  const { titleHeight, tickHeight, nameHeight } = frame(width);
  return Math.ceil(titleHeight + tickHeight + (usualRowHeight + nameHeight) * Math.max(1, chart.rows.length)) + 2;
}

/** A bar for each part: names to its left, or above it where the chart is narrow; room for the share behind the longest bar. */
export function planBudget(chart: BudgetChart, width: number, height: number, measure: MeasureAt): ChartPlan {
  const { fontSize, namesAbove, nameHeight, titleHeight, tickHeight } = frame(width);
  const bold = (text: string) => measure(text, fontSize, 600);
  const plain = (text: string) => measure(text, fontSize, 400);
  const count = Math.max(1, chart.rows.length);
  const rowHeight = Math.max(leastRowHeight, (height - 2 - titleHeight - tickHeight) / count - nameHeight);
  const names = chart.rows.map((row) => plainText(row.name));
  const widest = names.reduce((so, name) => Math.max(so, bold(name.slice(0, 200))), 0);
  const nameColumn = namesAbove ? 0 : Math.ceil(Math.max(24, Math.min(widest + 1, width * mostOfWidth)));
  // Half the zero below the axis stands to its left.
  const left = namesAbove ? 5 : nameColumn + nameGap;
  const shares = chart.rows.reduce((so, row) => Math.max(so, plain(plainText(row.text).slice(0, 40))), 0);
  const right = Math.max(left + 20, width - Math.min(shares + shareGap + 2, width * 0.3));
  const top = titleHeight;
  const full = rowHeight + nameHeight;
  const rows = names.map((name, row): RowPlan => {
    const middle = top + full * row + nameHeight + rowHeight / 2;
    const label = namesAbove ? [shortenText(name, width - 4, bold)] : wrapLabel(name, nameColumn, 2, bold);
    const labelBaseline = namesAbove
      ? top + full * row + fontSize + 3
      : middle + fontSize * 0.34 - ((label.length - 1) * fontSize * lineHeight) / 2;
    return { row, middle, scale: Math.min(1, rowHeight / usualRowHeight), label, labelBaseline };
  });
  const bottom = top + full * count;
  const titleLeft = namesAbove ? 0 : left;
  return {
    fontSize,
    runs: {
      area: { left, right, top, bottom },
      title: [shortenText(plainText(chart.shareTitle), width - titleLeft, plain)],
      titleLeft,
      titleBaseline: fontSize,
      tickBaseline: bottom + fontSize + 5,
      rows,
      textLeft: left,
      textRight: width,
    },
    change: null,
  };
}
