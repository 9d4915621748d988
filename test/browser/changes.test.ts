import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { launchBrowser, openPage, startHost } from "./harness.ts";
import { cellText, change, goodFile, nameWriter, openRuns, readingsPicker, saved, tab } from "./steps.ts";

/** Changing a study in a real browser, over the real host, the real service and a real study file. */

let browser: Browser;

beforeAll(async () => {
  browser = await launchBrowser();
});

afterAll(async () => {
  await browser?.close();
});

/** The cell of a reading of the cold start: fuel after, of the second run. */
const fuelAfter = "3:8";
const rowBelow = "4:8";
const fuelField = "R02, cold start, fuel after, g";

const focusedPlace = (page: Page) => page.evaluate(() => document.activeElement?.getAttribute("data-place") ?? "");

describe("a study is changed", () => {
  it("by keyboard: the name is asked for once, the comparison follows, the history tells, undo and redo work by key", async () => {
    const own = await startHost();
    const { page, close } = await openPage(browser, own);
    await tab(page, "Compare");
    const finding = page.getByRole("heading", { level: 1 });
    await expect.poll(() => finding.textContent()).toMatch(/wood/);
    const everything = () => page.locator(".everything").first().textContent();
    const before = await everything();

    await openRuns(page);
    expect(await cellText(page, fuelAfter)).toBe("834");
    await change(page, fuelAfter, "534");
    await nameWriter(page, "Ama");
    await expect.poll(() => cellText(page, fuelAfter)).toMatch(/^534/);
    await expect.poll(() => focusedPlace(page)).toBe(rowBelow);
    await page.keyboard.press("ArrowUp");
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

    await openRuns(page);
    await page.locator(`[data-place="${fuelAfter}"]`).focus();
    await history.getByText("done again").waitFor();
    await history.getByText("undone").waitFor();
    await page.reload();
    await expect.poll(() => cellText(page, fuelAfter)).toMatch(/^534/);
    await page.getByRole("button", { name: "writing: Ama" }).waitFor();
    await close();
    await own.close();
  });

  it("what cannot be read is refused, stays as it was typed with its reason, and is put back with Escape", async () => {
    const own = await startHost();
    const { page, close } = await openPage(browser, own);
    await openRuns(page);
    await change(page, fuelAfter, "83o");
    await nameWriter(page, "Ama");
    await page.getByRole("alert").getByText(/83o/).waitFor();
    const field = page.getByLabel(fuelField);
    await expect.poll(() => field.inputValue()).toBe("83o");
    await field.press("Escape");
    await expect.poll(() => focusedPlace(page)).toBe(fuelAfter);
    expect(await field.inputValue()).toBe("834");
    expect(await cellText(page, fuelAfter)).toBe("834");
    await close();
    await own.close();
  });

  it("a character begins a cell; the browser asks before it closes a window in which something is not saved, and only then", async () => {
    const own = await startHost();
    const { page, close } = await openPage(browser, own);
    const asked: string[] = [];
    page.on("dialog", (dialog) => {
      asked.push(dialog.type());
      void dialog.dismiss();
    });
    await openRuns(page);
    await page.locator(`[data-place="${fuelAfter}"]`).focus();
    await page.keyboard.type("77");
    expect(await page.getByLabel(fuelField).inputValue()).toBe("77");
    await page.close({ runBeforeUnload: true });
    await expect.poll(() => asked).toEqual(["beforeunload"]);
    expect(await page.getByLabel(fuelField).inputValue()).toBe("77");
    await page.keyboard.press("Escape");
    const closed = page.waitForEvent("close");
    await page.close({ runBeforeUnload: true });
    await closed;
    expect(asked).toHaveLength(1);
    await close();
    await own.close();
  });

  it("two windows of one browser: each sees the other's change without a reload, and what is being typed stays", async () => {
    const own = await startHost();
    const { page, errors, close } = await openPage(browser, own);
    await openRuns(page);
    const second = await page.context().newPage();
    await second.goto(page.url());
    await second.getByRole("grid", { name: /^Readings and results/ }).waitFor();
    await second.locator(`[data-place="${fuelAfter}"]`).focus();
    await second.keyboard.press("F2");
    await second.keyboard.type("801");

    await change(page, fuelAfter, "820");
    await nameWriter(page, "Ama");
    await expect.poll(() => cellText(page, fuelAfter)).toBe("820");
    await second.getByText("Meanwhile somebody else made it “820”.").waitFor();
    expect(await second.getByLabel(fuelField).inputValue()).toBe("801");

    await second.keyboard.press("Enter");
    await nameWriter(second, "");
    await second.getByRole("alert").first().waitFor();
    await expect.poll(() => second.getByLabel(fuelField).inputValue()).toBe("801");
    await second.getByRole("button", { name: "Put mine in its place" }).click();
    await expect.poll(() => cellText(page, fuelAfter)).toBe("801");
    expect(errors).toEqual([]);
    await close();
    await own.close();
  });

  it("a run is left out with a reason and brought back with another; the study says so", async () => {
    const own = await startHost();
    const { page, close } = await openPage(browser, own);
    await openRuns(page);
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
      .getByRole("button", { name: /^Go back to it: the backup of/ })
      .last()
      .click();
    await page.getByRole("dialog").getByRole("button", { name: "Go back" }).click();
    await expect.poll(() => title.textContent()).toBe("Tall kettle stove, skirt and gap");
    await page.keyboard.press("Control+z");
    await expect.poll(() => title.textContent()).toBe("Brick and skirt");
    await close();
    await own.close();
  });

  it("leaves with a person as a copy, and comes back as a file that is picked", async () => {
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
