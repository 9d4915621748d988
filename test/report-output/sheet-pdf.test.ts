import { describe, expect, test } from "vitest";
import { renderSheetPdf } from "../../app/report/index.ts";
import type { SheetDocument } from "../../core/index.ts";
import { hostileText } from "./hostile-report.ts";
import { pdfDrawing } from "./pdf-drawing.ts";
import { pdfFonts, pdfProperties, pdfStructure, pdfText, pdfWords } from "./pdf-reader.ts";
import { inventedKnown, inventedPlan, inventedSheets, kindsOfSheets } from "./sample-sheets.ts";

const millimetre = 72 / 25.4;
const a4 = { width: 210 * millimetre, height: 297 * millimetre };

/** Printers leave a margin: 8 mm, from memory of what common ones need at most. */
const unprinted = 8 * millimetre;

function expectWithinPage(file: Uint8Array): void {
  for (const word of pdfWords(file)) {
    const where = `"${word.text}" on page ${word.page}`;
    expect(word.left, where).toBeGreaterThanOrEqual(unprinted);
    expect(word.right, where).toBeLessThanOrEqual(a4.width - unprinted);
    expect(word.top, where).toBeGreaterThanOrEqual(unprinted / 2);
    expect(word.bottom, where).toBeLessThanOrEqual(a4.height - unprinted / 2);
  }
}

function wordsOverlap(file: Uint8Array): string[] {
  const words = pdfWords(file);
  return words.flatMap((one, at) =>
    words.slice(at + 1).flatMap((other) => {
      if (one.page !== other.page) return [];
      const wide = Math.min(one.right, other.right) - Math.max(one.left, other.left);
      const high = Math.min(one.bottom, other.bottom) - Math.max(one.top, other.top);
      // A line's box is the font's ascent and descent, higher than its letters: half of it must be free.
      return wide > 1 && high > 0.5 * Math.min(one.bottom - one.top, other.bottom - other.top)
        ? [`${one.text} over ${other.text}`]
        : [];
    }),
  );
}

const pagesOf = (file: Uint8Array) => Number(pdfProperties(file).get("Pages"));
const withoutSpace = (text: string) => text.replaceAll(/\s+/g, "");

/** Every text that a person reads on the sheets. */
function textsOf({ sheets }: SheetDocument): string[] {
  return sheets.flatMap(({ title, study, cautions, head, bands, foot, number }) => [
    title,
    study,
    ...cautions.texts,
    foot,
    number,
    ...bands.flatMap(({ steps }) => steps.flatMap((step) => [step.title, step.sentence])),
    ...[...head, ...bands.flatMap(({ fields }) => fields)].flatMap(({ label, unit, hint, value, choices }) => [
      label,
      ...choices,
      ...[unit, hint, value].filter((text) => text !== null),
    ]),
  ]);
}

describe.each(kindsOfSheets)("$method with $options", async ({ method, options }) => {
  const sheets = inventedSheets({ method, options, known: inventedKnown });
  const file = await renderSheetPdf(sheets);

  test("holds every text, within the page, nothing over anything else", () => {
    const text = withoutSpace(
      pdfWords(file)
        .map((word) => word.text)
        .join(""),
    );
    const words = new Set(pdfWords(file).map((word) => word.text.replaceAll("&amp;", "&")));
    for (const one of textsOf(sheets)) {
      for (const word of one.split(/\s+/)) expect(words.has(word) || text.includes(word), word).toBe(true);
    }
    expectWithinPage(file);
    expect(wordsOverlap(file)).toEqual([]);
  });

  test("boxes have room for handwriting, and everything comes through a photocopier", () => {
    const { rectangles, colours, lineWidths, textSizes } = pdfDrawing(file);
    const [sheet] = sheets.sheets;
    const fields = [...(sheet?.head ?? []), ...(sheet?.bands ?? []).flatMap((band) => band.fields)];
    const toWrite = rectangles.filter(({ width }) => width > 30);
    const sides = pagesOf(file);
    const again = (sides - 1) * (sheet?.furtherHead.length ?? 0);
    expect(toWrite).toHaveLength(fields.filter(({ isWritten }) => isWritten).length + again);
    for (const { width, height } of toWrite) {
      expect(width).toBeGreaterThanOrEqual(25 * millimetre);
      expect(height).toBeGreaterThanOrEqual(8 * millimetre);
    }
    // Ticks, beside the bar along the cautions.
    const ticks = fields.reduce((sum, field) => sum + field.choices.length + (field.isTicked ? 1 : 0), 0);
    expect(rectangles).toHaveLength(toWrite.length + ticks + 1);
    expect(new Set(colours)).toEqual(new Set(["0 0 0"]));
    expect(Math.min(...lineWidths)).toBeGreaterThanOrEqual(0.5);
    expect(Math.min(...textSizes)).toBeGreaterThanOrEqual(9);
  });

  test("one sheet of paper is enough: front, or front and back", () => {
    expect(pagesOf(file)).toBeLessThanOrEqual(2);
    if (options.pots === 1 && !options.emissions) expect(pagesOf(file)).toBe(1);
  });
});

