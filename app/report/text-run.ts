import { type FaceName, face, fallbackOf } from "./fonts.ts";

/** A stretch of text in one face. */
export interface TextRun {
  readonly face: FaceName;
  readonly text: string;
  /** What the text stands for where no face has a sign for it: the text is then a box. */
  readonly actual: string | null;
}

const box = "□";
/** Joiners and variation selectors say how to draw their neighbours, and are nothing by themselves. */
const invisible = /\p{Default_Ignorable_Code_Point}/u;

/** Splits a text by the faces that can show it; what none can show becomes a box that remembers the character. */
export function textRuns(text: string, name: FaceName): TextRun[] {
  const runs: { face: FaceName; text: string; actual: string | null }[] = [];
  const append = (faceName: FaceName, shown: string, actual: string | null) => {
    const last = runs.at(-1);
    if (last !== undefined && last.face === faceName && (last.actual === null) === (actual === null)) {
      last.text += shown;
      if (actual !== null) last.actual += actual;
    } else runs.push({ face: faceName, text: shown, actual });
  };
  for (const character of text) {
    const codePoint = character.codePointAt(0) ?? 0;
    if (face(name).hasGlyphForCodePoint(codePoint)) append(name, character, null);
    else if (invisible.test(character)) continue;
    else if (face(fallbackOf(name)).hasGlyphForCodePoint(codePoint)) append(fallbackOf(name), character, null);
    else append(fallbackOf(name), box, character);
  }
  return runs;
}

const widths = new Map<FaceName, Map<string, number>>();
const mostKept = 20_000;
const longestKept = 60;

/**
 * Width of a text in the report's faces, in the unit of `size`; summed by words, as the PDF writer lays them out. Stops
 * counting beyond `enough`.
 */
export function textWidth(text: string, name: FaceName, size: number, enough = Number.POSITIVE_INFINITY): number {
  let width = 0;
  for (const [word] of text.matchAll(/[^ ]{1,200} ?| /gu)) {
    width += wordWidth(word, name) * size;
    if (width > enough) break;
  }
  return width;
}

function wordWidth(word: string, name: FaceName): number {
  let kept = widths.get(name);
  if (kept === undefined || kept.size > mostKept) {
    kept = new Map();
    widths.set(name, kept);
  }
  const known = kept.get(word);
  if (known !== undefined) return known;
  let width = 0;
  for (const run of textRuns(word, name))
    width += face(run.face).layout(run.text).advanceWidth / face(run.face).unitsPerEm;
  if (word.length <= longestKept) kept.set(word, width);
  return width;
}
