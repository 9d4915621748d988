import type { Sheet, SheetField } from "../../../core/index.ts";
import { breakLines, fitLine } from "../line-break.ts";
import type { Element } from "../pdf/flow.ts";
import { writeText } from "../pdf/write-text.ts";
import { textWidth } from "../text-run.ts";
import { drawRows, layOutRows, type Row, rowsHeight } from "./sheet-band.ts";
import { breakRunIn, type SheetCanvas } from "./sheet-canvas.ts";
import { headFields, headPitch, ink, leadingOf, sheetPage, sheetWidth, style } from "./sheet-measures.ts";

/** Between the run's name and the study's. */
const gap = 18;
/** Of the cautions, from the bar beside them. */
const indent = 8;
const barWidth = 2.5;
/** What a very long name of a run may take of the width, and how many lines. */
const titleShare = 0.62;
const mostTitleLines = 3;
const titleHeight = 24;
const aboveCautions = 2;
const aboveFields = { first: 7, further: 2 } as const;
const belowFields = 2;

/** The head of a side, laid out. */
export interface LaidHead {
  /** Where it ends, in points from the top of the sheet. */
  readonly bottom: number;
  draw(parent: Element): void;
}

/** Of the first side: the run's name and the study's, the cautions, and what tells this run from others. */
export function layOutHead(canvas: SheetCanvas, sheet: Sheet): LaidHead {
  const title = layOutTitle(canvas, sheet, "H1");
  const top = title.bottom + aboveCautions;
  const { texts } = sheet.cautions;
  const cautions = breakRunIn(sheet.cautions.title, texts.join(" "), sheetWidth - indent);
  const under = top + cautions.lines.length * leadingOf.sentence;
  const fields = layOutFields(canvas, sheet.head, under + aboveFields.first);
  return {
    bottom: fields.bottom,
    draw(parent) {
      title.draw(parent);
      canvas.artifact(() => canvas.document.rect(sheetPage.left, top, barWidth, under + 1 - top).fill(ink));
      const paragraph = canvas.element(parent, "P");
      const label = canvas.element(paragraph, "Span");
      canvas.runIn(label, paragraph, cautions, { left: sheetPage.left + indent, top });
      label.end();
      paragraph.end();
      fields.draw(parent);
    },
  };
}

/** Of a further side: whose it is. */
export function layOutFurtherHead(canvas: SheetCanvas, sheet: Sheet): LaidHead {
  const title = layOutTitle(canvas, sheet, "P");
  const fields = layOutFields(canvas, sheet.furtherHead, title.bottom + aboveFields.further);
  return {
    bottom: fields.bottom,
    draw(parent) {
      title.draw(parent);
      fields.draw(parent);
    },
  };
}

function layOutFields(canvas: SheetCanvas, fields: readonly SheetField[], top: number): LaidHead {
  const rows: readonly Row[] = layOutRows(canvas, fields, sheetPage.left, headPitch, headFields);
  return {
    bottom: top + rowsHeight(rows) + belowFields,
    draw: (parent) => drawRows(canvas, parent, rows, top, sheetPage.bottom),
  };
}

/** The run's name, large unless it is very long, and the study's at the other end. */
function layOutTitle(canvas: SheetCanvas, sheet: Sheet, tag: "H1" | "P"): LaidHead {
  const width = sheetWidth * titleShare;
  const isLong = textWidth(sheet.title, style.title.face, style.title.size) > width;
  const own = isLong ? style.longTitle : style.title;
  const broken = breakLines(sheet.title, own, width);
  const whole = broken.slice(0, mostTitleLines);
  const rest = broken.slice(mostTitleLines - 1).join("");
  const lines = broken.length > mostTitleLines ? [...whole.slice(0, -1), fitLine(rest, own, width)] : whole;
  const leading = isLong ? leadingOf.longTitle : titleHeight;
  const titleWidth = Math.max(...lines.map((line) => textWidth(line.trimEnd(), own.face, own.size)));
  const study = fitLine(sheet.study, style.study, sheetWidth - titleWidth - gap);
  const { left, right, top } = sheetPage;
  return {
    bottom: top + Math.max(titleHeight, lines.length * leading + (isLong ? 8 : 0)),
    draw(parent) {
      const heading = canvas.element(parent, tag);
      canvas.text(heading, lines, own, { left, top: isLong ? top + 4 : top, leading });
      heading.end();
      const name = canvas.element(parent, "P");
      const start = right - textWidth(study, style.study.face, style.study.size);
      name.add(() => writeText(canvas.document, study, style.study, start, top + style.title.size * 0.9));
      name.end();
    },
  };
}