describe("the file", async () => {
  const sheets = inventedSheets({ runs: inventedPlan, known: inventedKnown });
  const file = await renderSheetPdf(sheets);
  const source = Buffer.from(file).toString("latin1");

  test("is A4, tagged, PDF 1.7, with title and language", () => {
    const properties = pdfProperties(file);
    expect(properties.get("Page size")).toContain("(A4)");
    expect(properties.get("Tagged")).toBe("yes");
    expect(properties.get("PDF version")).toBe("1.7");
    expect(properties.get("Title")).toBe("Sheets to fill in: Tall kettle stove, skirt and gap");
    expect(source).toContain("/Lang (en)");
    expect(source).toContain("/DisplayDocTitle true");
    expect(source).toContain("<pdfuaid:part>1</pdfuaid:part>");
  });

  test("embeds every font, each readable as Unicode", () => {
    const fonts = pdfFonts(file);
    expect(fonts.length).toBeGreaterThanOrEqual(3);
    for (const font of fonts) expect([font.embedded, font.unicode], font.name).toEqual([true, true]);
  });

  test("the same sheets give the same bytes", async () => {
    expect(Buffer.from(await renderSheetPdf(sheets)).equals(Buffer.from(file))).toBe(true);
  });

  test("24 runs are 24 pages, each with its run, variant and place in order", () => {
    expect(pagesOf(file)).toBe(24);
    const words = pdfWords(file);
    for (const [index, { run, variant, order, block }] of inventedPlan.entries()) {
      const page = words.filter((word) => word.page === index + 1).map(({ text }) => text);
      for (const text of [run, String(order), ...variant.split(" "), ...block.split(" ")]) expect(page).toContain(text);
    }
    expect(pdfText(file)).toContain("Sheet 24 of 24");
  });
});

describe("structure tree (ISO 32000-1, 14.8.4)", async () => {
  const sheets = inventedSheets({ options: { pots: 2 } });
  const file = await renderSheetPdf(sheets);
  const structure = pdfStructure(file);
  const count = (tag: string) => structure.match(new RegExp(`^ *${tag}\\b`, "gm"))?.length ?? 0;
  const [sheet] = sheets.sheets;

  test("a heading for the run, one for each step; each field an item of a list with its label", () => {
    const fields = [...(sheet?.head ?? []), ...(sheet?.bands ?? []).flatMap((band) => band.fields)];
    // The second side asks once more whose it is.
    const items = fields.length + (sheet?.furtherHead.length ?? 0);
    expect(count("H1")).toBe(1);
    expect(count("H2")).toBe(sheet?.bands.flatMap(({ steps }) => steps).length);
    expect(count("LI")).toBe(items);
    expect(count("Lbl")).toBe(items);
    expect(count("LBody")).toBe(items);
  });

  test("an empty box is said to be to fill in; the foot is not read", () => {
    const source = Buffer.from(file).toString("latin1");
    const [, ...blanks] = source.split("/Alt (to be filled in)");
    expect(blanks.length).toBeGreaterThan(30);
    const read = pdfStructure(file, true);
    expect(read).not.toContain("Sheet 1 of 1");
    expect(read.indexOf("Weigh for the cold start")).toBeLessThan(read.indexOf("Water boils"));
  });
});

describe("awkward names", () => {
  const named = (text: string) => ({
    study: text,
    runs: [{ run: text, variant: text, order: 12_345, block: text }],
    known: { ...inventedKnown, operator: text, fuels: [text] },
  });

  test("a long name is printed whole where a few lines can hold it", async () => {
    const variant =
      "tall kettle stove with skirt, gap 12 mm, raised grate, lighter brick, door half open, damper at second notch";
    const run = "R-2026-03-02-second-attempt-after-the-rain-and-before-the-wind";
    const file = await renderSheetPdf(inventedSheets({ runs: [{ run, variant, order: 1, block: "second week" }] }));
    // Hyphens at the ends of lines are taken for those of divided words.
    const plain = (text: string) => text.replaceAll(/[\s-]+/g, "");
    expect(plain(pdfText(file))).toContain(plain(run));
    expect(plain(pdfText(file))).toContain(plain(variant));
    expect(pagesOf(file)).toBe(1);
    expect(wordsOverlap(file)).toEqual([]);
  });

  test.each([
    ["10,000 letters without a space", "abcdefghij".repeat(1000)],
    ["10,000 letters with spaces", "narrow gap ".repeat(900)],
    ["hostile text", hostileText],
    ["nothing", ""],
  ])("%s stay within the page", { timeout: 60_000 }, async (_, text) => {
    const file = await renderSheetPdf(inventedSheets(named(text)));
    expectWithinPage(file);
    expect(wordsOverlap(file)).toEqual([]);
    expect(pagesOf(file)).toBeLessThanOrEqual(2);
  });

  test("names from right to left keep the order in which they are read", async () => {
    const name = "תנור עם חצאית 漢";
    const file = await renderSheetPdf(inventedSheets(named(name)));
    // ISO 32000-1, 14.9.4: what is shown may have an actual text, here in UTF-16 with its mark.
    const written = Buffer.from(`\ufeff${name}`, "utf16le").swap16().toString("latin1");
    expect(pdfDrawing(file).contents).toContain(`/ActualText (${written})`);
    for (const font of pdfFonts(file)) expect(font.embedded).toBe(true);
  });
});
