import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "playwright-core";

/** What a person does on the page, as the tests in the browser do it. */

const samples = join(import.meta.dirname, "..", "..", "sample-data");
export const goodFile = join(samples, "good", "tall-kettle-stove.csv");
export const goodSettings = join(samples, "good", "tall-kettle-stove.settings.json");
export const wrongFile = join(samples, "defective", "not-a-number.csv");

export const tab = (page: Page, name: string) => page.getByRole("navigation").getByRole("link", { name }).click();

export const readingsPicker = (page: Page) => page.locator('input[type="file"][accept*="csv"]');
export const settingsPicker = (page: Page) => page.locator('input[type="file"][accept*="json"]');

/** Presses Tab until a control has the focus, as somebody without a mouse does. */
export async function tabTo(page: Page, label: string): Promise<void> {
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
export async function nameWriter(page: Page, name: string): Promise<void> {
  const dialog = page.getByRole("dialog", { name: "Who is writing?" });
  await dialog.waitFor();
  await page.keyboard.type(name);
  await page.keyboard.press("Enter");
  await dialog.waitFor({ state: "detached" });
}

export async function saved(page: Page, button: string): Promise<{ name: string; bytes: Buffer }> {
  const [download] = await Promise.all([
    page.waitForEvent("download"),
    page.getByRole("button", { name: button }).click(),
  ]);
  return { name: download.suggestedFilename(), bytes: readFileSync(await download.path()) };
}

export async function openRuns(page: Page): Promise<void> {
  await tab(page, "Runs");
  await page.getByRole("grid", { name: /^Readings and results/ }).waitFor();
  await page.locator('[data-place="0:0"]').waitFor();
}

export const cellText = (page: Page, place: string) => page.locator(`[data-place="${place}"]`).textContent();

/** Changes a cell of Runs, with the keyboard alone. */
export async function change(page: Page, place: string, text: string): Promise<void> {
  await page.locator(`[data-place="${place}"]`).focus();
  await page.keyboard.press("Enter");
  await page.keyboard.type(text);
  await page.keyboard.press("Enter");
}
