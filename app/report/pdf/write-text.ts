import { face } from "../fonts.ts";
import type { TextStyle } from "../line-break.ts";
import { textRuns, textWidth } from "../text-run.ts";
import { visualOrder } from "../visual-order.ts";

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
  const seen = visualOrder(text);
  // What is read aloud or copied stays in the order of reading.
  const isReordered = seen !== text;
  if (isReordered) document.markContent("Span", { actual: text });
  for (const run of textRuns(seen, style.face)) {
    document.font(face(run.face) as unknown as PDFKit.Mixins.PDFFontSource, run.face, style.size);
    document.fillColor(style.colour);
    const isBox = run.actual !== null && !isReordered;
    if (isBox) document.markContent("Span", { actual: run.actual ?? "" });
    document.text(run.text, at, baseline, { lineBreak: false, baseline: "alphabetic" });
    if (isBox) document.endMarkedContent();
    at += textWidth(run.text, run.face, style.size);
  }
  if (isReordered) document.endMarkedContent();
}
