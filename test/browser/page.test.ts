import { execFileSync } from "node:child_process";
import AxeBuilder from "@axe-core/playwright";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Listener } from "../../app/server/index.ts";
import { launchBrowser, openPage, startHost } from "./harness.ts";
import {
  goodFile,
  goodSettings,
  nameWriter,
  openRuns,
  readingsPicker,
  saved,
  settingsPicker,
  tab,
  tabTo,
  wrongFile,
} from "./steps.ts";

/** The whole job in a real browser, over the real host and the real service, on the invented example. */

let browser: Browser;
let host: Listener;

beforeAll(async () => {
  browser = await launchBrowser();
  host = await startHost();
});

afterAll(async () => {
  await browser?.close();
  await host?.close();
});

describe("the example, from opening to the report", () => {
  it("opens on the example and takes the token out of the address", async () => {
    const { page, close } = await openPage(browser, host);
    await page.getByText("Invented example: not real tests").first().waitFor();
    expect(page.url()).not.toContain("token");
    await page.reload();
    await page.getByText("Invented example: not real tests").first().waitFor();
    await close();
  });

  it("compares: finding, picture with its words, table, verdicts; another quantity is chosen with the keyboard, and stays", async () => {
    const { page, close } = await openPage(browser, host);
    await tab(page, "Compare");
    const finding = page.getByRole("heading", { level: 1 });
    await page
      .getByRole("img", { name: /wood for 5 litres/i })
      .first()
      .waitFor();
    const before = await finding.textContent();
    expect(before).toMatch(/wood for 5 litres/);

    await tabTo(page, "What is compared");
    await page.keyboard.press("ArrowDown");
    await page.waitForURL(/quantity=/);
    await expect.poll(() => finding.textContent()).not.toBe(before);
    const after = await finding.textContent();

    await page.reload();
    await expect.poll(() => finding.textContent()).toBe(after);
    await page.goBack();
    await expect.poll(() => finding.textContent()).toBe(before);
    await close();
  });

  it("walks the runs by keyboard: one stop for Tab, arrows, and the details of each cell", async () => {
    const { page, close } = await openPage(browser, host);
    await tab(page, "Runs");
    const grid = page.getByRole("grid");
    await grid.waitFor();
    expect(await grid.locator('[tabindex="0"]').count()).toBe(1);
    await tabTo(page, "R01 cold start");
    await page.keyboard.press("Control+End");
    const focused = () => page.evaluate(() => document.activeElement?.getAttribute("data-place") ?? "");
    const rows = Number(await grid.getAttribute("aria-rowcount")) - 1;
    const columns = Number(await grid.getAttribute("aria-colcount"));
    await expect.poll(focused).toBe(`${rows - 1}:${columns - 1}`);
    await page.keyboard.press("Control+Home");
    await expect.poll(focused).toBe("-1:0");
    await page.keyboard.press("Enter");
    await page.keyboard.press("Enter");
    await expect.poll(() => grid.locator("tbody th").first().textContent()).toMatch(/^R25/);
    await close();
  });

  it("leads from a question to its cell, which is in sight and has the focus", async () => {
    const { page, close } = await openPage(browser, host);
    await page.getByRole("link", { name: "Look at it in Runs" }).first().click();
    await page.getByRole("region", { name: "About this cell" }).getByText("Question.").waitFor();
    const cell = page.locator("[data-place]:focus");
    await cell.waitFor();
    expect(await cell.getAttribute("class")).toContain("questioned");
    await close();
  });

  it("shows the report in its frame, and saves it as PDF and as a web page, results and runs", async () => {
    const { page, close } = await openPage(browser, host);
    await tab(page, "Report");
    await page.frameLocator("iframe").getByRole("heading", { level: 1 }).waitFor();
    const pdf = await saved(page, "Save as PDF");
    expect(pdf.name).toMatch(/\.pdf$/);
    expect(pdf.bytes.subarray(0, 5).toString()).toBe("%PDF-");
    expect((await saved(page, "Save as web page")).bytes.toString()).toMatch(/^<!doctype html>/i);
    expect(JSON.parse((await saved(page, "Save all results (JSON)")).bytes.toString())).toMatchObject({
      schema: "boilbench-results/1",
    });
    expect((await saved(page, "Save the table of runs (CSV)")).bytes.toString()).toMatch(/^\uFEFF?"?run"?,/);
    await close();
  });

  it("saves blank sheets for as many runs and pots as are picked", async () => {
    const { page, close } = await openPage(browser, host);
    await page.getByLabel("How many sheets").selectOption("2");
    await page.getByLabel("How many pots").selectOption("2");
    const { name, bytes } = await saved(page, "Save the sheets (PDF)");
    expect(name).toBe("sheets.pdf");
    const text = execFileSync("pdftotext", ["-layout", "-", "-"], { input: bytes }).toString();
    expect(text).toMatch(/Pot 2/);
    expect(text).toMatch(/Sheet 2 of 2/);
    await page.getByText("Saved as sheets.pdf").waitFor();
    await close();
  });

  it("opens help with F1 at what is compared, and closes it with F1 and Escape", async () => {
    const { page, close } = await openPage(browser, host);
    await tab(page, "Compare");
    await page.getByRole("button", { name: "What is this?" }).click();
    await page.getByRole("dialog").getByText("wood for 5 litres", { exact: false }).first().waitFor();
    await page.keyboard.press("Escape");
    await page.getByRole("dialog").waitFor({ state: "detached" });
    await page.keyboard.press("F1");
    await page
      .getByRole("dialog")
      .getByText(/carbon monoxide, which kills/)
      .waitFor();
    await page.keyboard.press("F1");
    await page.getByRole("dialog").waitFor({ state: "detached" });
    await close();
  });
});

