import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { beginRun, expectAccessible, focusedKey, toStep } from "./bench-steps.ts";
import { launchBrowser, openPage, startHost } from "./harness.ts";

/** Stamps and the run clock in the real browser. The page's own clock may be wrong or asleep: the service's counts. */

let browser: Browser;

beforeAll(async () => {
  browser = await launchBrowser();
});

afterAll(async () => {
  await browser?.close();
});

const timer = (page: Page) => page.getByRole("timer");
/** Seconds that a clock such as "1:02:03" or "over by 0:04" shows. */
const secondsOf = (text: string) =>
  (/[\d:]+/.exec(text)?.[0] ?? "").split(":").reduce((sum, part) => sum * 60 + Number(part), 0);
const two = (n: number) => String(n).padStart(2, "0");
const dayOf = (at: Date) => `${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())}`;
const timeOf = (at: Date) => `${two(at.getHours())}:${two(at.getMinutes())}:${two(at.getSeconds())}`;

/** Counts the tones of the cue as each has sounded, by the browser's own sound. */
const countTones = () => {
  const tones = { count: 0 };
  Object.assign(window, { tones });
  const silenced = new WeakSet<AudioNode>();
  const create = AudioContext.prototype.createOscillator;
  AudioContext.prototype.createOscillator = function (this: AudioContext) {
    const tone = create.call(this);
    tone.addEventListener("ended", () => {
      if (!silenced.has(tone)) tones.count += 1;
    });
    return tone;
  };
  const disconnect: () => void = AudioNode.prototype.disconnect;
  AudioNode.prototype.disconnect = function (this: AudioNode) {
    silenced.add(this);
    disconnect.call(this);
  };
};
const tonesOf = (page: Page) => page.evaluate(() => (window as unknown as { tones: { count: number } }).tones.count);

/** A run whose simmer began so many seconds ago, as typed. */
async function simmering(page: Page, secondsAgo: number): Promise<void> {
  await beginRun(page);
  const began = new Date(Date.now() - secondsAgo * 1_000);
  await page.getByRole("button", { name: /^More fields/ }).click();
  await page.getByLabel("Date", { exact: true }).fill(dayOf(began));
  await page.keyboard.press("Enter");
  await toStep(page, "Simmer, 45 minutes");
  await page.getByLabel("Begun at").fill(timeOf(began));
  await page.keyboard.press("Enter");
  await timer(page).waitFor();
}

describe("a moment", () => {
  it("is stamped with Enter in its empty field, once for two presses, and starts the clock", {
    timeout: 120_000,
  }, async () => {
    const host = await startHost();
    const { page, close } = await openPage(browser, host);
    await beginRun(page);
    await toStep(page, "Light it, cold stove");
    await expect.poll(() => focusedKey(page)).toBe("cold-start.start");
    const before = new Date();
    await page.keyboard.press("Enter");
    await page.keyboard.press("Enter");
    await expect.poll(() => focusedKey(page)).toBe("cold-start.end");
    await timer(page).waitFor();
    expect(await page.getByLabel("Boiled at").inputValue()).toBe("");
    await page.getByText("since it was lit").waitFor();
    await expect.poll(async () => secondsOf((await timer(page).textContent()) ?? "")).toBeGreaterThanOrEqual(2);
    await toStep(page, "Light it, cold stove");
    const stamped = secondsOf(await page.getByLabel("Lit at").inputValue());
    const midnight = new Date(before).setHours(0, 0, 0, 0);
    const late = stamped - (before.getTime() - midnight) / 1_000;
    expect(Math.abs(late)).toBeLessThan(5);
    // The button stands for the key.
    await toStep(page, "Water boils");
    await page.getByRole("button", { name: "Boiled now" }).click();
    await page.getByText("since the water boiled").waitFor();
    await expect.poll(() => focusedKey(page)).toBe("cold-start.pot1_end_C");
    await close();
    await host.close();
  });
});

describe("the clock", () => {
  it("is right again after the page slept, whatever the page's own clock says", { timeout: 120_000 }, async () => {
    const host = await startHost();
    const { page, close } = await openPage(browser, host);
    await page.clock.install();
    await beginRun(page);
    await toStep(page, "Light it, cold stove");
    await expect.poll(() => focusedKey(page)).toBe("cold-start.start");
    await page.keyboard.press("Enter");
    await timer(page).waitFor();
    // For the page an hour went by; for the service seconds.
    await page.clock.fastForward("01:00:00");
    await page.clock.resume();
    await expect.poll(async () => secondsOf((await timer(page).textContent()) ?? "")).toBeLessThan(60);
    await page.evaluate(() => document.dispatchEvent(new Event("visibilitychange")));
    await expect.poll(async () => secondsOf((await timer(page).textContent()) ?? "")).toBeLessThan(60);
    await close();
    await host.close();
  });

  it("tells that two minutes are left, sounds as they are over, and then how long it is over", {
    timeout: 90_000,
  }, async () => {
    const host = await startHost();
    const { page, close } = await openPage(browser, host);
    await page.context().addInitScript(countTones);
    // It has been let in.
    await page.getByRole("heading", { level: 1 }).waitFor();
    await page.reload();
    await simmering(page, 45 * 60 - 20);
    await page.getByText("until 45 minutes are over").waitFor();
    await page.getByText("Two minutes left: have balance and container ready.").waitFor();
    expect(await tonesOf(page)).toBe(0);
    await page.getByText("Time is up", { exact: true }).waitFor({ timeout: 40_000 });
    await page.getByRole("alert").getByText("Time is up: until 45 minutes are over").waitFor({ state: "attached" });
    await expect.poll(() => tonesOf(page)).toBe(6);
    expect(await page.title()).toMatch(/^Time is up: /);
    await expectAccessible(page, "time is up");
    if (process.env.BENCH_PICTURES) await page.screenshot({ path: `${process.env.BENCH_PICTURES}/over.png` });
    await expect.poll(() => timer(page).textContent()).toMatch(/^over by 0:(0[2-9]|[1-5]\d)/);
    expect(await tonesOf(page)).toBe(6);
    await page.getByRole("button", { name: "Try the sound" }).click();
    await expect.poll(() => tonesOf(page), { timeout: 5_000 }).toBe(12);
    await page.getByLabel("Sound on").uncheck();
    await page.getByText("The sound is off on this machine.").waitFor();
    await page.reload();
    await timer(page).waitFor();
    expect(await page.getByLabel("Sound on").isChecked()).toBe(false);
    expect(await tonesOf(page)).toBe(0);
    await expect.poll(() => page.title()).toMatch(/^Time is up: Bench/);
    await close();
    await host.close();
  });

  it("sounds in time where the page's timers stand still, and on another page", {
    timeout: 90_000,
  }, async () => {
    const host = await startHost();
    const { page, close } = await openPage(browser, host);
    await page.context().addInitScript(countTones);
    // It has been let in.
    await page.getByRole("heading", { level: 1 }).waitFor();
    await page.reload();
    await simmering(page, 45 * 60 - 20);
    await page.getByText("until 45 minutes are over").waitFor();
    await page.getByRole("navigation").getByRole("link", { name: "Runs", exact: true }).click();
    await page.locator('[data-place="0:0"]').waitFor();
    // As in a window that is out of sight: nothing of the page's own is woken any more.
    await page.evaluate(() => {
      const last = Number(setTimeout(() => {}));
      for (let timer = 1; timer <= last; timer += 1) clearTimeout(timer);
    });
    expect(await tonesOf(page)).toBe(0);
    await expect.poll(() => tonesOf(page), { timeout: 40_000 }).toBe(6);
    await close();
    await host.close();
  });
});
