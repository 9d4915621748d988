import type { Scale } from "chart.js";
import { tickDecimals } from "./axis-range.ts";
import { type Drawing, fontOf } from "./drawing.ts";
import { asMark } from "./marked-context.ts";
import { tickSize, tickText } from "./part-scale.ts";
import type { PartPlan } from "./plan.ts";

const lineHeight = 1.25;
const leastGap = 5;

/** Title, hairlines with their values, and the line of no change. */
export function drawAxis(
  context: CanvasRenderingContext2D,
  drawing: Drawing,
  part: PartPlan,
  scale: Scale,
  fontSize: number,
): void {
  const { theme } = drawing;
  const { area } = part;
  if (drawing.specification.kind === "change-strip") {
    line(context, scale.getPixelForValue(0), area.top + 2, area.bottom - 2, theme.ruleStrong, 1.5);
    return;
  }
  context.font = fontOf(theme, fontSize);
  context.fillStyle = theme.inkSoft;
  context.textAlign = "left";
  context.textBaseline = "alphabetic";
  part.title.forEach((text, at) => {
    context.fillText(text, part.titleLeft, part.titleBaseline + at * fontSize * lineHeight);
  });

  const values = scale.ticks.map((tick) => tick.value);
  const step = Math.abs((values[1] ?? 1) - (values[0] ?? 0));
  const ticks = values.map((value) => (Math.abs(value) < step * 1e-6 ? 0 : value));
  for (const value of ticks) {
    const x = scale.getPixelForValue(value);
    if (scale.id !== "change" || value !== 0) line(context, x, area.top, area.bottom, theme.rule, 1);
  }
  if (scale.id === "change") {
    asMark(context, "no-change", "", () => {
      line(context, scale.getPixelForValue(0), area.top, area.bottom, theme.ink, 1.4);
    });
  }

  // "no change" is never the one to go where two labels would touch.
  const taken: { from: number; to: number }[] = [];
  const order = scale.id === "change" ? ticks.toSorted((a, b) => Math.abs(a) - Math.abs(b)) : ticks;
  context.textAlign = "center";
  context.font = fontOf(theme, tickSize(fontSize));
  for (const value of order) {
    const text = tickText(drawing, scale.id, value, tickDecimals(step));
    const half = context.measureText(text).width / 2;
    const x = scale.getPixelForValue(value);
    if (taken.some(({ from, to }) => x - half < to + leastGap && x + half > from - leastGap)) continue;
    taken.push({ from: x - half, to: x + half });
    context.fillStyle = scale.id === "change" && value === 0 ? theme.ink : theme.inkSoft;
    context.fillText(text, x, part.tickBaseline);
  }
}

function line(
  context: CanvasRenderingContext2D,
  x: number,
  top: number,
  bottom: number,
  colour: string,
  width: number,
): void {
  // Onto whole pixels, where a hairline is one pixel wide and not two half ones.
  const at = Math.round(x - 0.5) + 0.5;
  context.strokeStyle = colour;
  context.lineWidth = width;
  context.lineCap = "butt";
  context.setLineDash([]);
  context.beginPath();
  context.moveTo(at, top);
  context.lineTo(at, bottom);
  context.stroke();
}
