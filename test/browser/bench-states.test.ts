import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { beginRun, expectAccessible, openBench, toStep } from "./bench-steps.ts";
import { launchBrowser, openPage, startHost } from "./harness.ts";

/** The Bench in all its states: axe finds nothing in light or dark, and nothing sticks out of a narrow window. */

let browser: Browser;

beforeAll(async () => {
  browser = await launchBrowser();
});

afterAll(async () => {
  await browser?.close();
});

const pictures = process.env.BENCH_PICTURES;

async function check(page: Page, what: string, scheme: string): Promise<void> {
  await expectAccessible(page, what);
  for (const [width, height] of [
    [390, 844],
    [640, 480],
    [1024, 700],
    [1440, 960],
  ] as const) {
    await page.setViewportSize({ width, height });
    if (pictures !== undefined)
      await page.screenshot({ path: `${pictures}/${what}-${scheme}-${width}.png`, fullPage: true });
    const tooWide = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
    expect(tooWide, `${what} is wider than a window of ${width} pixels`).toBeLessThanOrEqual(0);
  }
}

const longName = `\u202Eesrever "quoted" ${"long name without an end ".repeat(380)}${"W".repeat(400)}`;

describe.each(["light", "dark"] as const)("the Bench, %s", (colorScheme) => {
  it("is accessible in all its states, narrow and wide", { timeout: 180_000 }, async () => {
    const host = await startHost();
    const { page, close } = await openPage(browser, host, { colorScheme, reducedMotion: "reduce" });
    await openBench(page);
    await check(page, "begin", colorScheme);
    await beginRun(page);
    await page.getByRole("button", { name: /^More fields/ }).click();
    await page.keyboard.press("Alt+p");
    await page.getByRole("button", { name: "Take the mean" }).click();
    await page.getByText("Say on which basis first: it changes the result.").waitFor();
    await check(page, "specimens", colorScheme);
    await page.getByRole("button", { name: /^Close/ }).click();
    await toStep(page, "Weigh for the cold start");
    await page.getByLabel("Pot with water, g").fill("5612");
    await page.getByLabel("Water, °C").fill("16o");
    await page.getByLabel("Wood to burn, g").fill("1.504");
    await page.keyboard.press("Enter");
    await page.getByRole("alert").getByText(/16o/).waitFor();
    await page.locator(".bench-row .mark").nth(1).waitFor();
    await page.keyboard.press("Alt+w");
    await page.getByLabel(/further entry 1, g/).waitFor();
    await check(page, "questions", colorScheme);
    await toStep(page, "Light it, cold stove");
    await page.getByRole("button", { name: "Lit now" }).click();
    await page.getByRole("timer").waitFor();
    await check(page, "clock", colorScheme);
    await toStep(page, "Anything unusual");
    await page.getByLabel("Notes").fill(longName.slice(0, 9_000));
    await page.keyboard.press("Enter");
    await page.getByRole("button", { name: "Finish the run" }).waitFor();
    await page.getByRole("button", { name: "Abandon the run" }).click();
    await check(page, "finish", colorScheme);
    await page.getByLabel("Why it is abandoned").fill(longName.slice(0, 9_000));
    await page.keyboard.press("Enter");
    await page.getByRole("heading", { level: 1, name: /was abandoned/ }).waitFor();
    await check(page, "abandoned", colorScheme);
    await page.getByRole("button", { name: "Begin the next run" }).click();
    await page.getByRole("button", { name: /^Take up run/ }).waitFor();
    await page.getByLabel("Variant", { exact: true }).fill(longName.slice(0, 9_000));
    await page.getByRole("button", { name: "Begin the run" }).click();
    await page.getByRole("heading", { level: 1, name: "Before the fire" }).waitFor();
    await check(page, "long names", colorScheme);
    await close();
    await host.close();
  });
});
