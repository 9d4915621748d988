import type { SheetBand, SheetField } from "../../../core/index.ts";
import { breakLines } from "../line-break.ts";
import type { Element } from "../pdf/flow.ts";
import { breakRunIn, type SheetCanvas } from "./sheet-canvas.ts";
import { type LaidField, layOutField } from "./sheet-field.ts";
import { fieldPitch, fieldsLeft, leadingOf, marginWidth, sheetPage, style } from "./sheet-measures.ts";

const paddingTop = 3.5;
/** Above a step that follows in the same band. */
const runInGap = 1.5;
/** A field for sentences is at least as high as three lines of handwriting. */
const leastRest = 72;

export interface Row {
  readonly fields: readonly { readonly laid: LaidField; readonly left: number; readonly isRest: boolean }[];
  readonly height: number;
}

/** Fields in rows of a width; `pitch` is the distance from one of usual width to the next. */
export function layOutRows(
  canvas: SheetCanvas,
  fields: readonly SheetField[],
  left: number,
  pitch: number,
  inRow: number,
): readonly Row[] {
  const rows: { laid: LaidField; left: number; isRest: boolean }[][] = [];
  let used = inRow;
  for (const field of fields) {
    const isRest = field.width === "rest";
    const share = field.width === "rest" ? inRow : Math.min(field.width, inRow);
    if (used + share > inRow) {
      rows.push([]);
      used = 0;
    }
    const laid = layOutField(canvas, field, share * pitch);
    rows.at(-1)?.push({ laid, left: left + used * pitch, isRest });
    used += share;
  }
  return rows.map((row) => ({
    fields: row,
    height: Math.max(...row.map(({ laid, isRest }) => (isRest ? leastRest : laid.height))),
  }));
}

export function rowsHeight(rows: readonly Row[]): number {
  return rows.reduce((sum, { height }) => sum + height, 0);
}

/** Draws rows of fields as one list; a field for sentences goes down to `bottom`. */
export function drawRows(
  canvas: SheetCanvas,
  parent: Element,
  rows: readonly Row[],
  top: number,
  bottom: number,
): void {
  if (rows.length === 0) return;
  const list = canvas.element(parent, "L");
  let y = top;
  for (const row of rows) {
    const isRest = row.fields.some((field) => field.isRest);
    const height = isRest ? Math.max(row.height, bottom - y) : row.height;
    for (const { laid, left } of row.fields) laid.draw(list, left, y, height);
    y += height;
  }
  list.end();
}

/** A band of the form that has been laid out. */
export interface LaidBand {
  readonly part: string;
  readonly height: number;
  /** `bottom`: how far it may reach, if it grows. */
  draw(parent: Element, top: number, bottom: number): void;
}

export function layOutBand(canvas: SheetCanvas, band: SheetBand): LaidBand {
  const [step, ...further] = band.steps;
  const title = breakLines(step?.title ?? "", style.step, marginWidth);
  const sentence = breakLines(step?.sentence ?? "", style.sentence, marginWidth);
  const runIns = further.map((one) => breakRunIn(one.runIn, one.sentence, marginWidth));
  const textHeight =
    title.length * leadingOf.step +
    (sentence.length + runIns.reduce((sum, { lines }) => sum + lines.length, 0)) * leadingOf.sentence +
    runIns.length * runInGap;
  const rows = layOutRows(
    canvas,
    band.fields,
    fieldsLeft,
    fieldPitch,
    Math.round((sheetPage.right - fieldsLeft) / fieldPitch),
  );
  return {
    part: band.part,
    height: paddingTop + Math.max(textHeight + 3, rowsHeight(rows)),
    draw(parent, top, bottom) {
      const section = canvas.element(parent, "Sect");
      canvas.artifact(() => canvas.rule(sheetPage.left, sheetPage.right, top));
      let y = top + paddingTop;
      const left = sheetPage.left;
      const heading = canvas.element(section, "H2");
      y += canvas.text(heading, title, style.step, { left, top: y, leading: leadingOf.step });
      heading.end();
      const paragraph = canvas.element(section, "P");
      y += canvas.text(paragraph, sentence, style.sentence, { left, top: y, leading: leadingOf.sentence });
      paragraph.end();
      for (const runIn of runIns) {
        const [next, text] = [canvas.element(section, "H2"), canvas.element(section, "P")];
        y += runInGap + canvas.runIn(next, text, runIn, { left, top: y + runInGap });
        next.end();
        text.end();
      }
      drawRows(canvas, section, rows, top + paddingTop, bottom);
      section.end();
    },
  };
}
