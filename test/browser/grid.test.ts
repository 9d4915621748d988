import AxeBuilder from "@axe-core/playwright";
import Papa from "papaparse";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { launchBrowser, openPage, startHost } from "./harness.ts";
import { cellText, nameWriter, openRuns, saved, tab } from "./steps.ts";

/** The grid of readings and results in a real browser, over the real host, the real service and a real study file. */

let browser: Browser;

beforeAll(async () => {
  browser = await launchBrowser();
});

afterAll(async () => {
  await browser?.close();
});

const place = (page: Page, row: number, column: number) => page.locator(`[data-place="${row}:${column}"]`);
const focused = (page: Page) => page.evaluate(() => document.activeElement?.getAttribute("data-place") ?? "");

/** Puts a text on the clipboard as a spreadsheet does, and presses Ctrl V. */
async function paste(page: Page, text: string): Promise<void> {
  await page.context().grantPermissions(["clipboard-read", "clipboard-write"]);
  await page.evaluate((given) => navigator.clipboard.writeText(given), text);
  await page.keyboard.press("Control+v");
}

/** What Ctrl C puts on the clipboard. */
async function copied(page: Page): Promise<string> {
  await page.keyboard.press("Control+c");
  return page.evaluate(() => navigator.clipboard.readText());
}

/** The column of a heading, from 0. */
async function columnOf(page: Page, heading: string): Promise<number> {
  for (let tries = 0; tries < 20; tries += 1) {
    const found = page.getByRole("columnheader", { name: heading, exact: true });
    if ((await found.count()) > 0) return Number(await found.first().getAttribute("aria-colindex")) - 1;
    await page.locator(".grid-frame").evaluate((frame) => {
      frame.scrollLeft += 300;
    });
    await page.waitForTimeout(60);
  }
  throw new Error(`no column ${heading}`);
}

/** The readings file, by run and phase. */
async function exported(page: Page): Promise<Map<string, Record<string, string>>> {
  await tab(page, "Study");
  const file = await saved(page, "Save the readings (CSV)");
  const { data } = Papa.parse<Record<string, string>>(file.bytes.toString("utf8").replace(/^\uFEFF/, ""), {
    header: true,
    skipEmptyLines: true,
  });
  return new Map(data.map((row) => [`${row.run} ${row.phase}`, row]));
}

async function named(page: Page, name: string): Promise<void> {
  await page.evaluate((who) => sessionStorage.setItem("boilbench.who", who), name);
  await page.reload();
}

