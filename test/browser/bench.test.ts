import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { ownDoor } from "../build/own-door.ts";
import { expectNumber } from "../numbers.ts";
import {
  asked,
  beginRun,
  expectAccessible,
  focusedKey,
  focusedTexts,
  Keys,
  onPaper,
  openBench,
  paperRun,
  resultsInStudy,
  resultsOfFile,
  toStep,
} from "./bench-steps.ts";
import { launchBrowser, openPage, startHost } from "./harness.ts";

/** The Bench in the real browser, before the real service: a whole run by keyboard, by names, through reloads and slips. */

let browser: Browser;

beforeAll(async () => {
  browser = await launchBrowser();
});

afterAll(async () => {
  await browser?.close();
});

/** The results of the run on the Bench are those of the same readings in a file; some of each phase, so that neither is empty. */
async function expectResults(door: Parameters<typeof asked>[0], study: string, run: string): Promise<void> {
  const there = await resultsInStudy(door, study, run);
  const expected = await resultsOfFile(door, study, run, paperRun);
  expect(there.leftOut).toBeNull();
  expect(there.phases.map(({ phase }) => phase)).toEqual(["cold-start", "hot-start", "simmer"]);
  for (const [at, { phase, values }] of expected.phases.entries()) {
    const names = Object.keys(values);
    expect(names, phase).toContain("firepower");
    expect(Object.keys(there.phases[at]?.values ?? {}), phase).toEqual(names);
    for (const name of names) {
      expectNumber(there.phases[at]?.values[name]?.value, values[name]?.value ?? Number.NaN, { relative: 1e-12 });
    }
  }
}

describe("a run from paper", () => {
  it("takes under 60 keys beside the digits, and counts with the right results", { timeout: 120_000 }, async () => {
    const service = ownDoor();
    const host = await startHost({ door: service.door });
    const { page, close } = await openPage(browser, host);
    await openBench(page);
    const keys = new Keys(page);
    await expect.poll(() => page.evaluate(() => document.activeElement?.tagName)).toBe("INPUT");
    await keys.press("Enter");
    await page.getByRole("dialog", { name: "Who is writing?" }).waitFor();
    await keys.type("Ama");
    await keys.press("Enter");
    await page.getByRole("heading", { level: 1, name: "Before the fire" }).waitFor();
    // The run is of another day: its date is among the fields that are folded away.
    await focusedKey(page);
    await keys.press("Alt+m");
    await expect.poll(() => focusedKey(page)).toBe("run.run");
    let last = "";
    for (let at = 0; last !== "finish"; at += 1) {
      expect(at, `after ${last}`).toBeLessThan(60);
      await expect.poll(() => focusedKey(page)).not.toBe(last);
      last = await focusedKey(page);
      const paper = last === "run.date" ? "20260314" : onPaper(last);
      const there = await focusedTexts(page);
      if (paper !== undefined && there?.offered !== paper && there?.text !== paper) await keys.type(paper);
      await keys.press("Enter");
    }
    await page.getByRole("heading", { level: 1, name: "Run R26 is finished" }).waitFor();
    await expect.poll(() => page.evaluate(() => document.activeElement?.textContent)).toBe("Begin the next run");
    await expectAccessible(page, "a finished run");
    expect(keys.navigation).toBeLessThan(60);
    expect(keys.digits).toBeGreaterThan(100);
    const { study } = await asked(service.door, { kind: "study.show", study: null });
    await expectResults(service.door, study, "R26");
    await page.keyboard.press("Enter");
    await expect.poll(() => page.evaluate(() => document.activeElement?.closest("label")?.textContent)).toBe("Variant");
    await close();
    await host.close();
    await service.close();
  });

  it("can be written by the names that are read aloud alone", { timeout: 120_000 }, async () => {
    const service = ownDoor();
    const host = await startHost({ door: service.door });
    const { page, close } = await openPage(browser, host);
    await beginRun(page);
    await page.getByRole("button", { name: /^More fields/ }).click();
    await fill(page, "Before the fire", { Date: "2026-03-14", ...fieldsOf("cold-start", before) });
    await goOn(page, "Weigh for the cold start", fieldsOf("cold-start", weigh));
    await goOn(page, "Light it, cold stove", fieldsOf("cold-start", { "Lit at": "start" }));
    await goOn(page, "Water boils", fieldsOf("cold-start", boils));
    await goOn(page, "Weigh after the cold start", fieldsOf("cold-start", after));
    await goOn(page, "Weigh for the hot start", fieldsOf("hot-start", weigh));
    await goOn(page, "Light it, hot stove", fieldsOf("hot-start", { "Lit at": "start" }));
    await goOn(page, "Water boils", fieldsOf("hot-start", boils));
    await goOn(page, "Weigh after the hot start", fieldsOf("hot-start", after));
    await goOn(
      page,
      "Simmer, 45 minutes",
      fieldsOf("simmer", { ...weigh, "Char in the stove, g": "char_at_start_g", "Begun at": "start" }),
    );
    await goOn(page, "45 minutes are over", fieldsOf("simmer", { "Ended at": "end", "Water, °C": "pot1_end_C" }));
    await goOn(page, "Weigh at the end", fieldsOf("simmer", after));
    await goOn(page, "Anything unusual", {});
    await page.getByRole("button", { name: "Go on: Finish" }).click();
    await page.getByRole("button", { name: "Finish the run" }).click();
    await page.getByRole("heading", { level: 1, name: "Run R26 is finished" }).waitFor();
    const { study } = await asked(service.door, { kind: "study.show", study: null });
    await expectResults(service.door, study, "R26");
    await close();
    await host.close();
    await service.close();
  });
});

