import type { Chart, Plugin } from "chart.js";
import type { LabelledInterval, VariantRow } from "../../core/index.ts";
import { formatFixed, wordsFor } from "../../core/index.ts";
import { drawAxis } from "./draw-axis.ts";
import { drawBudget } from "./draw-budget.ts";
import {
  clamp,
  drawEstimate,
  drawInterval,
  drawMeanTick,
  drawRun,
  type MarkStyle,
  stackLevels,
  stackScale,
} from "./draw-marks.ts";
import { fillTextOnSheet } from "./draw-text.ts";
import { type Drawing, drawingOf, fontOf, keepPlan, placeOf, planOf } from "./drawing.ts";
import { asMark } from "./marked-context.ts";
import { plainText } from "./plain-text.ts";
import { type ChartPlan, type PartPlan, planChart, type RowPlan } from "./plan.ts";
import { variantShape } from "./shape.ts";
import { variantColour } from "./theme.ts";

const lineHeight = 1.25;
/** Heights of points and bar about a row's middle, at the usual height of a row. */
const pointsAbove = 10;
const barBelow = 11;
const stackRoom = 17;
const stackStep = 6;
const changeBelow = 4;

/** Places and draws all of a chart of ours but the tooltip. Chart.js keeps scales, hit testing, size and pixels. */
export const variantChartPlugin: Plugin<"scatter"> = {
  id: "variantChart",

  beforeUpdate(chart) {
    const drawing = drawingOf(chart);
    if (drawing === null) return;
    const { ctx } = chart;
    ctx.save();
    const plan = planChart(drawing.specification, chart.width, chart.height, (text, size, weight) => {
      ctx.font = fontOf(drawing.theme, size, weight);
      return ctx.measureText(text).width;
    });
    ctx.restore();
    keepPlan(chart, plan);
  },

  afterDatasetsUpdate(chart) {
    chart.data.datasets.forEach((dataset, index) => {
      const place = placeOf(dataset);
      const plan = planOf(chart);
      const row = plan?.[place?.part ?? "runs"]?.rows.find((candidate) => candidate.row === place?.row);
      if (place === null || row === undefined) return;
      const points = chart.getDatasetMeta(index).data;
      const heights =
        place.part === "runs" && place.drawing.specification.kind !== "budget"
          ? runHeights(
              points.map((point) => point.x),
              row,
            )
          : [row.middle + (place.part === "change" ? changeBelow : 0)];
      points.forEach((point, at) => {
        point.y = heights[at] ?? row.middle;
      });
    });
  },

  beforeDatasetsDraw(chart) {
    const drawing = drawingOf(chart);
    const plan = planOf(chart);
    if (drawing === null || plan === null) return;
    const { ctx } = chart;
    ctx.save();
    for (const id of ["runs", "change"] as const) {
      const part = plan[id];
      const scale = chart.scales[id];
      if (part === null || scale === undefined) continue;
      drawAxis(ctx, drawing, part, scale, plan.fontSize);
      for (const row of part.rows) drawName(ctx, drawing, row, plan.fontSize);
    }
    drawRows(chart, drawing, plan);
    ctx.restore();
  },
};

function runHeights(places: readonly number[], row: RowPlan): number[] {
  const levels = stackLevels(places);
  const count = levels.reduce((most, level) => Math.max(most, level + 1), 1);
  const step = Math.min(stackStep, stackRoom / Math.max(1, count - 1));
  return levels.map((level) => row.middle + row.scale * (-pointsAbove + step * ((count - 1) / 2 - level)));
}

function drawName(context: CanvasRenderingContext2D, drawing: Drawing, row: RowPlan, fontSize: number): void {
  if (row.label.length === 0) return;
  asMark(context, "variant-name", "", () => {
    context.font = fontOf(drawing.theme, fontSize, 600);
    context.textAlign = "left";
    context.textBaseline = "alphabetic";
    row.label.forEach((text, at) => {
      fillTextOnSheet(context, text, 0, row.labelBaseline + at * fontSize * lineHeight, fontSize, drawing.theme);
    });
  });
}

function drawRows(chart: Chart, drawing: Drawing, plan: ChartPlan): void {
  const { specification } = drawing;
  if (specification.kind === "change-strip") {
    const row = plan.change?.rows[0];
    if (plan.change !== null && row !== undefined) drawStrip(chart, drawing, plan.change, row);
    return;
  }
  if (specification.kind === "budget") {
    if (chart.scales.runs !== undefined) drawBudget(chart.ctx, drawing, specification, plan, chart.scales.runs);
    return;
  }
  for (const row of plan.runs?.rows ?? []) {
    const variant = specification.rows[row.row];
    if (plan.runs !== null && variant !== undefined) drawRuns(chart, drawing, plan.runs, row, variant, plan.fontSize);
  }
  for (const row of plan.change?.rows ?? []) {
    const variant = specification.rows[row.row];
    if (plan.change === null || variant === undefined || variant.change === null) continue;
    drawChange(chart, drawing, plan.change, row, variant, variant.change, plan.fontSize);
  }
}