describe("a file comes in", () => {
  it("shows what is wrong in its cell, is mended there with the keyboard, and becomes the study; a reload keeps it on the desk", async () => {
    const own = await startHost();
    const { page, close } = await openPage(browser, own);
    await tab(page, "Import");
    await readingsPicker(page).setInputFiles(wrongFile);
    await page.getByText("1 error · 0 questions").waitFor();
    expect(await page.getByRole("button", { name: "Take into a study" }).count()).toBe(0);

    await page.getByRole("button", { name: "Next" }).click();
    const cell = page.locator("[data-place]:focus");
    await cell.waitFor();
    expect(await cell.textContent()).toMatch(/^dry.*is not a number/);
    await page.keyboard.press("Enter");
    await page.keyboard.type("912");
    await page.keyboard.press("Enter");
    await page.getByText("Nothing wrong was found.").waitFor();
    expect(await page.locator("[data-place]:focus").textContent()).toMatch(/^912/);

    await page.reload();
    await page.getByText("Nothing wrong was found.").waitFor();
    expect(await page.locator(".mended").first().textContent()).toContain("was dry");

    await page.getByRole("textbox", { name: "Name of the study" }).fill("Clay insert");
    await page.getByRole("button", { name: "Take into a study" }).click();
    await nameWriter(page, "Ama");
    await page.getByRole("heading", { level: 1, name: "Clay insert" }).waitFor();
    expect(await page.getByText("Invented example: not real tests").count()).toBe(0);
    await close();
    await own.close();
  });

  it("leaves a row out, and puts it back", async () => {
    const { page, close } = await openPage(browser, host);
    await tab(page, "Import");
    await readingsPicker(page).setInputFiles(wrongFile);
    await page.getByRole("button", { name: "Next" }).click();
    await page.getByRole("button", { name: "Leave row 3 out" }).click();
    await page.getByRole("button", { name: "Take into a study" }).waitFor();
    await page.getByRole("button", { name: "Put row 3 back" }).click();
    await page.getByText("1 error · 0 questions").waitFor();
    await close();
  });

  it("takes the example's own files as they were saved: the same runs and the same finding", async () => {
    const own = await startHost();
    const { page, close } = await openPage(browser, own);
    await tab(page, "Compare");
    const finding = page.getByRole("heading", { level: 1 });
    await expect.poll(() => finding.textContent()).toMatch(/wood/);
    const example = await finding.textContent();
    await tab(page, "Import");
    await settingsPicker(page).setInputFiles(goodSettings);
    await readingsPicker(page).setInputFiles(goodFile);
    await page.getByRole("button", { name: "Take into a study" }).click();
    await nameWriter(page, "Ama");
    await page.getByText("“tall-kettle-stove” is now the open study.").waitFor();
    await page.getByText("24 of 25 runs").waitFor();
    await tab(page, "Compare");
    await expect.poll(() => finding.textContent()).toBe(example);
    await close();
    await own.close();
  });

  it("says so where the host is gone, keeps what was typed, and goes on", async () => {
    const own = await startHost();
    const { page } = await openPage(browser, own);
    await tab(page, "Import");
    await readingsPicker(page).setInputFiles(wrongFile);
    await page.getByRole("textbox", { name: "Name of the study" }).fill("typed by hand");
    await own.close();
    await page.getByRole("button", { name: "Leave row 3 out" }).click();
    await page.getByText("The program behind this page does not answer.").waitFor();
    expect(await page.getByRole("textbox", { name: "Name of the study" }).inputValue()).toBe("typed by hand");
    await page.context().close();
  });
});

