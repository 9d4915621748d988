import { readFileSync } from "node:fs";
import { join } from "node:path";
import AxeBuilder from "@axe-core/playwright";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Listener } from "../../app/server/index.ts";
import { launchBrowser, openPage, startHost } from "./harness.ts";

/** The whole job in a real browser, over the real host and the real service, on the invented example. */

const samples = join(import.meta.dirname, "..", "..", "sample-data");
const goodFile = join(samples, "good", "tall-kettle-stove.csv");
const goodSettings = join(samples, "good", "tall-kettle-stove.settings.json");
const wrongFile = join(samples, "defective", "not-a-number.csv");

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

const tab = (page: Page, name: string) => page.getByRole("navigation").getByRole("link", { name }).click();

const readingsPicker = (page: Page) => page.locator('input[type="file"][accept*="csv"]');
const settingsPicker = (page: Page) => page.locator('input[type="file"][accept*="json"]');

/** Presses Tab until a control has the focus, as somebody without a mouse does. */
async function tabTo(page: Page, label: string): Promise<void> {
  for (let presses = 0; presses < 60; presses++) {
    await page.keyboard.press("Tab");
    const found = await page.evaluate(() => {
      const element = document.activeElement;
      return element?.getAttribute("aria-label") ?? element?.textContent ?? "";
    });
    if (found.trim() === label) return;
  }
  throw new Error(`${label} was not reached with Tab`);
}

/** Answers who is writing, which the first change of a window asks. */
async function nameWriter(page: Page, name: string): Promise<void> {
  const dialog = page.getByRole("dialog", { name: "Who is writing?" });
  await dialog.waitFor();
  await page.keyboard.type(name);
  await page.keyboard.press("Enter");
  await dialog.waitFor({ state: "detached" });
}

async function saved(page: Page, button: string): Promise<{ name: string; bytes: Buffer }> {
  const [download] = await Promise.all([
    page.waitForEvent("download"),
    page.getByRole("button", { name: button }).click(),
  ]);
  return { name: download.suggestedFilename(), bytes: readFileSync(await download.path()) };
}

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
    await tabTo(page, "R01");
    await page.keyboard.press("Control+End");
    const focused = () => page.evaluate(() => document.activeElement?.getAttribute("data-place") ?? "");
    const rows = Number(await grid.getAttribute("aria-rowcount")) - 1;
    const columns = Number(await grid.getAttribute("aria-colcount"));
    await expect.poll(focused).toBe(`${rows - 1}:${columns - 1}`);
    await page.keyboard.press("Control+Home");
    await expect.poll(focused).toBe("-1:0");
    await page.keyboard.press("Enter");
    await page.keyboard.press("Enter");
    await expect.poll(() => grid.locator("tbody th").first().textContent()).toBe("R25");
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

/** The cell of a reading of the cold start: fuel after, of the second run. */
const fuelAfter = "1:10";
const fuelField = "R02, cold start, fuel after, g";

async function openReadings(page: Page): Promise<void> {
  await tab(page, "Runs");
  await page.getByLabel("Results or readings").selectOption("readings");
  await page.getByRole("grid", { name: /readings of cold start/ }).waitFor();
}

const cellText = (page: Page, place: string) => page.locator(`[data-place="${place}"]`).textContent();
const focusedPlace = (page: Page) => page.evaluate(() => document.activeElement?.getAttribute("data-place") ?? "");

/** Changes the cell that has the focus, with the keyboard alone. */
async function change(page: Page, place: string, text: string): Promise<void> {
  await page.locator(`[data-place="${place}"]`).focus();
  await page.keyboard.press("Enter");
  await page.keyboard.type(text);
  await page.keyboard.press("Enter");
}

