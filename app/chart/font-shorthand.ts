/** What a canvas font says, as far as charts need it. */
export interface ParsedFont {
  readonly weight: number;
  readonly italic: boolean;
  /** Pixels. */
  readonly size: number;
  /** The CSS list of families as it stands. */
  readonly family: string;
}

/** Reads a CSS font shorthand whose size is in pixels: "600 13px Source Sans 3, sans-serif". */
export function parseFont(font: string): ParsedFont {
  const match = /^(?<before>.*?)(?<size>\d*\.?\d+)px(?:\s*\/\s*[\d.a-z%]+)?\s+(?<family>.+)$/s.exec(font.trim());
  if (match?.groups === undefined) throw new Error(`font without a size in px: ${font}`);
  const { before = "", size = "", family = "" } = match.groups;
  const words = before.trim().split(/\s+/);
  const number = words.map(Number).find((value) => value >= 1 && value <= 1000);
  const weight = number ?? (words.includes("bold") || words.includes("bolder") ? 700 : 400);
  return { weight, italic: words.includes("italic") || words.includes("oblique"), size: Number(size), family };
}
