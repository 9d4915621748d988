import { describe, expect, test } from "vitest";
import { renderPdf } from "../../app/report/index.ts";
import { page } from "../../app/report/pdf/page-measures.ts";
import type { ReportBlock, ReportDocument } from "../../core/index.ts";
import { expectNumber } from "../numbers.ts";
import { hostileText, hostileTexts, reportWith } from "./hostile-report.ts";
import { pdfFonts, pdfProperties, pdfStructure, pdfText, pdfWords } from "./pdf-reader.ts";
import { inventedChart, inventedReport, inventedRow } from "./sample-report.ts";

const bytes = await renderPdf(inventedReport);
const source = Buffer.from(bytes).toString("latin1");

/** Nothing beyond the margins, and no block's text over the foot. */
function expectWithinPage(file: Uint8Array): void {
  for (const word of pdfWords(file)) {
    expect(word.left, `left of "${word.text}" on page ${word.page}`).toBeGreaterThanOrEqual(page.left - 1);
    expect(word.right, `right of "${word.text}" on page ${word.page}`).toBeLessThanOrEqual(page.right + 1);
    expect(word.top).toBeGreaterThan(0);
    expect(word.bottom).toBeLessThan(page.height);
    const isFoot = word.bottom > page.footRule;
    if (!isFoot)
      expect(word.bottom, `foot of "${word.text}" on page ${word.page}`).toBeLessThanOrEqual(page.bottom + 6);
  }
}

function wordsOverlap(file: Uint8Array): string[] {
  const words = pdfWords(file);
  const found: string[] = [];
  words.forEach((one, at) => {
    for (const other of words.slice(at + 1)) {
      if (one.page !== other.page) continue;
      const wide = Math.min(one.right, other.right) - Math.max(one.left, other.left);
      // A line's box is the font's ascent and descent, higher than its letters: half of it must be free.
      const high = Math.min(one.bottom, other.bottom) - Math.max(one.top, other.top);
      if (wide > 1 && high > 0.5 * Math.min(one.bottom - one.top, other.bottom - other.top))
        found.push(`${one.text} over ${other.text}`);
    }
  });
  return found;
}

function textsOfBlock(block: ReportBlock): string[] {
  switch (block.kind) {
    case "heading":
    case "paragraph":
      return [block.text];
    case "aside":
      return [block.title, ...block.texts];
    case "chart":
      return [block.caption];
    case "list":
      return [...block.items];
    case "table":
      return [block.table.caption, ...block.table.rows.flat(), block.table.note ?? ""];
  }
}

describe("the file", () => {
  test("is A4, tagged, PDF 1.7, with title and language", () => {
    const properties = pdfProperties(bytes);
    expect(properties.get("Page size")).toContain("(A4)");
    expect(properties.get("Tagged")).toBe("yes");
    expect(properties.get("PDF version")).toBe("1.7");
    expect(properties.get("Title")).toBe(inventedReport.title);
    expect(properties.get("Pages")).toBe("4");
    expect(source).toContain("/Lang (en)");
    expect(source).toContain("/DisplayDocTitle true");
    expect(source).toContain("<pdfuaid:part>1</pdfuaid:part>");
  });

  test("embeds every font, each readable as Unicode", () => {
    const fonts = pdfFonts(bytes);
    expect(fonts.length).toBeGreaterThanOrEqual(3);
    for (const font of fonts) {
      expect(font.embedded, font.name).toBe(true);
      expect(font.unicode, font.name).toBe(true);
    }
  });

  test("the same report gives the same bytes", async () => {
    expect(Buffer.from(await renderPdf(inventedReport)).equals(Buffer.from(bytes))).toBe(true);
  });

  test("holds the text of every block", () => {
    const text = pdfText(bytes);
    const { kind, banner, question, finding, lead, foot, blocks } = inventedReport;
    for (const part of [kind, banner ?? "", question, finding, ...lead, foot, ...blocks.flatMap(textsOfBlock)]) {
      expect(text).toContain(part.replace(/\s+/g, " "));
    }
  });

  test("each page says which of how many it is", () => {
    const text = pdfText(bytes);
    for (const number of [1, 2, 3, 4]) expect(text).toContain(`${number} of 4`);
  });

  test("nothing leaves the page or lies over something else", () => {
    expectWithinPage(bytes);
    expect(wordsOverlap(bytes)).toEqual([]);
  });

  test("takes well under a second once the fonts are there", async () => {
    const start = performance.now();
    await renderPdf(inventedReport);
    expect(performance.now() - start).toBeLessThan(2_000);
  });
});

