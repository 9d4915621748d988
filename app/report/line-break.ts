/// <reference path="./linebreak.d.ts" />
import LineBreaker from "linebreak";
import type { FaceName } from "./fonts.ts";
import { textWidth } from "./text-run.ts";

/** Face and size, in points, of a text. */
export interface TextStyle {
  readonly face: FaceName;
  readonly size: number;
}

/** Rounding must not push a word over. */
const slack = 0.01;

/**
 * Breaks a text into lines no wider than `width`, where the Unicode Standard Annex 14 allows a break; a word wider than a
 * line is cut between characters. Lines keep the space at their end, so that joined they are the text again.
 */
export function breakLines(text: string, style: TextStyle, width: number): string[] {
  const lines: string[] = [];
  let line = "";
  for (const word of breakableWords(text)) {
    if (fits(line + word, style, width)) {
      line += word;
      continue;
    }
    if (line !== "") lines.push(line);
    line = word;
    if (fits(word, style, width)) continue;
    const pieces = cutWord(word, style, width);
    line = pieces.pop() ?? "";
    lines.push(...pieces);
  }
  if (line !== "" || lines.length === 0) lines.push(line);
  return lines;
}

/** The same number of lines, made as equally long as can be: for headings. */
export function balanceLines(text: string, style: TextStyle, width: number): string[] {
  const widest = breakLines(text, style, width);
  if (widest.length === 1 || widest.length > 6) return widest;
  let low = width / 2;
  let high = width;
  while (high - low > 1) {
    const middle = (low + high) / 2;
    const cutsWord = breakableWords(text).some((word) => !fits(word, style, middle));
    if (!cutsWord && breakLines(text, style, middle).length <= widest.length) high = middle;
    else low = middle;
  }
  return breakLines(text, style, high);
}

/** Cuts a text to one line of a width; an ellipsis marks what is missing. */
export function fitLine(text: string, style: TextStyle, width: number): string {
  if (fits(text, style, width)) return text;
  const [first = ""] = cutWord(text, style, Math.max(0, width - textWidth("…", style.face, style.size)));
  return `${first.trimEnd()}…`;
}

/** Stretches of a text that hold together, each with the space that follows it. */
export function breakableWords(text: string): string[] {
  const words: string[] = [];
  const breaker = new LineBreaker(text);
  let from = 0;
  for (let found = breaker.nextBreak(); found !== null; found = breaker.nextBreak()) {
    words.push(text.slice(from, found.position));
    from = found.position;
  }
  return words;
}

function fits(text: string, style: TextStyle, width: number): boolean {
  return textWidth(text.trimEnd(), style.face, style.size, width + slack) <= width + slack;
}

/** Pieces of a word no wider than a line, at least one character (grapheme) each. */
function cutWord(word: string, style: TextStyle, width: number): string[] {
  const pieces: string[] = [];
  let piece = "";
  let used = 0;
  for (const { segment } of new Intl.Segmenter().segment(word)) {
    const own = textWidth(segment, style.face, style.size);
    if (piece !== "" && used + own > width && segment.trim() !== "") {
      pieces.push(piece);
      piece = "";
      used = 0;
    }
    piece += segment;
    used += own;
  }
  pieces.push(piece);
  return pieces;
}
