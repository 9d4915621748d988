import { face } from "../fonts.ts";
import type { TextStyle } from "../line-break.ts";
import { textRuns, textWidth } from "../text-run.ts";

export interface InkedStyle extends TextStyle {
  /** #rrggbb */
  readonly colour: string;
}

/** Writes one line with its baseline beginning at (x, baseline), in as many faces as it takes. */
export function writeText(
  document: PDFKit.PDFDocument,
  text: string,
  style: InkedStyle,
  x: number,
  baseline: number,
): void {
  let at = x;
  for (const run of textRuns(text, style.face)) {
    document.font(face(run.face) as unknown as PDFKit.Mixins.PDFFontSource, run.face, style.size);
    document.fillColor(style.colour);
    if (run.actual !== null) document.markContent("Span", { actual: run.actual });
    document.text(run.text, at, baseline, { lineBreak: false, baseline: "alphabetic" });
    if (run.actual !== null) document.endMarkedContent();
    at += textWidth(run.text, run.face, style.size);
  }
}