describe("a range of cells", { timeout: 180_000 }, () => {
  it("40 rows by 12 columns with decimal commas, pasted from a spreadsheet, land right; one undo takes them back", async () => {
    const host = await startHost();
    const { page, close } = await openPage(browser, host, { viewport: { width: 1440, height: 900 } });
    await named(page, "Ama");
    const before = await exported(page);
    await openRuns(page);
    // Twelve readings side by side, each made a little other than it was, so that none of them is out of what it may be.
    const all = Object.keys([...before.values()][0] ?? {});
    const recorded = all.filter((column) => [...before.values()].some((row) => (row[column] ?? "") !== ""));
    const columns = recorded.slice(recorded.indexOf("fuel_start_g")).slice(0, 12);
    expect(columns).toHaveLength(12);
    const first = await columnOf(page, "fuel before, g");
    const rows = [...before.values()].slice(0, 40);
    const wanted = rows.map((row) =>
      columns.map((column) => {
        const was = row[column] ?? "";
        if (!/^[\d.]+$/.test(was)) return was;
        if (!/_percent$|_C$/.test(column)) return String(Number(was) + 1);
        return String(Math.round((Number(was) + (column === "boiling_C" ? 0.1 : -0.1)) * 1000) / 1000);
      }),
    );
    const text = wanted.map((row) => row.map((cell) => cell.replace(".", ",")).join("\t")).join("\r\n");
    await place(page, 0, first).click();
    await paste(page, `${text}\r\n`);
    await page.getByText(/^40 rows × 12 columns chosen$/).waitFor();
    await expect.poll(() => cellText(page, `0:${first}`)).toBe(wanted[0]?.[0]);
    const after = await exported(page);
    const found = [...after.values()].slice(0, 40).map((row) => columns.map((column) => row[column] ?? ""));
    expect(found.map((row) => row.map((cell) => (/^[\d.]+$/.test(cell) ? Number(cell) : cell)))).toEqual(
      wanted.map((row) => row.map((cell) => (/^[\d.]+$/.test(cell) ? Number(cell) : cell))),
    );
    // Nothing else: the rows below are as they were.
    expect([...after.values()].slice(40)).toEqual([...before.values()].slice(40));
    await page.keyboard.press("Control+z");
    await page
      .getByText(/^Undone/)
      .first()
      .waitFor();
    expect(await exported(page)).toEqual(before);
    await close();
    await host.close();
  });

  it("what does not fit is named, nothing is changed, and the rest is pasted when it is mended or left out", async () => {
    const host = await startHost();
    const { page, close } = await openPage(browser, host, { viewport: { width: 1440, height: 900 } });
    await openRuns(page);
    const column = await columnOf(page, "fuel before, g");
    const was = await Promise.all([0, 1, 2].map((row) => cellText(page, `${row}:${column}`)));
    await place(page, 0, column).click();
    await paste(page, "1501\r\n15o2\r\n150x\r\n");
    await nameWriter(page, "Ama");
    const trouble = page.getByRole("region", { name: "Nothing was pasted: 2 cells do not fit." });
    await trouble.waitFor();
    await trouble.getByText(/15o2/).waitFor();
    expect(await cellText(page, `0:${column}`)).toBe(was[0]);
    expect(await place(page, 1, column).getAttribute("class")).toContain("wrong");
    expect((await new AxeBuilder({ page }).analyze()).violations).toEqual([]);
    await trouble.getByRole("button", { name: /^Go to it: R01, simmer/ }).click();
    await expect.poll(() => focused(page)).toBe(`2:${column}`);
    await trouble.getByLabel(/^New text for R01, hot start/).fill("1502");
    await trouble.getByRole("button", { name: /^Leave out: R01, simmer/ }).click();
    await page.getByRole("button", { name: "Try again" }).click();
    await expect.poll(() => cellText(page, `0:${column}`)).toBe("1501");
    await expect.poll(() => cellText(page, `1:${column}`)).toBe("1502");
    expect(await cellText(page, `2:${column}`)).toBe(was[2]);
    await trouble.waitFor({ state: "detached" });

    await place(page, 70, 0).waitFor({ state: "detached" });
    await page.keyboard.press("Control+End");
    await paste(page, "1\t2\r\n3\t4");
    await page.getByText(/Nothing was pasted: begin further up or to the left/).waitFor();
    await close();
    await host.close();
  });

  it("is filled down, emptied, copied with the system's decimal sign, and pasted over many from one", async () => {
    const host = await startHost();
    const { page, close } = await openPage(browser, host, { locale: "de-DE", viewport: { width: 1440, height: 900 } });
    await named(page, "Ama");
    await openRuns(page);
    const air = await columnOf(page, "air, °C");
    await place(page, 0, air).click();
    for (let step = 0; step < 2; step += 1) await page.keyboard.press("Shift+ArrowDown");
    expect(await page.locator('[aria-selected="true"]').count()).toBe(3);
    const top = (await cellText(page, `0:${air}`)) ?? "";
    await paste(page, "22,5");
    await expect.poll(() => cellText(page, `2:${air}`)).toBe("22.5");
    expect((await copied(page)).split(/\r?\n/)).toEqual(["22,5", "22,5", "22,5"]);
    await page.keyboard.press("Control+z");
    await expect.poll(() => cellText(page, `0:${air}`)).toBe(top);
    await page.keyboard.press("Control+d");
    await expect.poll(() => cellText(page, `2:${air}`)).toBe(top);
    await page.keyboard.press("Delete");
    await expect.poll(() => cellText(page, `1:${air}`)).toBe("");
    await close();
    await host.close();
  });
});

