import type { Locale, ReportBlock } from "../../../core/index.ts";
import {
  chartHeight,
  drawChart,
  type MeasureFont,
  PdfContext,
  type PdfDrawing,
  type PlacedText,
  plainText,
  printTheme,
} from "../../chart/index.ts";
import { chartFace } from "../chart-face.ts";
import { textWidth } from "../text-run.ts";
import type { Block } from "./block.ts";
import type { Element, Flow } from "./flow.ts";
import { contentHeight, contentWidth, page, size } from "./page-measures.ts";
import { heightOf } from "./text-blocks.ts";
import { textLines } from "./text-lines.ts";
import { type InkedStyle, writeText } from "./write-text.ts";

/** The chart is laid out as on a page this wide, in pixels, and made smaller as a whole. */
const layoutWidth = 780;
const stripLayoutWidth = 240;
/** Rows stand closer on paper than on a screen. */
const tightness = { "runs-and-change": 0.77, budget: 0.72, "change-strip": 0.86 } as const;

const caption: InkedStyle = { face: "text", size: size.small, colour: printTheme.inkSoft };

/** A chart with its caption; never broken, smaller where it would be higher than a page. */
export function chartBlock(
  flow: Flow,
  parent: Element,
  block: Extract<ReportBlock, { readonly kind: "chart" }>,
  locale: Locale,
): Block {
  const { document } = flow;
  const { chart } = block;
  const figure = document.struct("Figure", { alt: plainText(chart.textAlternative) });
  const note = document.struct("P");
  parent.add(figure);
  parent.add(note);
  const lines = textLines(flow, note, block.caption, caption, { left: page.left, width: contentWidth, before: 0 });
  const captionHeight = Math.min(heightOf(lines), contentHeight / 3) + 6;
  const width = chart.kind === "change-strip" ? stripLayoutWidth : layoutWidth;
  const height = chartHeight(chart, width) * tightness[chart.kind];
  const scale = Math.min(contentWidth / layoutWidth, (contentHeight - captionHeight) / height);
  const drawnHeight = height * scale;
  const measure: MeasureFont = (text, font) => textWidth(text, chartFace(font), font.size);
  const write = ({ text, x, y, font, fill }: PlacedText) => {
    writeText(document, text, { face: chartFace(font), size: font.size, colour: fill.colour }, x, y);
  };
  return {
    before: 18,
    leading: drawnHeight + captionHeight,
    place() {
      if (flow.room < drawnHeight + captionHeight) flow.nextPage();
      // The writer takes lists of dashes, which its types do not say.
      const context = new PdfContext(
        document as unknown as PdfDrawing,
        { x: page.left, y: flow.y, scale },
        measure,
        write,
      );
      const box = [page.left, flow.y, page.left + width * scale, flow.y + drawnHeight];
      setBox(figure, box);
      figure.add(() => {
        drawChart(context.asCanvasContext, chart, { width, height, theme: printTheme, locale });
      });
      figure.end();
      flow.y += drawnHeight + 6;
      flow.lines(lines);
      note.end();
    },
  };
}

/** Where the figure stands, which a reader needs to show it (ISO 32000-1:2008, 14.8.5.4.3, from memory). Known only when it is placed. */
function setBox(figure: Element, [left = 0, top = 0, right = 0, bottom = 0]: readonly number[]): void {
  const element = figure as unknown as { readonly dictionary: { readonly data: Record<string, unknown> } };
  element.dictionary.data.A = {
    O: "Layout",
    Placement: "Block",
    BBox: [left, page.height - bottom, right, page.height - top],
  };
}
