import type { RunsAndChangeChart } from "../../core/index.ts";
import { shortenText, wrapLabel } from "./label.ts";
import { plainText } from "./plain-text.ts";
import type { ChartPlan, MeasureAt, PartPlan, RowPlan } from "./plan.ts";

/** Below this width the change stands under the runs; below the second, names stand above their rows. */
const sideBySideFrom = 620;
const namesBesideFrom = 430;

const lineHeight = 1.25;
const usualRowHeight = 52;
const leastRowHeight = 26;
/** Between the end of the runs and the start of the change: room for a mean printed beside its bar. */
const partGap = 64;
const nameGap = 18;

/** What depends on the specification and the width alone, so that the height is known before there is a surface to measure on. */
interface Frame {
  readonly fontSize: number;
  readonly sideBySide: boolean;
  readonly stacked: boolean;
  readonly namesAbove: boolean;
  readonly nameHeight: number;
  readonly titleHeight: number;
  readonly titleLines: number;
  readonly tickHeight: number;
  readonly partSpace: number;
  readonly rowHeight: number;
  /** Rows of the specification that have a change to show. */
  readonly changed: readonly number[];
}

function frame(chart: RunsAndChangeChart, width: number): Frame {
  const fontSize = width < namesBesideFrom ? 12 : 13;
  const changed =
    chart.changeTitle === null ? [] : chart.rows.flatMap((row, index) => (row.change === null ? [] : [index]));
  const hasChange = chart.changeTitle !== null;
  const sideBySide = hasChange && width >= sideBySideFrom;
  const namesAbove = width < namesBesideFrom;
  // A character is about half as wide as the font is high; titles have two lines where one would not do.
  const longestTitle = Math.max(chart.valueTitle.length, chart.changeTitle?.length ?? 0);
  const titleLines = longestTitle * fontSize * 0.5 > (sideBySide ? width * 0.34 : width * 0.7) ? 2 : 1;
  const count = chart.rows.length;
  return {
    fontSize,
    sideBySide,
    stacked: hasChange && !sideBySide && changed.length > 0,
    namesAbove,
    nameHeight: namesAbove ? fontSize * lineHeight : 0,
    titleLines,
    titleHeight: titleLines * fontSize * lineHeight + 8,
    tickHeight: fontSize + 10,
    partSpace: fontSize * 1.6,
    rowHeight: count <= 6 ? usualRowHeight : count <= 12 ? 46 : 42,
    changed,
  };
}

function fixedHeight(f: Frame): number {
  const part = f.titleHeight + f.tickHeight;
  return f.stacked ? 2 * part + f.partSpace : part;
}

function rowCount(chart: RunsAndChangeChart, f: Frame): number {
  return Math.max(1, chart.rows.length) + (f.stacked ? f.changed.length : 0);
}

export function rowsChartHeight(chart: RunsAndChangeChart, width: number): number {
  const f = frame(chart, width);
  return Math.ceil(fixedHeight(f) + (f.rowHeight + f.nameHeight) * rowCount(chart, f)) + 2;
}

export function planRows(chart: RunsAndChangeChart, width: number, height: number, measure: MeasureAt): ChartPlan {
  const f = frame(chart, width);
  const rowHeight = Math.max(leastRowHeight, (height - 2 - fixedHeight(f)) / rowCount(chart, f) - f.nameHeight);
  const names = chart.rows.map((row) => plainText(row.variant));
  const nameColumn = f.namesAbove ? 0 : nameColumnWidth(names, width, f, measure);
  const left = f.namesAbove ? 14 : nameColumn + nameGap;
  const right = width - rightMargin(chart, f, measure);
  const runsRight = f.sideBySide ? left + (right - left - partGap) * 0.58 : right;
  const named = (row: number) =>
    f.namesAbove
      ? [shortenText(names[row] ?? "", width - 4, (text) => measure(text, f.fontSize, 600))]
      : wrapLabel(names[row] ?? "", nameColumn, 2, (text) => measure(text, f.fontSize, 600));

  const place = (part: PartInput): PartPlan => {
    const top = part.top + f.titleHeight;
    const full = rowHeight + f.nameHeight;
    const bottom = top + full * Math.max(1, part.rows.length);
    const rows = part.rows.map((row, at): RowPlan => {
      const middle = top + full * at + f.nameHeight + rowHeight / 2;
      const label = part.isNamed ? named(row) : [];
      const labelBaseline = f.namesAbove
        ? top + full * at + f.fontSize + 1
        : middle + f.fontSize * 0.34 - ((label.length - 1) * f.fontSize * lineHeight) / 2;
      return { row, middle, scale: Math.min(1, Math.max(0.6, rowHeight / usualRowHeight)), label, labelBaseline };
    });
    const titleLeft = f.namesAbove ? 0 : part.left;
    const titleWidth = part.textRight - titleLeft;
    return {
      area: { left: part.left, right: part.right, top, bottom },
      title: wrapLabel(plainText(part.title), titleWidth, f.titleLines, (text) => measure(text, f.fontSize, 400)),
      titleLeft,
      titleBaseline: part.top + f.fontSize,
      tickBaseline: bottom + f.fontSize + 5,
      rows,
      textLeft: part.left - 12,
      textRight: part.textRight,
    };
  };

  const all = chart.rows.map((_, index) => index);
  const runs = place({
    title: chart.valueTitle,
    rows: all,
    isNamed: true,
    top: 0,
    left,
    right: runsRight,
    textRight: f.sideBySide ? runsRight + partGap - 16 : width,
  });
  if (chart.changeTitle === null || !(f.sideBySide || f.stacked)) return { fontSize: f.fontSize, runs, change: null };
  const change = place({
    title: chart.changeTitle,
    rows: f.sideBySide ? all : f.changed,
    isNamed: !f.sideBySide,
    top: f.sideBySide ? 0 : runs.area.bottom + f.tickHeight + f.partSpace,
    left: f.sideBySide ? runsRight + partGap : left,
    right,
    textRight: width,
  });
  return { fontSize: f.fontSize, runs, change };
}

interface PartInput {
  readonly title: string;
  readonly rows: readonly number[];
  readonly isNamed: boolean;
  readonly top: number;
  readonly left: number;
  readonly right: number;
  readonly textRight: number;
}

/** As wide as the longest name, but no wider than leaves the marks their room. */
function nameColumnWidth(names: readonly string[], width: number, f: Frame, measure: MeasureAt): number {
  const most = width * (f.sideBySide ? 0.2 : 0.28);
  const widest = names.reduce((so, name) => Math.max(so, measure(name.slice(0, 200), f.fontSize, 600)), 0);
  return Math.ceil(Math.max(24, Math.min(widest + 1, most)));
}

/** Half of what may be printed below the last tick. */
function rightMargin(chart: RunsAndChangeChart, f: Frame, measure: MeasureAt): number {
  const last = chart.changeTitle === null ? "" : plainText(chart.noChangeText);
  return Math.max(measure(last.slice(0, 40), f.fontSize, 400) / 2 + 2, f.sideBySide || f.stacked ? 22 : 46);
}