const before = {
  "Air, °C": "air_C",
  "Boiling point, °C": "boiling_C",
  Wood: "fuel",
  "Moisture of the wood, %": "moisture_wet_percent",
  "Pot, empty, g": "pot1_empty_g",
  "Container, empty, g": "char_container_g",
};
const weigh = { "Pot with water, g": "pot1_start_g", "Water, °C": "pot1_start_C", "Wood to burn, g": "fuel_start_g" };
const boils = { "Boiled at": "end", "Water, °C": "pot1_end_C" };
const after = {
  "Pot with water, g": "pot1_end_g",
  "Wood left, g": "fuel_end_g",
  "Container with char, g": "char_with_container_g",
};

/** What is written into each field of a phase, by the name that is read aloud. */
function fieldsOf(phase: string, columns: Readonly<Record<string, string>>): Record<string, string> {
  return Object.fromEntries(
    Object.entries(columns).map(([name, column]) => [name, onPaper(`${phase}.${column}`) ?? expect.fail(column)]),
  );
}

async function fill(page: Page, step: string, texts: Readonly<Record<string, string>>): Promise<void> {
  const group = page.getByRole("group", { name: step, exact: true });
  for (const [name, text] of Object.entries(texts)) {
    const field = group
      .getByRole("textbox", { name, exact: true })
      .or(group.getByRole("combobox", { name, exact: true }));
    await field.fill(text);
  }
}

async function goOn(page: Page, step: string, texts: Readonly<Record<string, string>>): Promise<void> {
  await page.getByRole("button", { name: `Go on: ${step}`, exact: true }).click();
  await page.getByRole("heading", { level: 1, name: step, exact: true }).waitFor();
  await fill(page, step, texts);
}

