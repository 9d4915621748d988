import AxeBuilder from "@axe-core/playwright";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Door } from "../../app/contract/index.ts";
import { ownDoor } from "../build/own-door.ts";
import { cellEdit, makeEdit } from "../service/requests.ts";
import { launchBrowser, openPage, startHost } from "./harness.ts";
import { nameWriter } from "./steps.ts";

/** Answering questions in a real browser, over the real host, the real service and a real study file. */

let browser: Browser;

beforeAll(async () => {
  browser = await launchBrowser();
});

afterAll(async () => {
  await browser?.close();
});

/** Moisture of the wood of a run's cold start, in the study that the host shows. */
async function moisture(door: Door, run: string, text: string): Promise<void> {
  const { edit } = await cellEdit(door, null, run, "cold-start", "moisture_wet_percent", text);
  await makeEdit(door, null, edit);
}

/** axe finds nothing, in light and in dark, and nothing sticks out of a narrow window or a wide one. */
async function check(page: Page, what: string): Promise<void> {
  for (const colorScheme of ["light", "dark"] as const) {
    await page.emulateMedia({ colorScheme });
    const { violations } = await new AxeBuilder({ page }).analyze();
    const told = violations.map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.html).join(" | ")}`);
    expect(told, `${what}, ${colorScheme}`).toEqual([]);
  }
  for (const width of [390, 1024, 1440]) {
    await page.setViewportSize({ width, height: 700 });
    const tooWide = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
    expect(tooWide, `${what} is wider than a window of ${width} pixels`).toBeLessThanOrEqual(0);
  }
}

const focused = (page: Page) => page.evaluate(() => document.activeElement?.getAttribute("aria-label") ?? "");

describe("questions of a study", () => {
  it("are answered by keyboard one after the other, kept below, opened again, and taken back with undo", {
    timeout: 120_000,
  }, async () => {
    const service = ownDoor();
    await moisture(service.door, "R03", "0");
    await moisture(service.door, "R04", "0");
    const host = await startHost({ door: service.door });
    const { page, close } = await openPage(browser, host, { viewport: { width: 1280, height: 900 } });
    const questions = page.locator(".questions");
    const answering = (run: string) => page.getByRole("button", { name: `It is right, because …: ${run}, cold start` });
    await answering("R03").waitFor();
    await answering("R04").waitFor();

    await answering("R03").focus();
    await page.keyboard.press("Enter");
    const field = page.getByRole("textbox", { name: "It is right, because" });
    await field.waitFor();
    await page.keyboard.type("a slip");
    await page.keyboard.press("Escape");
    await field.waitFor({ state: "detached" });
    await expect.poll(() => focused(page)).toMatch(/R03/);
    await page.keyboard.press("Enter");
    await field.waitFor();
    await check(page, "a question that is being answered");
    await page.keyboard.press("Enter");
    await page.getByText("Say first why it is right.").waitFor();
    await page.keyboard.type("it came out of the oven");
    await page.keyboard.press("Enter");
    await nameWriter(page, "Kofi");
    await answering("R03").waitFor({ state: "detached" });
    await expect.poll(() => focused(page)).toMatch(/R04/);
    await page.getByText("1 answered question", { exact: true }).waitFor();

    await page.keyboard.press("Enter");
    await page.keyboard.type("this, too");
    await page.keyboard.press("Enter");
    const below = page.getByText("2 answered questions", { exact: true });
    await below.waitFor();
    await below.click();
    await questions.getByText("It is right, because: it came out of the oven").waitFor();
    await questions.getByText("Kofi").first().waitFor();
    await check(page, "answered questions");

    await page.getByRole("button", { name: /^Open again: R03/ }).click();
    await answering("R03").waitFor();
    await page.getByText("1 answered question", { exact: true }).waitFor();
    await expect.poll(() => focused(page)).toMatch(/^Open again: R04/);
    await page.keyboard.press("Control+z");
    await page.getByText("2 answered questions", { exact: true }).waitFor();

    // The reading is changed elsewhere: the question is another, and the answer no longer holds, until it is changed back.
    await moisture(service.door, "R03", "45");
    await page.reload();
    await page.getByText("1 answered question", { exact: true }).waitFor();
    await moisture(service.door, "R03", "0");
    await page.reload();
    await page.getByText("2 answered questions", { exact: true }).waitFor();
    await close();
    await host.close();
    await service.close();
  });
});
