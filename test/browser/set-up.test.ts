import AxeBuilder from "@axe-core/playwright";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Door, Edit, ReplyValues, Request } from "../../app/contract/index.ts";
import { ownDoor, ownFolders } from "../build/own-door.ts";
import { launchBrowser, openPage, startHost } from "./harness.ts";
import { nameWriter, tabTo } from "./steps.ts";

/** Setting up a study on its page, with the real service and file behind it. */

let browser: Browser;
beforeAll(async () => {
  browser = await launchBrowser();
});
afterAll(async () => {
  await browser?.close();
});

async function asked<K extends keyof ReplyValues>(
  door: Door,
  message: Extract<Request, { kind: K }>,
): Promise<ReplyValues[K]> {
  const reply = await door.ask(message);
  if (!reply.ok) throw new Error(reply.message);
  return reply.value as ReplyValues[K];
}

const adding = (subject: "variant" | "fuel" | "pot" | "calibration", texts: Record<string, string>): Edit => ({
  kind: "setUp",
  subject,
  item: null,
  fields: Object.entries(texts).map(([field, text]) => ({ field, text, was: "" })),
});

/** A study without runs, on a user's folders of its own. */
async function begun(edits: readonly Edit[] = []) {
  const folders = ownFolders();
  const service = ownDoor(folders.folders);
  await asked(service.door, { kind: "study.create", name: "Skirt and gap", method: "wbt", who: "Ama" });
  for (const edit of edits) await asked(service.door, { kind: "edit.make", study: null, who: "Ama", edit });
  const host = await startHost({ door: service.door });
  return {
    door: service.door,
    host,
    async end() {
      await host.close();
      await service.close();
      folders.remove();
    },
  };
}

const cell = (page: Page, name: string) => page.getByLabel(name, { exact: true });

