import type { ReportDocument } from "../../../core/index.ts";
import { printTheme } from "../../chart/index.ts";
import { fitLine } from "../line-break.ts";
import { textWidth } from "../text-run.ts";
import { contentWidth, page, size } from "./page-measures.ts";
import { type InkedStyle, writeText } from "./write-text.ts";

const style: InkedStyle = { face: "text", size: size.small, colour: printTheme.inkSoft };
const gap = 18;

/** Head and foot of every page, once it is known how many there are. Seen, but no part of what is read. */
export function drawRunningLines(document: PDFKit.PDFDocument, report: ReportDocument): void {
  const { start, count } = document.bufferedPageRange();
  for (let index = 0; index < count; index++) {
    document.switchToPage(start + index);
    artifact(document, "Header", () => {
      twoEnds(document, report.kind, report.banner ?? "", page.headBaseline);
    });
    artifact(document, "Footer", () => {
      document.lineWidth(0.6).strokeColor(printTheme.rule);
      document.moveTo(page.left, page.footRule).lineTo(page.right, page.footRule).stroke();
      twoEnds(document, report.foot, report.pageOf(index + 1, count), page.footBaseline);
    });
  }
}

function artifact(document: PDFKit.PDFDocument, subtype: "Header" | "Footer", draw: () => void): void {
  const attached = [subtype === "Header" ? "Top" : "Bottom"];
  document.markContent("Artifact", { type: "Pagination", attached });
  document.save();
  draw();
  document.restore();
  document.endMarkedContent();
}

/** One text at each end; the end's own text is kept whole as far as it goes, the start's is shortened. */
function twoEnds(document: PDFKit.PDFDocument, start: string, end: string, baseline: number): void {
  const shownEnd = fitLine(end, style, contentWidth * 0.6);
  const endWidth = shownEnd === "" ? 0 : textWidth(shownEnd, style.face, style.size);
  const shownStart = fitLine(start, style, contentWidth - (endWidth > 0 ? endWidth + gap : 0));
  writeText(document, shownStart, style, page.left, baseline);
  writeText(document, shownEnd, style, page.right - endWidth, baseline);
}