describe("structure tree (ISO 32000-1, 14.8.4)", () => {
  const structure = pdfStructure(bytes);
  const count = (tag: string) => structure.match(new RegExp(`^ *${tag}\\b`, "gm"))?.length ?? 0;

  test("one document, one first heading, headings of each level, lists, figures, tables", () => {
    expect(structure.startsWith("Document")).toBe(true);
    expect(count("H1")).toBe(1);
    expect(count("H2")).toBe(2);
    expect(count("H3")).toBe(2);
    expect(count("LI")).toBe(3);
    expect(count("Lbl")).toBe(3);
    expect(count("LBody")).toBe(3);
    expect(count("Figure")).toBe(1);
    expect(count("Table")).toBe(2);
  });

  test("each row and cell once, however many pages a table takes, with the scope of its headings", () => {
    expect(count("TR")).toBe(1 + 4 + 1 + 48);
    expect(structure.match(/\/Scope \/Column/g)).toHaveLength(5 + 10);
    expect(structure.match(/\/Scope \/Row/g)).toHaveLength(4 + 48);
    expect(count("TD")).toBe(4 * 4 + 48 * 9);
  });

  test("the figure has its text alternative and its place", () => {
    expect(source).toContain("/Alt (Wood for 5 litres by variant.");
    expect(structure).toMatch(/Figure:\s+\/Placement \/Block\s+\/BBox/);
  });

  test("a heading is read before what it heads, and head and foot of pages are not read", async () => {
    // Without the long table, over which poppler takes long.
    const short = inventedReport.blocks.filter((block) => block.kind !== "table" || block.table.rows.length < 10);
    const read = pdfStructure(await renderPdf({ ...inventedReport, blocks: short }), true);
    expect(read.indexOf("What this does not show")).toBeLessThan(read.indexOf("A boil test compares stoves"));
    expect(read).not.toMatch(/1 of \d/);
    expect(read).not.toContain("Invented example: not real tests");
  });
});

