import type { Locale, ReportBlock, ReportDocument } from "../../../core/index.ts";
import { printTheme } from "../../chart/index.ts";
import { balanceLines } from "../line-break.ts";
import { plainDocument } from "../plain-document.ts";
import type { Block } from "./block.ts";
import { chartBlock } from "./chart-block.ts";
import { type Element, Flow } from "./flow.ts";
import { belowHeading, contentHeight, contentWidth, page, size } from "./page-measures.ts";
import { collectBytes, createPdf } from "./pdf-document.ts";
import { drawRunningLines } from "./running-lines.ts";
import { tableBlock } from "./table-block.ts";
import { asideBlock, headingBlock, listBlock, paragraphBlock } from "./text-blocks.ts";
import { inkedLines, textLines } from "./text-lines.ts";
import type { InkedStyle } from "./write-text.ts";

/**
 * The report as PDF: A4, tagged, all fonts embedded, charts as outlines. The same report gives the same bytes.
 * Whatever the texts hold, the file is written: a character that no font has is shown as a box and kept as itself.
 */
export async function renderPdf(report: ReportDocument): Promise<Uint8Array> {
  const plain = plainDocument(report);
  const document = createPdf(plain);
  const bytes = collectBytes(document);
  const root = document.struct("Document");
  document.addStructure(root);
  const flow = new Flow(document);
  placeOpening(flow, root, plain);
  placeBlocks(flow, root, plain.blocks, plain.locale);
  root.end();
  drawRunningLines(document, plain);
  document.end();
  return bytes;
}

/** Question, finding and lead: what is read first. */
function placeOpening(flow: Flow, root: Element, report: ReportDocument): void {
  const whole = { left: page.left, width: contentWidth, before: 0 };
  const text = (tag: string, lines: (element: Element) => Parameters<Flow["lines"]>[0]) => {
    const element = flow.document.struct(tag);
    root.add(element);
    flow.lines(lines(element));
    element.end();
  };
  if (report.question !== "") {
    const style: InkedStyle = { face: "text", size: size.question, colour: printTheme.inkSoft };
    text("P", (element) => textLines(flow, element, report.question, style, whole));
    flow.space(4);
  }
  // A finding is a sentence; a very long one is set smaller, so that it stays on the page with its chart.
  const length = report.finding.length;
  const style: InkedStyle = {
    face: "voice",
    size: length > 400 ? size.heading2 : length > 160 ? 19 : size.finding,
    colour: printTheme.ink,
  };
  text("H1", (element) => inkedLines(flow, element, balanceLines(report.finding, style, contentWidth), style, whole));
  flow.space(8);
  for (const paragraph of report.lead) {
    const lead: InkedStyle = { face: "text", size: size.lead, colour: printTheme.ink };
    text("P", (element) => textLines(flow, element, paragraph, lead, whole));
    flow.space(6);
  }
}

function placeBlocks(flow: Flow, root: Element, blocks: readonly ReportBlock[], locale: Locale): void {
  const laid = blocks.map((block) => layOut(flow, root, block, locale));
  for (const [index, block] of laid.entries()) {
    const source = blocks[index];
    if (source?.kind === "heading" && source.startsPage === true && !flow.isAtTop) flow.nextPage();
    flow.space(block.before);
    if (source?.kind === "heading" && flow.room < togetherFrom(blocks, laid, index)) flow.nextPage();
    block.place();
    if (source?.kind === "heading") flow.y += belowHeading[source.level];
  }
}

/** Height of a heading with those that follow it and the beginning of what they head. */
function togetherFrom(blocks: readonly ReportBlock[], laid: readonly Block[], from: number): number {
  let height = 0;
  for (let index = from; index < laid.length; index++) {
    height += (laid[index]?.leading ?? 0) + (index === from ? 0 : (laid[index]?.before ?? 0));
    const block = blocks[index];
    if (block?.kind !== "heading") break;
    height += belowHeading[block.level];
  }
  return Math.min(height, contentHeight);
}

function layOut(flow: Flow, root: Element, block: ReportBlock, locale: Locale): Block {
  switch (block.kind) {
    case "heading":
      return headingBlock(flow, root, block);
    case "paragraph":
      return paragraphBlock(flow, root, block);
    case "aside":
      return asideBlock(flow, root, block);
    case "chart":
      return chartBlock(flow, root, block, locale);
    case "list":
      return listBlock(flow, root, block);
    case "table":
      return tableBlock(flow, root, block.table);
  }
}
