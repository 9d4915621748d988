import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { hasPdfTools } from "../tools.ts";

export interface PdfWord {
  readonly page: number;
  readonly text: string;
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** Runs one of the poppler tools on a file, another program's reading of ours. */
function poppler(
  tool: "pdftotext" | "pdfinfo" | "pdffonts",
  bytes: Uint8Array,
  before: string[],
  after: string[] = [],
): string {
  if (!hasPdfTools())
    throw new Error("These tests need pdftotext, pdfinfo and pdffonts: apt-get install poppler-utils.");
  const folder = mkdtempSync(join(tmpdir(), "boilbench-pdf-"));
  try {
    const file = join(folder, "report.pdf");
    writeFileSync(file, bytes);
    const done = spawnSync(tool, [...before, file, ...after], { encoding: "utf8", maxBuffer: 1 << 27 });
    if (done.status !== 0) throw new Error(`${tool}: ${done.stderr}`);
    if (/error/i.test(done.stderr)) throw new Error(`${tool} complains: ${done.stderr}`);
    return done.stdout;
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** The text in reading order, every stretch of white space one space. */
export function pdfText(bytes: Uint8Array): string {
  return poppler("pdftotext", bytes, ["-enc", "UTF-8"], ["-"]).replace(/\s+/g, " ");
}

export function pdfProperties(bytes: Uint8Array): Map<string, string> {
  const lines = poppler("pdfinfo", bytes, ["-enc", "UTF-8"]).split("\n");
  return new Map(lines.map((line) => [line.slice(0, line.indexOf(":")), line.slice(line.indexOf(":") + 1).trim()]));
}

/** The structure tree as indented lines; with `text`, what each element holds. */
export function pdfStructure(bytes: Uint8Array, text = false): string {
  return poppler("pdfinfo", bytes, ["-enc", "UTF-8", text ? "-struct-text" : "-struct"]);
}

/** Names of the fonts, with whether each is embedded and can be read back as Unicode. */
export function pdfFonts(
  bytes: Uint8Array,
): { readonly name: string; readonly embedded: boolean; readonly unicode: boolean }[] {
  const lines = poppler("pdffonts", bytes, []).trim().split("\n").slice(2);
  return lines.map((line) => {
    const parts = line.trim().split(/\s+/);
    const [embedded, , unicode] = parts.slice(-5, -2);
    return { name: parts[0] ?? "", embedded: embedded === "yes", unicode: unicode === "yes" };
  });
}

/** Every word with its box in points. */
export function pdfWords(bytes: Uint8Array): PdfWord[] {
  const xml = poppler("pdftotext", bytes, ["-bbox", "-enc", "UTF-8"], ["-"]);
  return xml
    .split("<page ")
    .slice(1)
    .flatMap((page, index) =>
      [...page.matchAll(/<word xMin="([^"]*)" yMin="([^"]*)" xMax="([^"]*)" yMax="([^"]*)">([^<]*)<\/word>/g)].map(
        ([, left, top, right, bottom, text]) => ({
          page: index + 1,
          text: text ?? "",
          left: Number(left),
          top: Number(top),
          right: Number(right),
          bottom: Number(bottom),
        }),
      ),
    );
}