describe("a study is changed", () => {
  it("by keyboard: the name is asked for once, the comparison follows, the history tells, undo and redo work by key", async () => {
    const own = await startHost();
    const { page, close } = await openPage(browser, own);
    await tab(page, "Compare");
    const finding = page.getByRole("heading", { level: 1 });
    await expect.poll(() => finding.textContent()).toMatch(/wood/);
    const everything = () => page.locator(".everything").first().textContent();
    const before = await everything();

    await openReadings(page);
    expect(await cellText(page, fuelAfter)).toBe("834");
    await change(page, fuelAfter, "534");
    await nameWriter(page, "Ama");
    await expect.poll(() => cellText(page, fuelAfter)).toBe("534");
    await expect.poll(() => focusedPlace(page)).toBe(fuelAfter);
    await page.getByRole("button", { name: "writing: Ama" }).waitFor();
    const history = page.getByRole("region", { name: "History of this cell" });
    await history.getByText("834 → 534").waitFor();
    expect(await history.getByRole("listitem").first().textContent()).toContain("Ama");

    await tab(page, "Compare");
    await expect.poll(everything).not.toBe(before);

    await page.keyboard.press("Control+z");
    await expect.poll(everything).toBe(before);
    await page.keyboard.press("Control+Shift+z");
    await expect.poll(everything).not.toBe(before);

    await openReadings(page);
    await page.locator(`[data-place="${fuelAfter}"]`).focus();
    await history.getByText("done again").waitFor();
    await history.getByText("undone").waitFor();
    await page.reload();
    await expect.poll(() => cellText(page, fuelAfter)).toBe("534");
    await page.getByRole("button", { name: "writing: Ama" }).waitFor();
    await close();
    await own.close();
  });

  it("what cannot be read is refused, stays as it was typed with its reason, and is put back with Escape", async () => {
    const own = await startHost();
    const { page, close } = await openPage(browser, own);
    await openReadings(page);
    await change(page, fuelAfter, "83o");
    await nameWriter(page, "Ama");
    await page.getByRole("alert").getByText(/83o/).waitFor();
    const field = page.getByLabel(fuelField);
    expect(await field.inputValue()).toBe("83o");
    expect(await cellText(page, fuelAfter)).toBe("834");
    await field.press("Escape");
    await expect.poll(() => focusedPlace(page)).toBe(fuelAfter);
    expect(await field.inputValue()).toBe("834");
    await close();
    await own.close();
  });

  it("two windows of one browser: each sees the other's change without a reload, and what is being typed stays", async () => {
    const own = await startHost();
    const { page, errors, close } = await openPage(browser, own);
    await openReadings(page);
    const second = await page.context().newPage();
    await second.goto(page.url());
    await second.getByRole("grid", { name: /readings of cold start/ }).waitFor();
    await second.locator(`[data-place="${fuelAfter}"]`).focus();
    await second.keyboard.press("F2");
    await second.keyboard.type("801");

    await change(page, fuelAfter, "820");
    await nameWriter(page, "Ama");
    await expect.poll(() => cellText(page, fuelAfter)).toBe("820");
    await expect.poll(() => cellText(second, fuelAfter)).toBe("820");
    expect(await second.getByLabel(fuelField).inputValue()).toBe("801");

    await second.keyboard.press("Enter");
    await nameWriter(second, "");
    await second.getByRole("alert").first().waitFor();
    expect(await second.getByLabel(fuelField).inputValue()).toBe("801");
    await second.getByRole("button", { name: "Put mine in its place" }).click();
    await expect.poll(() => cellText(page, fuelAfter)).toBe("801");
    expect(errors).toEqual([]);
    await close();
    await own.close();
  });

  it("a run is left out with a reason and brought back with another; the study says so", async () => {
    const own = await startHost();
    const { page, close } = await openPage(browser, own);
    await openReadings(page);
    await page.locator('[data-place="0:0"]').focus();
    await page.getByRole("button", { name: "Leave this run out" }).click();
    await page.keyboard.type("the lid was on");
    await page.keyboard.press("Enter");
    await nameWriter(page, "Kofi");
    await page.getByText("23 of 25 runs").waitFor();
    await page.getByText("left out: the lid was on").first().waitFor();
    await expect.poll(() => focusedPlace(page)).toBe("0:0");
    await page.getByRole("button", { name: "Bring this run back" }).click();
    await page.keyboard.type("it was not");
    await page.keyboard.press("Enter");
    await page.getByText("24 of 25 runs").waitFor();
    await tab(page, "Study");
    const record = page.locator(".record");
    await record.getByText("because: it was not").waitFor();
    await record.getByText("because: the lid was on").waitFor();
    await close();
    await own.close();
  });

  it("is renamed in place, goes back to a backup, and undo takes that back", async () => {
    const own = await startHost();
    const { page, close } = await openPage(browser, own);
    await page.getByText("Backups").click();
    await page.getByRole("button", { name: "Make one now" }).click();
    await page.getByText("A backup was made.").waitFor();
    await page.getByRole("button", { name: "Rename" }).click();
    await page.keyboard.type("Brick and skirt");
    await page.keyboard.press("Enter");
    await nameWriter(page, "Ama");
    const title = page.getByRole("heading", { level: 1 });
    await expect.poll(() => title.textContent()).toBe("Brick and skirt");
    await expect.poll(() => page.evaluate(() => document.activeElement?.textContent)).toBe("Rename");
    expect(await page.title()).toContain("Brick and skirt");

    await page
      .getByRole("button", { name: /^Go back to the backup of/ })
      .last()
      .click();
    await page.getByRole("dialog").getByRole("button", { name: "Go back" }).click();
    await expect.poll(() => title.textContent()).toBe("Tall kettle stove, skirt and gap");
    await page.keyboard.press("Control+z");
    await expect.poll(() => title.textContent()).toBe("Brick and skirt");
    await close();
    await own.close();
  });

  it("leaves with a person as a copy, and comes back as a file that is dropped", async () => {
    const own = await startHost();
    const { page, close } = await openPage(browser, own);
    await page.getByRole("textbox", { name: "Name of the copy" }).fill("For the stick");
    await page.getByRole("button", { name: "Save a copy" }).click();
    await page.getByText(/A copy was saved as .*For the stick\.boilstudy/).waitFor();
    const file = await saved(page, "Download a copy");
    expect(file.name).toMatch(/\.boilstudy$/);
    expect(file.bytes.subarray(0, 15).toString()).toBe("SQLite format 3");

    await page.keyboard.press("Control+o");
    await page.getByRole("heading", { level: 1, name: "Which study?" }).waitFor();
    await page.getByRole("button", { name: "Open “For the stick”" }).waitFor();
    await page.getByLabel("Name for the record").fill("Ama");
    await page
      .locator('input[type="file"][accept=".boilstudy"]')
      .setInputFiles({ name: "From the stick.boilstudy", mimeType: "application/octet-stream", buffer: file.bytes });
    await page.getByText("“Tall kettle stove, skirt and gap” is open.").waitFor();
    await page.getByText("From the stick").waitFor();
    await close();
    await own.close();
  });

  it("another is begun, and a file is taken into it; the first can be opened again", async () => {
    const own = await startHost();
    const { page, close } = await openPage(browser, own);
    await page.getByRole("link", { name: /choose another study/ }).click();
    await page.getByLabel("Name for the record").fill("Ama");
    await page.getByLabel("Name of the new study").fill("Second stove");
    await page.keyboard.press("Enter");
    await page.getByText("Nothing has been recorded in this study yet.").waitFor();
    const address = page.url();
    await tab(page, "Import");
    await readingsPicker(page).setInputFiles(goodFile);
    await page.getByRole("radio", { name: "the open study, “Second stove”" }).check();
    await page.getByRole("button", { name: "Take into a study" }).click();
    await page.getByText("25 runs were taken into “Second stove”.").waitFor();
    expect(page.url()).toBe(address);
    await page.keyboard.press("Control+o");
    await page
      .getByRole("button", { name: /^Open “Tall kettle stove/ })
      .first()
      .click();
    await page.getByRole("heading", { level: 1, name: "Tall kettle stove, skirt and gap" }).waitFor();
    await page.goBack();
    await page.goBack();
    await page.getByRole("heading", { level: 1, name: "Second stove" }).waitFor();
    await close();
    await own.close();
  });
});

describe.each([
  ["light", 1440],
  ["light", 390],
  ["dark", 1440],
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
    await tab(page, "Runs");
    await page.getByRole("grid").waitFor();
    await check("Runs, results");
    await page.getByLabel("Results or readings").selectOption("readings");
    await page.getByRole("grid", { name: /readings/ }).waitFor();
    await page
      .getByRole("grid", { name: /readings/ })
      .locator("tbody td")
      .nth(9)
      .click();
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