/** axe finds nothing, and nothing sticks out of the window. */
async function check(page: Page, what: string, part = "body"): Promise<void> {
  const { violations } = await new AxeBuilder({ page }).include(part).analyze();
  const told = violations.map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.html).join(" | ")}`);
  expect(told, what).toEqual([]);
  const tooWide = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
  expect(tooWide, `${what} is wider than its window`).toBeLessThanOrEqual(0);
}

async function openAll(page: Page): Promise<void> {
  for (const title of ["Fuels", "Pots", "Place", "Instruments", "Errors", "Calibrations", "Method", "Monte Carlo"]) {
    await page
      .locator(".set-up-part > summary")
      .filter({ hasText: new RegExp(`^${title}`) })
      .click();
  }
}

describe("setting up a study", () => {
  it("leads to the first run by keyboard alone: a name, Enter, Enter", { timeout: 120_000 }, async () => {
    const { host, end } = await begun();
    const { page, close } = await openPage(browser, host);
    await page.getByLabel("What is this form of the stove called?").focus();
    await page.keyboard.type("without skirt");
    await page.keyboard.press("Enter");
    await nameWriter(page, "Ama");
    const link = page.getByRole("link", { name: "Begin a run on the Bench" });
    await link.waitFor();
    await expect.poll(() => link.evaluate((element) => element === document.activeElement)).toBe(true);
    await page.keyboard.press("Enter");
    await expect.poll(() => page.url()).toMatch(/#\/bench/);
    await close();
    await end();
  });

  it("rows are added, changed, refused, taken back and removed with the keyboard", { timeout: 90_000 }, async () => {
    const { host, door, end } = await begun([adding("variant", { name: "without skirt" })]);
    const { page, close } = await openPage(browser, host);
    await cell(page, "variant, without skirt").waitFor();

    await tabTo(page, "Add the design factor gap mm");
    await page.keyboard.press("Enter");
    await cell(page, "gap mm, without skirt").focus();
    await page.keyboard.type("12");
    await page.keyboard.press("Enter");
    await nameWriter(page, "Ama");
    await page.getByText("Saved: variant “without skirt” set up").waitFor();

    await page.getByRole("button", { name: "Add a variant" }).focus();
    await page.keyboard.press("Enter");
    await page.keyboard.type("with skirt");
    await page.keyboard.press("Tab");
    await page.keyboard.press("Tab");
    await page.keyboard.type("8");
    await page.keyboard.press("Enter");
    await cell(page, "gap mm, with skirt").waitFor();
    await expect
      .poll(() => page.evaluate(() => document.activeElement?.textContent), { timeout: 5_000 })
      .toBe("Add a variant");

    // Escape takes back, Tab saves and goes on.
    await cell(page, "gap mm, with skirt").fill("99");
    await page.keyboard.press("Escape");
    expect(await cell(page, "gap mm, with skirt").inputValue()).toBe("8");
    await cell(page, "gap mm, with skirt").fill("9");
    await page.keyboard.press("Tab");
    await page.getByText("Saved: variant “with skirt” set up").waitFor();
    await expect.poll(async () => levels(door)).toEqual(["12", "9"]);

    // What is refused stays in its cell, with the reason under its row.
    await cell(page, "variant, with skirt").fill("without skirt");
    await page.keyboard.press("Enter");
    await page
      .getByRole("alert")
      .getByText(/There is a variant “without skirt” already/)
      .waitFor();
    expect(await cell(page, "variant, with skirt").getAttribute("aria-invalid")).toBe("true");
    await check(page, "a name that is taken");
    await cell(page, "variant, with skirt").focus();
    await page.keyboard.press("Escape");
    await expect.poll(() => page.getByRole("alert").count()).toBe(0);

    await page.getByRole("button", { name: "Remove with skirt" }).focus();
    await page.keyboard.press("Enter");
    await page.getByText("Saved: variant “with skirt” removed").waitFor();
    await expect.poll(async () => levels(door)).toEqual(["12"]);
    await page.keyboard.press("Control+z");
    await expect.poll(async () => levels(door)).toEqual(["12", "9"]);
    await close();
    await end();
  });

  it("takes a fuel over from the table with one key, and tells where water boils", { timeout: 120_000 }, async () => {
    const { host, end } = await begun();
    const { page, close } = await openPage(browser, host, { colorScheme: "dark" });
    await page.locator(".set-up-part").first().waitFor();
    await openAll(page);
    await page.getByText("Take over from the table").first().click();
    await page.getByRole("button", { name: "Take over eucalyptus" }).focus();
    await page.keyboard.press("Enter");
    await nameWriter(page, "Ama");
    await expect.poll(() => cell(page, "calorific value, dry, eucalyptus").inputValue()).toBe("19300");
    await cell(page, "altitude, no altitude or pressure yet: the boiling point is not known").fill("1500");
    await page.keyboard.press("Enter");
    await page.getByRole("cell", { name: "water boils at 95.0 °C" }).waitFor();
    await check(page, "fuels and place");

    await page.getByRole("button", { name: "What is “altitude”?" }).focus();
    await page.keyboard.press("Enter");
    const help = page.getByRole("dialog", { name: "Place: what the columns are" });
    await help.getByText(/Metres above sea level/).waitFor();
    await check(page, "help on the columns");
    await page.keyboard.press("Escape");
    await help.waitFor({ state: "detached" });
    await close();
    await end();
  });

  it("takes usual errors over with one key, changes and removes one of them, and asks about a balance without gain, by keyboard", {
    timeout: 120_000,
  }, async () => {
    const { host, door, end } = await begun();
    const { page, close } = await openPage(browser, host);
    await page.locator(".set-up-part").first().waitFor();
    await openAll(page);
    const instruments = page.locator(".set-up-part").filter({ hasText: "What was measured with" });
    await instruments.getByText("Take over from the table").focus();
    await page.keyboard.press("Enter");
    await page
      .getByRole("button", { name: "Take over kitchen or bench balance, 1 g, balance for fuel and char" })
      .focus();
    await page.keyboard.press("Enter");
    await nameWriter(page, "Ama");
    const gain = "gain, balance for fuel and char";
    await expect.poll(() => cell(page, `size, ${gain}`).inputValue()).toBe("0.2");
    expect(await cell(page, `kind, ${gain}`).inputValue()).toBe("shared");
    await check(page, "usual errors");

    // In grams, a balance's shared error cancels: it is asked about, and the question leads to the instruments.
    await cell(page, `in, ${gain}`).focus();
    await page.keyboard.press("ArrowUp");
    await page.keyboard.press("Enter");
    await expect.poll(() => componentsOf(door)).toContain('"halfWidth": 0.2');

    // A row of its own, from the certificate.
    await page.getByRole("button", { name: "Add an error" }).focus();
    await page.keyboard.press("Enter");
    await cell(page, "name, new").focus();
    await page.keyboard.type("certificate");
    await page.keyboard.press("Tab");
    await page.keyboard.type("0,3");
    await page.keyboard.press("Enter");
    await cell(page, "size, certificate, balance for fuel and char").waitFor();
    await page.getByRole("button", { name: `Remove ${gain}` }).focus();
    await page.keyboard.press("Enter");
    await expect.poll(() => cell(page, `size, ${gain}`).count()).toBe(0);
    await page.keyboard.press("Control+z");
    await cell(page, `size, ${gain}`).waitFor();

    await page.getByRole("button", { name: "What is “kind”?" }).focus();
    await page.keyboard.press("Enter");
    const help = page.getByRole("dialog", { name: "Errors: what the columns are" });
    await help.getByText(/A balance's gain makes every weighing too heavy/).waitFor();
    await check(page, "help on errors");
    await page.keyboard.press("Escape");

    await cell(page, "trials, Monte Carlo").fill("-5");
    await page.keyboard.press("Enter");
    await page
      .getByRole("alert")
      .getByText(/or 0 for no Monte Carlo/)
      .waitFor();
    await close();
    await end();
  });

  it("leads from a question about a balance to the instruments", { timeout: 120_000 }, async () => {
    const service = ownDoor();
    const host = await startHost({ door: service.door });
    await asked(service.door, { kind: "study.show", study: null });
    const fields = [{ field: "in", text: "absolute", was: "relative" }];
    const edit: Edit = { kind: "setUp", subject: "error", item: "fuelBalance/2", fields };
    await asked(service.door, { kind: "edit.make", study: null, who: "Ama", edit });
    const { page, close } = await openPage(browser, host);
    const question = page.getByRole("listitem").filter({ hasText: "cancels in every difference of two weighings" });
    await question.getByRole("button", { name: "Look at it under Set up" }).click();
    const summary = page.locator(".set-up-part > summary").filter({ hasText: /^Instruments/ });
    await expect.poll(() => summary.evaluate((element) => element === document.activeElement)).toBe(true);
    await page.getByLabel("of the reading, balance for fuel and char, g", { exact: true }).waitFor();
    await check(page, "a question about a balance");
    await close();
    await host.close();
    await service.close();
  });

  it("holds 40 variants, long names and such that run from right to left", { timeout: 120_000 }, async () => {
    const names = Array.from({ length: 37 }, (_, index) => `variant ${index + 1}`);
    const odd = [`תנור ${"א".repeat(60)}`, "W".repeat(300), `long ${"name without an end ".repeat(20)}`];
    const edits = [...names, ...odd].map((name, index) => adding("variant", { name, "factor:gap mm": String(index) }));
    const { host, end } = await begun([
      ...edits,
      adding("pot", { name: odd[1] ?? "", emptyMass_g: "450" }),
      adding("calibration", { instrument: "thermometer", from: "2026-01-12", certificate: odd[2] ?? "" }),
    ]);
    for (const [width, height, colorScheme, scale] of [
      [1440, 900, "light", 1],
      [1024, 700, "dark", 1],
      [390, 800, "light", 1],
      // 200 % of a window of 1280 pixels.
      [640, 400, "dark", 2],
    ] as const) {
      const { page, close } = await openPage(browser, host, {
        viewport: { width, height },
        colorScheme,
        deviceScaleFactor: scale,
      });
      await cell(page, "variant, variant 37").waitFor();
      await openAll(page);
      await check(page, `${width} × ${height}, ${colorScheme}`, ".set-up");
      await close();
    }
    await end();
  });
});

async function componentsOf(door: Door): Promise<string> {
  const choice = { quantity: null, variant: null, baseline: null };
  const { contentBase64 } = await asked(door, { kind: "export", study: null, what: "settings.json", choice });
  return Buffer.from(contentBase64, "base64").toString();
}

async function levels(door: Door): Promise<(string | undefined)[]> {
  const { variants } = await asked(door, { kind: "study.show", study: null });
  return variants.map(({ factors }) => factors[0]?.level);
}