// Each pair of colours once, and each width once: what axe finds depends on one or the other.
describe.each([
  ["light", 1440],
  ["dark", 390],
] as const)("in %s colours, %i pixels wide", (colorScheme, width) => {
  it("no page has a fault that axe finds, or is wider than its window", { timeout: 180_000 }, async () => {
    const { page, close } = await openPage(browser, host, { colorScheme, viewport: { width, height: 900 } });
    const check = async (what: string) => {
      const { violations } = await new AxeBuilder({ page }).exclude("iframe").analyze();
      const told = violations.map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.html).join(" | ")}`);
      expect(told, what).toEqual([]);
      const tooWide = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
      expect(tooWide, `${what} is wider than its window`).toBeLessThanOrEqual(0);
    };
    await page.getByText("Take it with you").waitFor();
    await page.getByText("Backups").click();
    await page.getByText("They are made by themselves").waitFor();
    await page.getByRole("button", { name: "Rename" }).click();
    await check("Study");
    await page.keyboard.press("Escape");
    await page.keyboard.press("Control+o");
    await page.getByRole("heading", { name: "Studies that can be opened" }).waitFor();
    await page.getByRole("button", { name: "Begin it" }).click();
    await check("Studies");
    await openRuns(page);
    await check("Runs");
    await page.locator('[data-place="3:5"]').click();
    await page.getByRole("region", { name: "History of this cell" }).getByRole("listitem").first().waitFor();
    await page.keyboard.press("F2");
    await page.keyboard.type("what is this");
    await check("Runs, a reading being changed");
    await page.keyboard.press("Enter");
    await page.getByRole("dialog").waitFor();
    await check("Who is writing");
    await nameWriter(page, "Ama");
    await page.getByRole("alert").waitFor();
    await page.getByRole("button", { name: "Leave this run out" }).click();
    await check("Runs, a reading refused");
    await tab(page, "Import");
    await page.getByText("Which file holds the readings?").waitFor();
    await check("Import");
    await readingsPicker(page).setInputFiles(wrongFile);
    await page.getByRole("grid").waitFor();
    await check("Import, a file");
    await tab(page, "Compare");
    await page.getByText("The runs behind the picture").click();
    await check("Compare");
    await tab(page, "Report");
    await page.locator("iframe").waitFor();
    await check("Report");
    await page.keyboard.press("F1");
    await page.getByRole("dialog").waitFor();
    await check("Help");
    await close();
  });
});
