import {
  Chart,
  type ChartConfiguration,
  type ChartDataset,
  LinearScale,
  PointElement,
  ScatterController,
  Tooltip,
} from "chart.js";
import type { ChartSpecification, Locale } from "../../core/index.ts";
import { runRadius } from "./draw-marks.ts";
import { type Drawing, type DrawingPlace, placeOf } from "./drawing.ts";
import { PartScale } from "./part-scale.ts";
import { plainText } from "./plain-text.ts";
import type { ChartTheme } from "./theme.ts";
import { runText, variantChartPlugin } from "./variant-chart-plugin.ts";

type DrawnDataset = ChartDataset<"scatter", { x: number; y: number }[]> & { place: DrawingPlace };

/**
 * The one Chart.js configuration of a chart, drawn alike on a canvas, in SVG and in PDF. It is made anew whenever the
 * specification, the theme or the language changes; the width of the surface decides the layout by itself.
 */
export function chartConfiguration(
  specification: ChartSpecification,
  theme: ChartTheme,
  locale: Locale,
): ChartConfiguration<"scatter", { x: number; y: number }[]> {
  Chart.register(ScatterController, PointElement, LinearScale, PartScale, Tooltip);
  const drawing: Drawing = { specification, theme, locale };
  const datasets = datasetsOf(drawing);
  // The bounds of a strip are its extent; other axes end on a tick.
  const bounds = specification.kind === "change-strip" ? "data" : "ticks";
  const part = { type: "part", axis: "x", display: false, bounds } as unknown as { type: "linear" };
  return {
    type: "scatter",
    data: { datasets },
    options: {
      animation: false,
      responsive: true,
      maintainAspectRatio: false,
      layout: { padding: 0, autoPadding: false },
      interaction: { mode: "nearest", intersect: true },
      scales: {
        runs: part,
        change: { ...part },
        y: { type: "linear", axis: "y", display: false },
      },
      plugins: {
        legend: { display: false },
        tooltip: {
          enabled: specification.kind !== "change-strip",
          displayColors: false,
          backgroundColor: theme.ink,
          titleColor: theme.sheet,
          bodyColor: theme.sheet,
          cornerRadius: 4,
          caretSize: 4,
          padding: 8,
          titleFont: { family: theme.textFamily, size: 13, weight: 600 },
          bodyFont: { family: theme.textFamily, size: 13 },
          callbacks: {
            title: (items) => items.slice(0, 1).map((item) => plainText(item.dataset.label ?? "").slice(0, 80)),
            label: (item) => tooltipText(placeOf(item.dataset), item.dataIndex),
          },
        },
      },
    },
    plugins: [variantChartPlugin],
  };
}

function tooltipText(place: DrawingPlace | null, index: number): string {
  if (place === null || place.drawing.specification.kind === "change-strip") return "";
  if (place.drawing.specification.kind === "budget") {
    return plainText(place.drawing.specification.rows[place.row]?.text ?? "");
  }
  const row = place.drawing.specification.rows[place.row];
  if (place.part === "change") return plainText(row?.change?.text ?? "");
  const run = row?.runs[index];
  return run === undefined ? "" : runText(place.drawing, run);
}

function datasetsOf(drawing: Drawing): DrawnDataset[] {
  const { specification } = drawing;
  const dataset = (part: "runs" | "change", row: number, label: string, values: readonly number[]): DrawnDataset => ({
    label,
    data: values.map((x) => ({ x, y: row })),
    xAxisID: part,
    yAxisID: "y",
    // The plug-in draws the points; Chart.js still finds them under the pointer.
    pointStyle: false,
    pointRadius: runRadius,
    pointHitRadius: 3,
    clip: false,
    place: { drawing, part, row },
  });
  if (specification.kind === "change-strip") return [dataset("change", 0, "", [specification.change.value])];
  if (specification.kind === "budget") {
    const bars = specification.rows.map(({ name, share }, index) => dataset("runs", index, name, [share]));
    return bars.length > 0 ? bars : [dataset("runs", 0, "", [])];
  }
  const sets = specification.rows.flatMap((row, index) => {
    const runs = dataset(
      "runs",
      index,
      row.variant,
      row.runs.map((run) => run.value),
    );
    const showsChange = row.change !== null && specification.changeTitle !== null;
    return showsChange ? [runs, dataset("change", index, row.variant, [row.change.value])] : [runs];
  });
  return sets.length > 0 ? sets : [dataset("runs", 0, "", [])];
}