describe("awkward reports", () => {
  const only = (...blocks: ReportBlock[]): ReportDocument => ({ ...inventedReport, lead: [], blocks });

  test("hostile texts are text", async () => {
    const file = await renderPdf(reportWith(hostileText));
    const text = pdfText(file);
    for (const one of hostileTexts.slice(0, 2)) expect(text).toContain(one.replace(/\s+/g, " "));
    expectWithinPage(file);
    expect(pdfProperties(file).get("Title")).toContain("<script>");
    // The properties are there once more as XML, which hostile texts must not break.
    const xml = /<x:xmpmeta[\s\S]*<\/x:xmpmeta>/.exec(Buffer.from(file).toString("utf8"))?.[0] ?? "";
    expect(xml).toContain("&lt;script&gt;");
    expect(xml).not.toContain("<script>");
  });

  test("texts of 10,000 characters without a space go on over lines and pages, whole", {
    timeout: 90_000,
  }, async () => {
    const long = "abcdefghij".repeat(1000);
    const file = await renderPdf({
      ...reportWith(long),
      kind: "report",
      banner: "b".repeat(10_000),
      foot: "f".repeat(10_000),
    });
    expectWithinPage(file);
    const letters = pdfText(file).replaceAll(/[^a-j]/g, "");
    // Question, finding, lead, heading, paragraph, aside twice, list twice, caption, three heads, three cells, note, caption of the chart.
    expect(letters.length).toBeGreaterThanOrEqual(15 * 10_000);
  });

  test("texts of 10,000 characters with spaces neither", { timeout: 90_000 }, async () => {
    const text = "narrow gap ".repeat(900);
    const table = { caption: text, columns: [{ label: text, align: "text" as const }], rows: [[text]], note: null };
    expectWithinPage(await renderPdf({ ...only({ kind: "table", table }), finding: text }));
    expect(wordsOverlap(await renderPdf(reportWith("narrow gap ".repeat(60))))).toEqual([]);
  });

  test("twenty variants with long names stay on their page", async () => {
    const rows = Array.from({ length: 20 }, (_, index) =>
      inventedRow(index, `variant ${index + 1} ${"with a name ".repeat(20)}`, 760 - 9 * index, 20, {
        value: -index,
        lower: -index - 4,
        upper: -index + 4,
        text: `${index} % less`,
      }),
    );
    const chart = { ...inventedChart, rows } as typeof inventedChart;
    const file = await renderPdf(only({ kind: "chart", chart, caption: "Twenty variants." }));
    expectWithinPage(file);
    expect(wordsOverlap(file)).toEqual([]);
    const caption = pdfWords(file).find((word) => word.text === "Twenty");
    const last = pdfWords(file)
      .filter((word) => word.text === "variant")
      .at(-1);
    expect(caption?.page).toBe(last?.page);
  });

  test("a change strip is drawn with its alternative", async () => {
    const change = { value: -21, lower: -27, upper: -15, text: "21 % less" };
    const file = await renderPdf(
      only({
        kind: "chart",
        chart: { kind: "change-strip", change, extent: 40, tone: "sure", textAlternative: "21 % less" },
        caption: "",
      }),
    );
    expect(Buffer.from(file).toString("latin1")).toContain("/Alt (21 % less)");
  });

  test("Greek, Cyrillic and signs are read back; what no font has is a box that keeps its character", async () => {
    const text = "η σ Δ μ Жук → ≤ ≥ ⊕ ☀ अ 漢";
    const file = await renderPdf(only({ kind: "paragraph", text, tone: "plain" }));
    const read = pdfText(file);
    expect(read).toContain("η σ Δ μ Жук → ≤ ≥ ⊕ ☀");
    for (const sign of ["अ", "漢"]) expect(read).toContain(sign);
    for (const font of pdfFonts(file)) expect(font.embedded).toBe(true);
  });

  test("a heading is never last on its page", { timeout: 60_000 }, async () => {
    const pages = new Set<number | undefined>();
    for (let lines = 26; lines < 42; lines++) {
      const filler: ReportBlock[] = Array.from({ length: lines }, (_, at) => ({
        kind: "paragraph",
        text: `line ${at}`,
        tone: "soft",
      }));
      const file = await renderPdf(
        only(
          ...filler,
          { kind: "heading", level: 2, text: "HEADING" },
          { kind: "paragraph", text: "FOLLOWS", tone: "plain" },
        ),
      );
      const words = pdfWords(file);
      const pageOf = (text: string) => words.find((word) => word.text === text)?.page;
      expect(pageOf("HEADING"), `after ${lines} lines`).toBe(pageOf("FOLLOWS"));
      pages.add(pageOf("HEADING"));
    }
    // The lines tried end before, at and after the foot of the first page.
    expect(pages).toEqual(new Set([1, 2]));
  });

  test("heading rows are repeated on every page of a table", async () => {
    const words = pdfWords(bytes).filter((word) => word.text === "remark");
    expect(words.map((word) => word.page)).toEqual([3, 4]);
    expectNumber(words[0]?.left, words[1]?.left ?? NaN, { absolute: 0.01 });
  });

  test("numbers of a column end at one place", () => {
    const numbers = pdfWords(bytes).filter((word) => /^2\d\.\d$/.test(word.text) && word.left > 400);
    const ends = [...Map.groupBy(numbers, ({ page }) => page).values()].map((some) => some.map(({ right }) => right));
    const longest = ends.toSorted((one, other) => other.length - one.length)[0] ?? [];
    expect(longest.length).toBeGreaterThan(20);
    for (const end of longest) expectNumber(end, longest[0] ?? NaN, { absolute: 0.05 });
  });

  test("an empty report is one page", async () => {
    const file = await renderPdf({ ...only(), question: "", finding: "", banner: null });
    expect(pdfProperties(file).get("Pages")).toBe("1");
  });
});
