import type { Chart } from "chart.js";
import type { ChartSpecification, Locale } from "../../core/index.ts";
import type { ChartPlan } from "./plan.ts";
import type { ChartTheme } from "./theme.ts";

/** What a chart shows and how; every data set of a configuration carries it, so that it follows when the data are replaced. */
export interface Drawing {
  readonly specification: ChartSpecification;
  readonly theme: ChartTheme;
  readonly locale: Locale;
}

/** The part of a chart that a data set belongs to, and its row there. */
export interface DrawingPlace {
  readonly drawing: Drawing;
  readonly part: "runs" | "change";
  readonly row: number;
}

const plans = new WeakMap<Chart, ChartPlan>();

export function keepPlan(chart: Chart, plan: ChartPlan): void {
  plans.set(chart, plan);
}

/** The layout of a chart as last updated. */
export function planOf(chart: Chart): ChartPlan | null {
  return plans.get(chart) ?? null;
}

/** What a chart draws; null for charts that are not ours. */
export function drawingOf(chart: Chart): Drawing | null {
  const first: unknown = chart.data.datasets[0];
  return placeOf(first)?.drawing ?? null;
}

/** The place that a data set was made with. */
export function placeOf(dataset: unknown): DrawingPlace | null {
  return (dataset as { readonly place?: DrawingPlace } | undefined)?.place ?? null;
}

/** Font shorthand of canvas, SVG and PDF alike. */
export function fontOf(theme: ChartTheme, size: number, weight: 400 | 600 = 400): string {
  return `${weight} ${size}px ${theme.textFamily}`;
}
