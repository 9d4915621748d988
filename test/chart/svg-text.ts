import { type ChartTheme, chartHeight, drawChart, lightTheme, SvgContext } from "../../app/chart/index.ts";
import { chartFace } from "../../app/report/chart-face.ts";
import { textWidth } from "../../app/report/text-run.ts";
import type { ChartSpecification } from "../../core/index.ts";

export interface DrawnText {
  readonly text: string;
  readonly left: number;
  readonly right: number;
  readonly baseline: number;
  readonly size: number;
}

/** A chart as SVG elements, measured in the report's own fonts. */
export function drawSvg(chart: ChartSpecification, width: number, theme: ChartTheme = lightTheme): string {
  const context = new SvgContext((text, font) => textWidth(text, chartFace(font), font.size), "test");
  drawChart(context.asCanvasContext, chart, { width, height: chartHeight(chart, width), theme, locale: "en" });
  return context.content;
}

/** Every text of a drawing, with its extent in pixels. */
export function textsOf(svg: string): DrawnText[] {
  const pattern = /<text x="([^"]*)" y="([^"]*)" font-size="([^"]*)" font-weight="([^"]*)"[^>]*>([^<]*)<\/text>/g;
  return [...svg.matchAll(pattern)].map(([, x, y, size, weight, escaped]) => {
    const text = (escaped ?? "")
      .replaceAll("&lt;", "<")
      .replaceAll("&gt;", ">")
      .replaceAll("&quot;", '"')
      .replaceAll("&#39;", "'")
      .replaceAll("&amp;", "&");
    const left = Number(x);
    const right = left + textWidth(text, Number(weight) >= 600 ? "text-bold" : "text", Number(size));
    return { text, left, right, baseline: Number(y), size: Number(size) };
  });
}

/** Every coordinate pair of every outline. */
export function pointsOf(svg: string): (readonly [number, number])[] {
  return [...svg.matchAll(/ d="([^"]*)"/g)].flatMap(([, data]) => {
    const numbers = (data?.match(/-?\d+(\.\d+)?/g) ?? []).map(Number);
    return Array.from(
      { length: numbers.length / 2 },
      (_, at) => [numbers[2 * at] ?? NaN, numbers[2 * at + 1] ?? NaN] as const,
    );
  });
}

/** The content of each mark of one name. */
export function marksOf(svg: string, name: string): string[] {
  return [...svg.matchAll(new RegExp(`<g class="${name}">(.*?)</g>`, "g"))].map(([, content]) => content ?? "");
}
