import type { Scale } from "chart.js";
import type { BudgetChart } from "../../core/index.ts";
import { clamp } from "./draw-marks.ts";
import { fillTextOnSheet } from "./draw-text.ts";
import { type Drawing, fontOf } from "./drawing.ts";
import { asMark } from "./marked-context.ts";
import { plainText } from "./plain-text.ts";
import type { Area, ChartPlan } from "./plan.ts";
import { shareGap } from "./plan-budget.ts";

/** Height of a bar in the usual row. */
const barHeight = 16;
/** Between the strokes of the hatching. */
const hatchStep = 5;
/** Of something that is there, this much is seen. */
const leastBar = 1.5;

/** The bars of a budget, each with its share behind it. Instruments and values are filled, scatter between runs is hatched. */
export function drawBudget(
  context: CanvasRenderingContext2D,
  drawing: Drawing,
  budget: BudgetChart,
  plan: ChartPlan,
  scale: Scale,
): void {
  const { theme } = drawing;
  const part = plan.runs;
  if (part === null) return;
  for (const { row, middle, scale: shrink } of part.rows) {
    const shown = budget.rows[row];
    if (shown === undefined) continue;
    const height = barHeight * shrink;
    const from = scale.getPixelForValue(0);
    const to = Math.max(from + leastBar, clamp(scale.getPixelForValue(shown.share), part.area));
    const bar = { left: from, right: to, top: middle - height / 2, bottom: middle + height / 2 };
    const text = plainText(shown.text).slice(0, 40);
    asMark(context, shown.isScatter ? "scatter-share" : "share", `${plainText(shown.name)}: ${text}`, () => {
      if (shown.isScatter) drawHatched(context, bar, theme.sure, theme.sheet);
      else {
        context.fillStyle = theme.inkSoft;
        outline(context, bar);
        context.fill();
      }
      context.font = fontOf(theme, plan.fontSize);
      context.textAlign = "left";
      context.textBaseline = "alphabetic";
      fillTextOnSheet(context, text, to + shareGap, middle + plan.fontSize * 0.34, plan.fontSize, theme);
    });
  }
}

function outline(context: CanvasRenderingContext2D, { left, right, top, bottom }: Area): void {
  context.beginPath();
  context.rect(left, top, right - left, bottom - top);
}

/** An outline filled with slanted strokes, told from a filled bar without colours. */
function drawHatched(context: CanvasRenderingContext2D, bar: Area, colour: string, sheet: string): void {
  const { left, right, top, bottom } = bar;
  const height = bottom - top;
  context.fillStyle = sheet;
  outline(context, bar);
  context.fill();
  context.strokeStyle = colour;
  context.lineCap = "butt";
  context.lineWidth = 1.3;
  context.setLineDash([]);
  context.beginPath();
  // Each stroke rises to the right by as much as the bar is high; what would stand beyond the bar is left away.
  for (let foot = left - height + hatchStep; foot < right; foot += hatchStep) {
    const start = Math.max(foot, left);
    const end = Math.min(foot + height, right);
    if (end <= start) continue;
    context.moveTo(start, bottom - (start - foot));
    context.lineTo(end, bottom - (end - foot));
  }
  context.stroke();
  context.lineWidth = 1.5;
  context.lineJoin = "miter";
  outline(context, bar);
  context.stroke();
}
