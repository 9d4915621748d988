import { breakLines, fitLine } from "../line-break.ts";
import type { Element } from "../pdf/flow.ts";
import { type InkedStyle, writeText } from "../pdf/write-text.ts";
import { textWidth } from "../text-run.ts";
import { ink, leadingOf, line, style } from "./sheet-measures.ts";

/** A heading and the text after it, broken into lines of which the first begins beside the heading. */
export interface RunInText {
  /** With the space after it. */
  readonly heading: string;
  readonly lines: readonly string[];
}

export function breakRunIn(heading: string, text: string, width: number): RunInText {
  const lead = `${heading} `;
  // Broken as if all were as wide as the heading: no line is too long.
  const [first = "", ...further] = breakLines(lead + text, style.runIn, width);
  // A heading that takes more than a line has the text below it.
  if (!first.startsWith(lead))
    return { heading: fitLine(heading, style.runIn, width), lines: ["", ...breakLines(text, style.sentence, width)] };
  return { heading: lead, lines: [first.slice(lead.length), ...further] };
}

/** Draws on the pages of a form: what is read into the structure tree, what is only seen beside it. */
export class SheetCanvas {
  readonly document: PDFKit.PDFDocument;

  constructor(document: PDFKit.PDFDocument) {
    this.document = document;
  }

  /** An element below another; whoever asks for it ends it. */
  element(parent: Element, tag: string, alternative: string | null = null): Element {
    const element = this.document.struct(tag, alternative === null ? {} : { alt: alternative });
    parent.add(element);
    return element;
  }

  /** Lines of one text, from a first baseline down; gives the height that they take. */
  text(
    element: Element,
    lines: readonly string[],
    style: InkedStyle,
    place: { left: number; top: number; leading: number },
  ): number {
    element.add(() => {
      for (const [index, one] of lines.entries()) {
        writeText(this.document, one, style, place.left, place.top + place.leading * index + style.size * 0.9);
      }
    });
    return lines.length * place.leading;
  }

  /** A text that begins in the line of its own heading; gives the height that both take. */
  runIn(heading: Element, body: Element, text: RunInText, place: { left: number; top: number }): number {
    const { size } = style.sentence;
    const leading = leadingOf.sentence;
    const [first = "", ...further] = text.lines;
    heading.add(() => writeText(this.document, text.heading, style.runIn, place.left, place.top + size * 0.9));
    body.add(() => {
      const after = place.left + textWidth(text.heading, style.runIn.face, style.runIn.size);
      writeText(this.document, first, style.sentence, after, place.top + size * 0.9);
      for (const [index, one] of further.entries()) {
        writeText(this.document, one, style.sentence, place.left, place.top + leading * (index + 1) + size * 0.9);
      }
    });
    return text.lines.length * leading;
  }

  /** What is no part of what is read. */
  artifact(draw: () => void): void {
    this.document.markContent("Artifact", { type: "Layout" });
    this.document.save();
    draw();
    this.document.restore();
    this.document.endMarkedContent();
  }

  /** Outline of a box; white stays white. */
  outline(left: number, top: number, width: number, height: number): void {
    this.document.lineWidth(line.box).strokeColor(ink).rect(left, top, width, height).stroke();
  }

  rule(left: number, right: number, y: number, width: number = line.rule): void {
    this.document.lineWidth(width).strokeColor(ink).moveTo(left, y).lineTo(right, y).stroke();
  }
}