function drawRuns(
  chart: Chart,
  drawing: Drawing,
  part: PartPlan,
  row: RowPlan,
  variant: VariantRow,
  fontSize: number,
): void {
  const { ctx } = chart;
  const { theme } = drawing;
  const scale = chart.scales.runs;
  if (scale === undefined) return;
  const style = styleOf(drawing, variant.index, row);
  const { mean } = variant;
  if (mean !== null) {
    const y = row.middle + barBelow * row.scale;
    asMark(ctx, "mean", `${plainText(variant.variant)}: ${plainText(mean.text)}`, () => {
      const bar = drawInterval(ctx, mean, scale, part.area, y, style);
      drawMeanTick(ctx, clamp(scale.getPixelForValue(mean.value), part.area), y, style);
      ctx.font = fontOf(theme, fontSize);
      const text = plainText(mean.text);
      const width = ctx.measureText(text).width;
      const beside = bar.to + 10;
      const fitsRight = beside + width <= part.textRight;
      const fitsLeft = bar.from - 10 - width >= part.area.left;
      const x = fitsRight
        ? beside
        : fitsLeft
          ? bar.from - 10 - width
          : Math.max(part.area.left, part.textRight - width);
      ctx.textAlign = "left";
      // Where there is room on neither side, it stands below the bar.
      const baseline = y + fontSize * (fitsRight || fitsLeft ? 0.35 : 1.15);
      fillTextOnSheet(ctx, text, x, baseline, fontSize, { ink: theme.inkSoft, sheet: theme.sheet });
    });
  }
  const index = chart.data.datasets.findIndex((dataset) => {
    const place = placeOf(dataset);
    return place?.part === "runs" && place.row === row.row;
  });
  if (index < 0) return;
  const points = chart.getDatasetMeta(index).data;
  const levels = stackLevels(points.map((point) => point.x)).reduce((most, level) => Math.max(most, level + 1), 1);
  const pointStyle = { ...style, scale: style.scale * stackScale(levels) };
  points.forEach((point, at) => {
    const run = variant.runs[at];
    if (run === undefined) return;
    const name = run.leftOut ? "run-left-out" : "run";
    asMark(ctx, name, runText(drawing, run), () => {
      drawRun(ctx, point.x, point.y, pointStyle, run.leftOut ? { colour: theme.inkSoft } : null);
    });
  });
}

function drawChange(
  chart: Chart,
  drawing: Drawing,
  part: PartPlan,
  row: RowPlan,
  variant: VariantRow,
  change: LabelledInterval,
  fontSize: number,
): void {
  const { ctx } = chart;
  const scale = chart.scales.change;
  if (scale === undefined) return;
  const style = styleOf(drawing, variant.index, row);
  const y = row.middle + changeBelow;
  asMark(ctx, "change", `${plainText(variant.variant)}: ${plainText(change.text)}`, () => {
    const { theme } = drawing;
    const x = clamp(scale.getPixelForValue(change.value), part.area);
    ctx.font = fontOf(theme, fontSize);
    ctx.textAlign = "center";
    const text = plainText(change.text);
    const half = ctx.measureText(text).width / 2;
    const centre = Math.min(part.textRight - half, Math.max(part.textLeft + half, x));
    const baseline = y - 12 * Math.max(0.85, row.scale);
    fillTextOnSheet(ctx, text, centre, baseline, fontSize, { ink: theme.inkSoft, sheet: theme.sheet });
    drawInterval(ctx, change, scale, part.area, y, style);
    drawEstimate(ctx, x, y, style, theme.sheet);
  });
}

function drawStrip(chart: Chart, drawing: Drawing, part: PartPlan, row: RowPlan): void {
  const { specification, theme } = drawing;
  const scale = chart.scales.change;
  if (specification.kind !== "change-strip" || scale === undefined) return;
  const style = {
    colour: specification.tone === "sure" ? theme.sure : theme.inkSoft,
    shape: "circle",
    scale: 0.82,
  } as const;
  asMark(chart.ctx, "change", plainText(specification.change.text), (context) => {
    drawInterval(context, specification.change, scale, part.area, row.middle, style);
    // Filled where the runs can tell, hollow where they cannot: not by colour alone.
    const fill = specification.tone === "sure" ? theme.sure : theme.sheet;
    drawEstimate(
      context,
      clamp(scale.getPixelForValue(specification.change.value), part.area),
      row.middle,
      style,
      fill,
    );
  });
}

function styleOf(drawing: Drawing, index: number, row: RowPlan): MarkStyle {
  return { colour: variantColour(drawing.theme, index), shape: variantShape(index), scale: row.scale };
}

/** "run 7: 752", for the tooltip and for the title of a mark. */
export function runText(
  { specification, locale }: Drawing,
  run: { readonly name: string; readonly value: number; readonly leftOut: boolean },
): string {
  const decimals = specification.kind === "runs-and-change" ? specification.decimals : 0;
  const name = plainText(run.name).slice(0, 80);
  return wordsFor(locale).charts.runValue(name, formatFixed(run.value, decimals, locale), run.leftOut);
}
