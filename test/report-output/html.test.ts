import { createHash } from "node:crypto";
import { AxeBuilder } from "@axe-core/playwright";
import { type Browser, chromium } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { renderHtml } from "../../app/report/index.ts";
import { findChromium } from "../tools.ts";
import { hostileText, hostileTexts, reportWith } from "./hostile-report.ts";
import { inventedReport } from "./sample-report.ts";

const { html, styleHash, contentSecurityPolicy } = renderHtml(inventedReport);

describe("the file", () => {
  test("the policy names the hash of the one style as it stands in the file (CSP Level 3, 6.7.3.3)", () => {
    const style = /<style>([\s\S]*?)<\/style>/.exec(html)?.[1] ?? "";
    expect(styleHash).toBe(`sha256-${createHash("sha256").update(style).digest("base64")}`);
    expect(contentSecurityPolicy).toContain(`style-src '${styleHash}'`);
    expect(contentSecurityPolicy).toMatch(/^default-src 'none';/);
    expect(contentSecurityPolicy).toMatch(/; sandbox$/);
    expect(html).toContain(
      `http-equiv="Content-Security-Policy" content="default-src 'none'; style-src '${styleHash}'`,
    );
  });

  test("is small enough to mail: under 400 kB with its fonts", () => {
    expect(html.length).toBeLessThan(400_000);
  });

  test("the same report gives the same file", () => {
    expect(renderHtml(inventedReport).html).toBe(html);
  });

  test("a script's letters are embedded where the text needs them, and only there", () => {
    const faces = (file: string) => file.match(/@font-face/g)?.length ?? 0;
    const latin = { ...inventedReport, blocks: [] };
    expect(faces(renderHtml(latin).html)).toBe(2);
    expect(faces(renderHtml({ ...latin, question: "η and σ" }).html)).toBe(4);
  });
});

describe("in a browser", () => {
  let browser: Browser;
  beforeAll(async () => {
    const executablePath = findChromium();
    if (executablePath === null)
      throw new Error("These tests need chromium: apt-get install chromium, or name one in CHROMIUM.");
    browser = await chromium.launch({ executablePath, args: ["--no-sandbox"] });
  });
  afterAll(async () => {
    await browser.close();
  });

  async function open(file: string, width: number, colorScheme: "light" | "dark" = "light") {
    const context = await browser.newContext({ viewport: { width, height: 900 }, colorScheme });
    const page = await context.newPage();
    const complaints: string[] = [];
    page.on("console", (message) => complaints.push(message.text()));
    page.on("pageerror", (error) => complaints.push(error.message));
    page.on("request", (request) => {
      if (!request.url().startsWith("data:")) complaints.push(request.url());
    });
    await page.setContent(file);
    await page.evaluate("document.fonts.ready.then(() => undefined)");
    return { page, complaints, close: () => context.close() };
  }

  test("its own policy lets style, fonts and charts through, and nothing is asked for", async () => {
    const { page, complaints, close } = await open(html, 1000);
    expect(complaints).toEqual([]);
    expect(await page.locator("h1").evaluate((heading) => getComputedStyle(heading).fontFamily)).toContain(
      "Source Serif 4 Variable",
    );
    expect(
      await page.evaluate("[...document.fonts].filter((face) => face.status === 'loaded').length"),
    ).toBeGreaterThanOrEqual(2);
    await close();
  });

  test.each([
    ["the invented report", html],
    ["a report of hostile texts", renderHtml(reportWith(hostileText)).html],
  ])("%s: no script, no handler, no style attribute, nothing fetched", async (_, file) => {
    const { page, close } = await open(file, 1000);
    const found = await page.evaluate(() => {
      const elements = [...document.querySelectorAll("*")];
      return {
        names: [...new Set(elements.map((element) => element.localName))],
        attributes: [...new Set(elements.flatMap((element) => element.getAttributeNames()))],
        styles: [...document.querySelectorAll("style")].map((style) => style.textContent ?? ""),
      };
    });
    expect(found.names).toContain("table");
    for (const name of ["script", "img", "image", "link", "iframe", "object", "embed", "base", "a", "b", "use"]) {
      expect(found.names).not.toContain(name);
    }
    for (const name of found.attributes) expect(name).not.toMatch(/^(style|src|srcset|href|xlink:href|action|on.*)$/);
    expect(found.styles).toHaveLength(1);
    expect(/url\((?!data:font)|@import/.test(found.styles[0] ?? "")).toBe(false);
    for (const unseen of ["\u0000", "\u202e", "\u202c"]) expect(file.includes(unseen)).toBe(false);
    await close();
  });

  test("hostile texts are read as they are", async () => {
    const { page, complaints, close } = await open(renderHtml(reportWith(hostileText)).html, 1000);
    const heading = await page.locator("h1").textContent();
    for (const text of hostileTexts) {
      expect(heading).toContain(text.replaceAll("\u0000", "").replaceAll("\u202e", "").replaceAll("\u202c", ""));
    }
    expect(await page.locator("b, img, script").count()).toBe(0);
    expect(complaints).toEqual([]);
    await close();
  });

  test("headings, tables and charts say what they are", async () => {
    const { page, close } = await open(html, 1000);
    expect(await page.getByRole("heading", { level: 1 }).textContent()).toContain("21\u00a0% less");
    expect(await page.locator("html").getAttribute("lang")).toBe("en");
    expect(await page.getByRole("columnheader", { name: "efficiency, %" }).count()).toBe(2);
    expect(await page.getByRole("rowheader", { name: "skirt, wide gap", exact: true }).count()).toBe(1);
    const chart = page.getByRole("img", { name: "wood for 5 litres, g of dry wood" });
    expect(await chart.count()).toBe(1);
    expect(await chart.locator("desc").textContent()).toContain("21 % less, interval 15 to 27 % less");
    await close();
  });

  test.each([
    [390, "light"],
    [1440, "dark"],
  ] as const)(
    "at %i pixels, %s: no fault that axe-core knows (WCAG 2.2 A and AA)",
    { timeout: 60_000 },
    async (width, scheme) => {
      const { page, close } = await open(html, width, scheme);
      const found = await new AxeBuilder({ page }).withTags(["wcag2a", "wcag2aa", "wcag21aa", "wcag22aa"]).analyze();
      expect(found.violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
      await close();
    },
  );

  test.each([320, 390, 703, 705, 900, 1440])(
    "at %i pixels the page is no wider than its window and shows one chart",
    async (width) => {
      const { page, close } = await open(html, width);
      expect(await page.evaluate("document.documentElement.scrollWidth")).toBeLessThanOrEqual(width);
      expect(await page.locator("svg:visible").count()).toBe(1);
      await close();
    },
  );

  test("a text of 10,000 characters without a space does not widen the page", async () => {
    const { page, close } = await open(renderHtml(reportWith("x".repeat(10_000))).html, 390);
    expect(await page.evaluate("document.documentElement.scrollWidth")).toBeLessThanOrEqual(390);
    await close();
  });

  test("on paper it is light, whatever the window was", async () => {
    const { page, close } = await open(html, 1000, "dark");
    await page.emulateMedia({ media: "print", colorScheme: "dark" });
    expect(await page.locator("h1").evaluate((heading) => getComputedStyle(heading).color)).toBe("rgb(34, 37, 42)");
    await close();
  });
});
