import { inflateSync } from "node:zlib";

/** What the pages of a PDF file draw, as PDF operators (ISO 32000-1:2008, annex A) with their operands. */
export interface PdfDrawing {
  /** The operators themselves; one character a byte. */
  readonly contents: string;
  /** Rectangles (`re`): width and height in points. */
  readonly rectangles: readonly { readonly width: number; readonly height: number }[];
  /** Colours that are set (`scn`, `SCN`), each 0 to 1. */
  readonly colours: readonly string[];
  /** Widths of lines (`w`), points. */
  readonly lineWidths: readonly number[];
  /** Sizes of text (`Tf`), points. */
  readonly textSizes: readonly number[];
}

export function pdfDrawing(bytes: Uint8Array): PdfDrawing {
  const contents = contentStreams(Buffer.from(bytes)).join("\n");
  const operands = (pattern: RegExp) => [...contents.matchAll(pattern)].map(([, ...found]) => found.map(Number));
  return {
    contents,
    rectangles: operands(/^[-\d.]+ [-\d.]+ ([-\d.]+) ([-\d.]+) re$/gm).map(([width = 0, height = 0]) => ({
      width: Math.abs(width),
      height: Math.abs(height),
    })),
    colours: [...contents.matchAll(/^([-\d. ]+) (?:scn|SCN|rg|RG|g|G|k|K)$/gm)].map(([, colour]) => colour ?? ""),
    lineWidths: operands(/^([\d.]+) w$/gm).map(([width = 0]) => width),
    textSizes: operands(/^\/F\d+ ([\d.]+) Tf$/gm).map(([size = 0]) => size),
  };
}

/** The streams that draw: those that begin and end texts or paths, and no fonts or tables. */
function contentStreams(file: Buffer): string[] {
  const streams: string[] = [];
  for (let at = file.indexOf("stream\n"); at >= 0; at = file.indexOf("stream\n", at + 1)) {
    if (file.subarray(at - 3, at).toString() === "end") continue;
    const end = file.indexOf("\nendstream", at);
    const raw = file.subarray(at + "stream\n".length, end);
    // A stream that is not compressed, or is no text, draws nothing.
    if (raw[0] !== 0x78) continue;
    const text = inflateSync(raw).toString("latin1");
    if (/^BT$/m.test(text)) streams.push(text);
  }
  if (streams.length === 0) throw new Error("nothing is drawn");
  return streams;
}