describe("what is typed", () => {
  it("is there after a reload, with the step, also where it was not saved", { timeout: 120_000 }, async () => {
    const host = await startHost();
    const { page, close } = await openPage(browser, host);
    await beginRun(page);
    await toStep(page, "Weigh for the cold start");
    await page.getByLabel("Pot with water, g").fill("5612");
    await page.keyboard.press("Enter");
    await page.getByText(/pot 5612\sg/).waitFor();
    await page.getByLabel("Water, °C").fill("16o");
    await page.keyboard.press("Enter");
    await page.getByRole("alert").getByText(/16o/).waitFor();
    await page.getByLabel("Wood to burn, g").fill("15");
    page.on("dialog", (dialog) => void dialog.accept());
    await page.reload();
    await page.getByRole("heading", { level: 1, name: "Weigh for the cold start" }).waitFor();
    await expect.poll(() => page.getByLabel("Pot with water, g").inputValue()).toBe("5612");
    expect(await page.getByLabel("Water, °C").inputValue()).toBe("16o");
    expect(await page.getByLabel("Wood to burn, g").inputValue()).toBe("15");
    await page.getByLabel("Water, °C").fill("16,5");
    await page.keyboard.press("Enter");
    await page.getByText(/water 16\.5\s°C/).waitFor();
    await close();
    await host.close();
  });

  it("in two windows of one run: what one writes the other sees; of one field the first counts until somebody says otherwise", {
    timeout: 120_000,
  }, async () => {
    const host = await startHost();
    const { page, close } = await openPage(browser, host);
    await beginRun(page);
    await toStep(page, "Weigh for the cold start");
    const second = await page.context().newPage();
    await second.goto(page.url());
    const other = second.getByLabel("Pot with water, g");
    await other.waitFor();
    await second.getByLabel("Wood to burn, g").fill("14");
    await page.getByLabel("Pot with water, g").fill("5612");
    await page.keyboard.press("Enter");
    await expect.poll(() => other.inputValue()).toBe("5612");
    expect(await second.getByLabel("Wood to burn, g").inputValue()).toBe("14");
    await page.getByLabel("Wood to burn, g").fill("1504");
    await page.keyboard.press("Enter");
    await second.getByText("Meanwhile somebody else made it “1504”.").waitFor();
    await second.getByRole("button", { name: "Keep what is there" }).click();
    await expect.poll(() => second.getByLabel("Wood to burn, g").inputValue()).toBe("1504");
    await close();
    await host.close();
  });
});

describe("slips", () => {
  it("of an earlier weighing are told where the work is, when a later one shows them", {
    timeout: 120_000,
  }, async () => {
    const host = await startHost();
    const { page, close } = await openPage(browser, host);
    await beginRun(page);
    for (let field = await focusedKey(page); field !== "cold-start.fuel_end_g"; field = await focusedKey(page)) {
      await page.keyboard.type(onPaper(field) ?? "");
      await page.keyboard.press("Enter");
      const left = field;
      await page.waitForFunction((key) => document.activeElement?.id !== `bench-${key}`, left);
    }
    // In the other runs of the variant 489 to 565 g burnt; 1504 g lay ready.
    await page.keyboard.type("620");
    await page.keyboard.press("Enter");
    const told = page.locator(".bench-told").getByText(/The wood burnt is .*884 g/);
    await told.first().waitFor();
    await page.getByRole("heading", { level: 1, name: "Weigh after the cold start" }).waitFor();
    await close();
    await host.close();
  });

  it("are asked about or refused where they were typed, and can be answered there", { timeout: 120_000 }, async () => {
    const host = await startHost();
    const { page, close } = await openPage(browser, host);
    await beginRun(page);
    await toStep(page, "Weigh for the cold start");
    const row = (name: string) => page.locator(".bench-row").filter({ has: page.getByLabel(name, { exact: true }) });
    // Kilograms for grams.
    await page.getByLabel("Pot with water, g").fill("5612");
    await page.getByLabel("Wood to burn, g").fill("1.504");
    await page.keyboard.press("Shift+Enter");
    const question = row("Wood to burn, g").locator(".mark").first();
    await question.waitFor();
    expect(await question.textContent()).toMatch(/kilogram|kg/i);
    await page
      .getByRole("navigation", { name: "Steps" })
      .getByRole("button", { name: /Weigh for the cold start.*question/ })
      .waitFor();
    await question.getByRole("button", { name: /It is right, because/ }).click();
    await page.keyboard.type("one splinter");
    await page.keyboard.press("Enter");
    await row("Wood to burn, g").getByText("It is right, because: one splinter").waitFor();
    // The end before the start.
    await toStep(page, "Light it, cold stove");
    await page.getByLabel("Lit at").fill("1042");
    await page.keyboard.press("Enter");
    await page.getByText(/lit 10:42/).waitFor();
    await page.getByLabel("Boiled at").fill("10:24");
    await page.keyboard.press("Enter");
    await row("Boiled at").locator(".mark").first().waitFor();
    // A letter among digits: what was typed stays, and calls back who has not gone on.
    await page.getByLabel("Boiled at").fill("11:o7");
    await page.keyboard.press("Enter");
    await row("Boiled at").getByRole("alert").getByText(/11:o7/).waitFor();
    await expect.poll(() => focusedKey(page)).toBe("cold-start.end");
    expect(await page.getByLabel("Boiled at").inputValue()).toBe("11:o7");
    expect(await page.getByLabel("Boiled at").getAttribute("aria-invalid")).toBe("true");
    await close();
    await host.close();
  });
});

