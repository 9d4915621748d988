import type { Scale } from "chart.js";
import type { LabelledInterval } from "../../core/index.ts";
import type { Area } from "./plan.ts";
import { type ShapeName, traceShape } from "./shape.ts";

export interface MarkStyle {
  readonly colour: string;
  readonly shape: ShapeName;
  /** 1 at the usual height of a row. */
  readonly scale: number;
}

/** High stacks have smaller points: their outlines stay apart. */
export function stackScale(levels: number): number {
  return levels <= 3 ? 1 : levels <= 6 ? 0.72 : 0.55;
}

export const runRadius = 5.6;
const barWidth = 4;
const lineWidth = 1.9;
const arrowSize = 5.5;

/**
 * The bar of an interval. An end that lies outside the axis, or that does not exist, is an arrow at the axis' end. Where
 * neither end exists there is nothing to draw. Returns how far the bar reaches, in pixels.
 */
export function drawInterval(
  context: CanvasRenderingContext2D,
  interval: LabelledInterval,
  scale: Scale,
  area: Area,
  y: number,
  style: MarkStyle,
): { readonly from: number; readonly to: number } {
  const middle = clamp(scale.getPixelForValue(interval.value), area);
  if (interval.lower === null && interval.upper === null) return { from: middle, to: middle };
  const lower = endOf(interval.lower, scale, area, "left");
  const upper = endOf(interval.upper, scale, area, "right");
  context.strokeStyle = style.colour;
  context.lineWidth = barWidth * style.scale;
  context.lineCap = "round";
  context.lineJoin = "round";
  context.beginPath();
  context.moveTo(lower.x, y);
  context.lineTo(upper.x, y);
  context.stroke();
  context.lineWidth = barWidth * style.scale * 0.7;
  if (lower.isOpen) arrow(context, lower.x, y, 1, style);
  if (upper.isOpen) arrow(context, upper.x, y, -1, style);
  return { from: lower.x, to: upper.x };
}

function endOf(
  value: number | null,
  scale: Scale,
  area: Area,
  side: "left" | "right",
): { readonly x: number; readonly isOpen: boolean } {
  if (value === null || !Number.isFinite(value)) return { x: area[side], isOpen: true };
  const x = scale.getPixelForValue(value);
  return x < area.left - 0.5 || x > area.right + 0.5 ? { x: area[side], isOpen: true } : { x, isOpen: false };
}

function arrow(context: CanvasRenderingContext2D, x: number, y: number, direction: 1 | -1, style: MarkStyle): void {
  const size = arrowSize * style.scale;
  context.beginPath();
  context.moveTo(x + direction * size, y - size);
  context.lineTo(x, y);
  context.lineTo(x + direction * size, y + size);
  context.stroke();
}

/** The upright tick at a mean. */
export function drawMeanTick(context: CanvasRenderingContext2D, x: number, y: number, style: MarkStyle): void {
  context.strokeStyle = style.colour;
  context.lineWidth = barWidth * style.scale;
  context.lineCap = "butt";
  context.beginPath();
  context.moveTo(x, y - 7 * style.scale);
  context.lineTo(x, y + 7 * style.scale);
  context.stroke();
}

/** One run: a hollow shape. A run that was left out is soft, thin and crossed out. */
export function drawRun(
  context: CanvasRenderingContext2D,
  x: number,
  y: number,
  style: MarkStyle,
  leftOut: { readonly colour: string } | null,
): void {
  const radius = runRadius * style.scale;
  context.strokeStyle = leftOut?.colour ?? style.colour;
  context.lineWidth = leftOut === null ? lineWidth * Math.min(1, 0.25 + 0.75 * style.scale) : 0.9;
  context.lineJoin = "miter";
  context.lineCap = "butt";
  traceShape(context, style.shape, x, y, radius);
  context.stroke();
  if (leftOut === null) return;
  context.lineCap = "round";
  context.lineWidth = 1.4;
  const arm = radius * 1.3;
  context.beginPath();
  context.moveTo(x - arm, y - arm);
  context.lineTo(x + arm, y + arm);
  context.moveTo(x - arm, y + arm);
  context.lineTo(x + arm, y - arm);
  context.stroke();
}

/** The variant's shape over an interval, filled with the sheet so that the bar does not show through. */
export function drawEstimate(
  context: CanvasRenderingContext2D,
  x: number,
  y: number,
  style: MarkStyle,
  sheet: string,
): void {
  context.fillStyle = sheet;
  context.strokeStyle = style.colour;
  context.lineWidth = lineWidth;
  context.lineJoin = "miter";
  traceShape(context, style.shape, x, y, (runRadius + 0.7) * style.scale);
  context.fill();
  context.stroke();
}

export function clamp(x: number, area: Area): number {
  return Math.min(area.right, Math.max(area.left, x));
}

/** Runs nearer than this to one another, in pixels, would hide one another and are stacked. */
const nearest = 3.5;

/**
 * Heights for points that lie on one line, so that all stay visible: points that coincide stand one above the other.
 * Takes places along the line, returns a level for each, 0 the lowest; the same places give the same levels.
 */
export function stackLevels(places: readonly number[]): number[] {
  const order = places.map((_, index) => index).toSorted((a, b) => (places[a] ?? 0) - (places[b] ?? 0) || a - b);
  const lastOfLevel: number[] = [];
  const levels = places.map(() => 0);
  for (const index of order) {
    const place = places[index] ?? 0;
    let level = lastOfLevel.findIndex((last) => place - last >= nearest);
    if (level < 0) level = lastOfLevel.length;
    lastOfLevel[level] = place;
    levels[index] = level;
  }
  return levels;
}
