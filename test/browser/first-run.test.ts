import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { ownDoor } from "../build/own-door.ts";
import { asked, expectAccessible, focusedKey, Keys } from "./bench-steps.ts";
import { launchBrowser, openPage, startHost } from "./harness.ts";

/** Somebody who starts the program for the first time: from the example on screen to a run of their own. */

let browser: Browser;

beforeAll(async () => {
  browser = await launchBrowser();
});

afterAll(async () => {
  await browser?.close();
});

describe("the first run", () => {
  it("is begun from the example with six keys beside three names, in under a minute", {
    timeout: 120_000,
  }, async () => {
    const service = ownDoor();
    const host = await startHost({ door: service.door });
    const { page, close } = await openPage(browser, host);
    await page.getByRole("heading", { level: 1, name: "Tall kettle stove, skirt and gap" }).waitFor();
    // It says which key leads on.
    await page.getByRole("link", { name: "Begin a study of your own" }).waitFor();
    const begun = performance.now();
    const keys = new Keys(page);
    const focus = (label: string | RegExp) =>
      expect
        .poll(() => page.evaluate(() => document.activeElement?.closest("label, a, button")?.textContent ?? ""))
        .toMatch(label);
    const names = async (text: string) => {
      const before = keys.navigation;
      await keys.type(text);
      keys.navigation = before;
      await keys.press("Enter");
    };
    await keys.press("Control+o");
    await focus(/^Name for the record/);
    await names("Ama");
    await focus(/^Name of the new study/);
    await names("My stove");
    await focus(/^What is this form of the stove called/);
    await expectAccessible(page, "a study that was just begun");
    await names("plain");
    await focus(/^Begin a run on the Bench/);
    await keys.press("Enter");
    await focus(/^Variant/);
    await keys.press("Enter");
    await page.getByRole("heading", { level: 1, name: "Before the fire" }).waitFor();
    expect(await focusedKey(page)).toBe("cold-start.air_C");
    await keys.type("21.5");
    await keys.press("Enter");
    await expect.poll(() => focusedKey(page)).toBe("cold-start.boiling_C");
    // The last Enter is the reading's own.
    expect(keys.navigation - 1).toBeLessThanOrEqual(6);
    expect(performance.now() - begun).toBeLessThan(60_000);
    // It is on the Bench: told apart on the cover and on Study, with the way back to it.
    await page.getByRole("navigation").getByRole("link", { name: "Study", exact: true }).click();
    const part = page.locator("section").filter({ has: page.getByRole("heading", { name: "On the Bench" }) });
    await part.getByRole("link", { name: "1", exact: true }).waitFor();
    await page.getByText("No run was left out.").waitFor();
    await page.getByRole("banner").getByRole("link", { name: "1", exact: true }).click();
    await expect.poll(() => focusedKey(page)).toBe("cold-start.boiling_C");
    const { runs, leftOut, onBench } = await asked(service.door, { kind: "study.show", study: null });
    expect([runs, leftOut, onBench.map(({ run }) => run)]).toEqual([1, 0, ["1"]]);
    await close();
    await host.close();
    await service.close();
  });

  it("a study that is named before the person is begun once they said who they are", { timeout: 120_000 }, async () => {
    const host = await startHost();
    const { page, close } = await openPage(browser, host);
    await page.getByRole("heading", { level: 1 }).waitFor();
    await page.keyboard.press("Control+o");
    await page.getByLabel("Name of the new study").fill("Named first");
    await page.keyboard.press("Enter");
    await page.getByText("Say who is writing first.").waitFor();
    await page.keyboard.type("Ama");
    await page.keyboard.press("Enter");
    await page.getByRole("heading", { level: 1, name: "Named first" }).waitFor();
    await close();
    await host.close();
  });

  it("a press on a button is not lost as the name is taken and the cover grows shorter", {
    timeout: 120_000,
  }, async () => {
    const service = ownDoor();
    const host = await startHost({ door: service.door });
    await asked(service.door, { kind: "study.create", name: "Fine", method: "iso", who: "Kofi" });
    const { page, close } = await openPage(browser, host, { viewport: { width: 1280, height: 860 } });
    await page.getByRole("heading", { level: 1 }).waitFor();
    await page.keyboard.press("Control+o");
    await page.getByLabel("Name for the record").fill("Ama");
    const button = page.getByRole("button", { name: "Open “Fine”" });
    const there = await button.boundingBox();
    if (there === null) throw new Error("the study is not listed");
    // Its lower edge: what moves up by a line is no longer there.
    await page.mouse.move(there.x + 20, there.y + there.height - 2);
    await page.mouse.down();
    await page.waitForTimeout(150);
    expect(await button.boundingBox()).toEqual(there);
    await page.mouse.up();
    await page.getByRole("heading", { level: 1, name: "Fine" }).waitFor();
    await page.getByText("writing: Ama").waitFor();
    await close();
    await host.close();
    await service.close();
  });
});
