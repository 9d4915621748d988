import type { ChartSpecification, Locale } from "../../../core/index.ts";
import { chartHeight, drawChart, escapeMarkup, type MeasureFont, plainText, SvgContext } from "../../chart/index.ts";
import { chartFace } from "../chart-face.ts";
import { textWidth } from "../text-run.ts";
import { styledTheme } from "./report-style.ts";

const measure: MeasureFont = (text, font) => textWidth(text, chartFace(font), font.size);

const layouts = { wide: 780, narrow: 380, strip: 240 } as const;

/**
 * A chart as SVG inside the file. There is no script to lay it out anew, so it is there twice, for wide and for narrow windows,
 * and the style shows one of the two: the other is not there for a screen reader either.
 */
export function chartFigure(chart: ChartSpecification, caption: string, id: string, locale: Locale): string {
  const kinds = chart.kind === "change-strip" ? (["strip"] as const) : (["wide", "narrow"] as const);
  const drawings = kinds.map((kind) => svg(chart, caption, `${id}-${kind}`, kind, locale));
  const captionElement = caption === "" ? "" : `<figcaption>${escapeMarkup(caption)}</figcaption>`;
  return `<figure>${drawings.join("\n")}${captionElement}</figure>`;
}

function svg(
  chart: ChartSpecification,
  caption: string,
  id: string,
  kind: keyof typeof layouts,
  locale: Locale,
): string {
  const width = layouts[kind];
  const height = chartHeight(chart, width);
  const context = new SvgContext(measure, id);
  drawChart(context.asCanvasContext, chart, { width, height, theme: styledTheme, locale });
  const title = titleOf(chart);
  return (
    `<svg xmlns="http://www.w3.org/2000/svg" class="${kind}" viewBox="0 0 ${width} ${height}" width="${width}" height="${height}"` +
    ` role="img" aria-labelledby="${id}-title" aria-describedby="${id}-description">` +
    `<title id="${id}-title">${escapeMarkup(plainText(title === "" ? caption : title))}</title>` +
    `<desc id="${id}-description">${escapeMarkup(plainText(chart.textAlternative))}</desc>${context.content}</svg>`
  );
}

function titleOf(chart: ChartSpecification): string {
  switch (chart.kind) {
    case "change-strip":
      return chart.change.text;
    case "budget":
      return chart.shareTitle;
    case "runs-and-change":
      return chart.valueTitle;
  }
}