describe("moisture of several specimens", () => {
  it("is their mean on the basis that was said, which is proposed the next time", { timeout: 120_000 }, async () => {
    const host = await startHost();
    const { page, close } = await openPage(browser, host);
    await beginRun(page);
    await page.keyboard.press("Alt+p");
    const panel = page.getByRole("region", { name: "Moisture of several specimens" });
    expect(await panel.getByRole("radio", { name: /basis/, checked: true }).count()).toBe(0);
    await panel.getByRole("radio", { name: /^dry basis/ }).check();
    await panel.getByLabel("Specimen 1, %").focus();
    for (const key of ["1", "2", ",", "5", "Enter", "1", "4", "Enter"]) await page.keyboard.press(key);
    await panel.getByLabel("Specimen 3, %").waitFor();
    await page.keyboard.press("Enter");
    await page.getByText("mean of meter: 12.5; 14 %").waitFor();
    // The mean of 12.5 and 14.
    expect(await page.getByLabel("Moisture of the wood, %").inputValue()).toBe("13.25");
    const basis = page.getByLabel("Basis of the moisture");
    expect(await basis.inputValue()).toBe("other");
    await expect.poll(() => focusedKey(page)).toBe("cold-start.pot1_empty_g");
    await page.keyboard.press("Alt+p");
    expect(await panel.getByRole("radio", { name: /^dry basis/ }).isChecked()).toBe(true);
    await page.keyboard.press("Escape");
    // Read on the other basis after all: the same number, in the other column.
    await basis.selectOption("here");
    await expect.poll(() => basis.inputValue()).toBe("here");
    await expect.poll(() => page.getByLabel("Moisture of the wood, %").inputValue()).toBe("13.25");
    await close();
    await host.close();
  });
});

describe("another run", () => {
  it("is one link away; further fuel that was asked for in one is not in the next", { timeout: 120_000 }, async () => {
    const host = await startHost();
    const { page, close } = await openPage(browser, host);
    await beginRun(page);
    await toStep(page, "Weigh for the cold start");
    await expect.poll(() => focusedKey(page)).toBe("cold-start.pot1_start_g");
    await page.keyboard.press("Alt+w");
    await expect.poll(() => focusedKey(page)).toBe("cold-start.fuel2");
    await page.getByRole("link", { name: "Another run" }).click();
    await page.getByRole("button", { name: "Go on with run R26" }).waitFor();
    await page.getByRole("button", { name: "Begin the run" }).click();
    await page.getByText("Run R27").first().waitFor();
    await toStep(page, "Weigh for the cold start");
    await expect.poll(() => focusedKey(page)).toBe("cold-start.pot1_start_g");
    expect(await page.getByLabel(/^Wood to burn/).count()).toBe(1);
    // What a result waits for is said in one line, also at this width.
    await page.getByLabel("Pot with water, g").fill("5612");
    await page.keyboard.press("Enter");
    const waits = page.getByRole("cell", { name: "after the char" }).first();
    await waits.waitFor();
    const lines = await waits.evaluate(
      (cell) => cell.scrollHeight / Number.parseFloat(getComputedStyle(cell).lineHeight),
    );
    expect(lines).toBeLessThan(2);
    await close();
    await host.close();
  });
});
