import { breakLines } from "../line-break.ts";
import type { Element, Flow, Line } from "./flow.ts";
import { leading, size } from "./page-measures.ts";
import { type InkedStyle, writeText } from "./write-text.ts";

export interface TextPlace {
  readonly left: number;
  readonly width: number;
  /** Distance to the block before. */
  readonly before: number;
}

/** Height of a line of a style. */
export function lineHeightOf(style: InkedStyle): number {
  if (style.face === "voice") return style.size * leading.voice;
  return style.size * (style.size <= size.small ? leading.small : leading.text);
}

/** Baseline of a line below its top: the letters stand in the middle of the line. */
export function baselineOf(style: InkedStyle, height: number): number {
  return height / 2 + style.size * 0.33;
}

/** A text as lines for the flow, with no single line left alone at the foot or the head of a page. */
export function textLines(flow: Flow, element: Element, text: string, style: InkedStyle, place: TextPlace): Line[] {
  return inkedLines(flow, element, breakLines(text, style, place.width), style, place);
}

/** The same for a text that has been broken already. */
export function inkedLines(
  flow: Flow,
  element: Element,
  lines: readonly string[],
  style: InkedStyle,
  place: TextPlace,
): Line[] {
  const height = lineHeightOf(style);
  return lines.map((line, index) => ({
    before: index === 0 ? place.before : 0,
    height,
    holdsToPrevious: index === 1 || (index > 0 && index === lines.length - 1),
    pieces: [
      {
        element,
        draw: (top) => writeText(flow.document, line, style, place.left, top + baselineOf(style, height)),
      },
    ],
  }));
}
