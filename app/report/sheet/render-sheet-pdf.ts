import type { ReportDocument, Sheet, SheetDocument } from "../../../core/index.ts";
import { fitLine } from "../line-break.ts";
import type { Element } from "../pdf/flow.ts";
import { collectBytes, createPdf } from "../pdf/pdf-document.ts";
import { writeText } from "../pdf/write-text.ts";
import { textWidth } from "../text-run.ts";
import { plainSheets } from "./plain-sheets.ts";
import { layOutBand } from "./sheet-band.ts";
import { SheetCanvas } from "./sheet-canvas.ts";
import { layOutFurtherHead, layOutHead } from "./sheet-head.ts";
import { sheetPage, sheetWidth, style } from "./sheet-measures.ts";
import { sidesOf } from "./sides.ts";

const gap = 18;

/**
 * Blank sheets as PDF: A4, black on white, tagged, all fonts embedded; a run takes one side, or two, front and back. The same
 * sheets give the same bytes.
 */
export async function renderSheetPdf(sheets: SheetDocument): Promise<Uint8Array> {
  const plain = plainSheets(sheets);
  const document = createPdf(propertiesOf(plain));
  const bytes = collectBytes(document);
  const root = document.struct("Document");
  document.addStructure(root);
  const canvas = new SheetCanvas(document);
  for (const sheet of plain.sheets) {
    const element = canvas.element(root, "Sect");
    drawSheet(canvas, element, sheet, plain);
    element.end();
  }
  root.end();
  document.end();
  return bytes;
}

/** The file's properties are a report's: title, program, subject, language. */
function propertiesOf({ locale, title, properties }: SheetDocument): ReportDocument {
  return {
    locale,
    kind: "",
    title,
    banner: null,
    question: "",
    finding: "",
    lead: [],
    blocks: [],
    foot: "",
    pageOf: () => "",
    properties,
  };
}

function drawSheet(canvas: SheetCanvas, element: Element, sheet: Sheet, whole: SheetDocument): void {
  const { document } = canvas;
  const bands = sheet.bands.map((band) => layOutBand(canvas, band));
  const head = layOutHead(canvas, sheet);
  const furtherHead = layOutFurtherHead(canvas, sheet);
  const sides = sidesOf(bands, head.bottom, furtherHead.bottom);
  for (const [index, side] of sides.entries()) {
    document.addPage();
    if (index === 0 && whole.sheets.length > 1) document.outline.addItem(sheet.title);
    const own = index === 0 ? head : furtherHead;
    own.draw(element);
    let y = own.bottom;
    for (const band of side) {
      band.draw(element, y, sheetPage.bottom);
      y += band.height;
    }
    drawFoot(canvas, sheet.foot, whole.sideOf(sheet.number, index + 1, sides.length));
  }
}

/** Seen at the foot of each side, but no part of what is read. */
function drawFoot(canvas: SheetCanvas, start: string, end: string): void {
  const { document } = canvas;
  document.markContent("Artifact", { type: "Pagination", attached: ["Bottom"] });
  document.save();
  canvas.rule(sheetPage.left, sheetPage.right, sheetPage.footRule);
  const endWidth = textWidth(end, style.foot.face, style.foot.size);
  const shown = fitLine(start, style.foot, sheetWidth - endWidth - gap);
  writeText(document, shown, style.foot, sheetPage.left, sheetPage.footBaseline);
  writeText(document, end, style.foot, sheetPage.right - endWidth, sheetPage.footBaseline);
  document.restore();
  document.endMarkedContent();
}