describe("the grid by keyboard", { timeout: 180_000 }, () => {
  it("is walked, typed in cell after cell, and undone", async () => {
    const host = await startHost();
    const { page, close } = await openPage(browser, host, { viewport: { width: 1024, height: 700 } });
    await named(page, "Ama");
    await openRuns(page);
    const column = await columnOf(page, "fuel after, g");
    await place(page, 3, column).click();
    const was = await Promise.all([3, 4].map((row) => cellText(page, `${row}:${column}`)));
    await page.keyboard.type("811");
    await page.keyboard.press("Enter");
    await page.keyboard.type("512,5");
    await page.keyboard.press("Tab");
    await expect.poll(() => cellText(page, `4:${column}`)).toMatch(/^512\.5/);
    expect(await cellText(page, `3:${column}`)).toMatch(/^811/);
    await expect.poll(() => focused(page)).toBe(`4:${column + 1}`);
    await page.keyboard.press("Home");
    await expect.poll(() => focused(page)).toBe("4:0");
    await page.keyboard.press("PageDown");
    await expect.poll(() => focused(page)).not.toBe("4:0");
    await page.keyboard.press("Control+End");
    await expect.poll(() => focused(page)).toMatch(/^74:/);
    await page.keyboard.press("Control+z");
    await page.keyboard.press("Control+z");
    await place(page, 74, 0).waitFor();
    await page.keyboard.press("Control+Home");
    await place(page, 3, 0).waitFor();
    await page.keyboard.press("ArrowDown");
    for (let step = 0; step < column; step += 1) await page.keyboard.press("ArrowRight");
    await expect.poll(() => cellText(page, `3:${column}`)).toBe(was[0]);
    await expect.poll(() => cellText(page, `4:${column}`)).toBe(was[1]);
    await close();
    await host.close();
  });

  it("a cell that is scrolled away keeps the keyboard", async () => {
    const host = await startHost();
    const { page, close } = await openPage(browser, host, { viewport: { width: 1024, height: 700 } });
    await openRuns(page);
    await place(page, 2, 2).click();
    await page.locator(".grid-frame").evaluate((frame) => {
      frame.scrollTop = frame.scrollHeight;
    });
    await place(page, 2, 2).waitFor({ state: "detached" });
    await page.keyboard.press("ArrowDown");
    await expect.poll(() => focused(page)).toBe("3:2");
    await close();
    await host.close();
  });

  it("sorts, finds, filters, hides columns, steps through questions; a reload keeps what was chosen", async () => {
    const host = await startHost();
    const { page, close } = await openPage(browser, host, { viewport: { width: 1440, height: 900 } });
    await openRuns(page);
    const column = await columnOf(page, "fuel before, g");
    const heading = page.getByRole("columnheader", { name: "fuel before, g" });
    await heading.click();
    await page.getByText("Sorted by fuel before, g, smallest or first first.").waitFor();
    const numbers = () =>
      page
        .locator(`tbody [aria-colindex="${column + 1}"]`)
        .allTextContents()
        .then((texts) => texts.slice(0, 12).map(Number));
    await expect.poll(async () => (await numbers()).length).toBeGreaterThan(5);
    await expect
      .poll(async () => JSON.stringify(await numbers()))
      .toBe(JSON.stringify((await numbers()).toSorted((one, other) => one - other)));
    await page.getByLabel("Phase", { exact: true }).selectOption("simmer");
    await page.getByText(/^25 of 75 rows, 25 runs$/).waitFor();
    await page.getByLabel("Find", { exact: true }).fill("R07");
    await page.getByText(/^1 of 75 rows, 1 run$/).waitFor();
    await page.reload();
    await page.getByText(/^1 of 75 rows, 1 run$/).waitFor();
    await page.getByLabel("Find", { exact: true }).fill("nothing has this");
    await page.getByText("No row has what was asked for.").waitFor();
    await page.getByRole("button", { name: "Show all rows" }).click();
    await page.getByText(/^75 rows, 25 runs$/).waitFor();

    await page.getByRole("button", { name: "Columns…" }).click();
    const dialog = page.getByRole("dialog", { name: "Which columns are shown" });
    await dialog.getByLabel("Find a column").fill("fuel before");
    await dialog.getByLabel("fuel before, g").uncheck();
    await page.keyboard.press("Escape");
    await expect.poll(() => heading.count()).toBe(0);
    await page.reload();
    await place(page, 0, 0).waitFor();
    expect(await heading.count()).toBe(0);

    await place(page, 0, 0).click();
    await page.keyboard.press("F8");
    await page.getByText(/^1 of \d+$/).waitFor();
    await page.getByRole("button", { name: "Next question" }).click();
    await page.getByText(/^2 of \d+$/).waitFor();
    await close();
    await host.close();
  });
});

// Each pair of colours once, and each width once.
describe.each([
  ["light", 1024],
  ["dark", 390],
] as const)("in %s colours, %i pixels wide", (colorScheme, width) => {
  it("has no fault that axe finds, and is not wider than its window", { timeout: 180_000 }, async () => {
    const host = await startHost();
    const { page, close } = await openPage(browser, host, { colorScheme, viewport: { width, height: 700 } });
    const check = async (what: string) => {
      const { violations } = await new AxeBuilder({ page }).analyze();
      const told = violations.map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.html).join(" | ")}`);
      expect(told, what).toEqual([]);
      const tooWide = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
      expect(tooWide, `${what} is wider than its window`).toBeLessThanOrEqual(0);
    };
    await named(page, "Ama");
    await openRuns(page);
    await page.keyboard.press("F8");
    await place(page, 1, 1).click();
    await page.keyboard.press("Shift+ArrowDown");
    await check("a range");
    await page.keyboard.press("Control+a");
    await check("all");
    await page.keyboard.press("Escape");
    await page.keyboard.press("F2");
    await check("a cell that is written in");
    await page.keyboard.press("Escape");
    await page.keyboard.press("F8");
    await page.getByText(/^1 of \d+$/).waitFor();
    await check("a question");
    await page.getByRole("button", { name: "Columns…" }).click();
    await page.getByRole("dialog").waitFor();
    await check("columns");
    await page.keyboard.press("Escape");
    await page.getByLabel("Find", { exact: true }).fill("nothing has this");
    await page.getByText("No row has what was asked for.").waitFor();
    await check("nothing found");
    await close();
    await host.close();
  });
});
