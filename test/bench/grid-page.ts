/**
 * One part of the benchmark of large study files: the page of Runs in Chromium, over the real host. `FOLDER` has a study as
 * `study-file.ts make` makes it. Scrolls, types, sorts, finds, pastes; prints for each the longest task of the page's own thread, as the browser
 * itself measures it (Long Tasks: those of 50 ms and more), as a line of JSON.
 */
import { join } from "node:path";
import type { Page } from "playwright-core";
import type { ReplyValues, Request } from "../../app/contract/index.ts";
import { createDoor } from "../../app/service/index.ts";
import { launchBrowser, openPage, startHost } from "../browser/harness.ts";

const [folder = ""] = process.argv.slice(2);
const door = createDoor({ folders: { studies: join(folder, "studies"), data: join(folder, "data") } });

const say = (name: string, value: number) => console.log(JSON.stringify({ name, value, unit: "ms" }));

async function ask<K extends Request["kind"]>(message: Extract<Request, { kind: K }>): Promise<ReplyValues[K]> {
  const reply = await door.ask(message);
  if (!reply.ok) throw new Error(reply.message);
  return reply.value as ReplyValues[K];
}

/** Every task is told from now on; those under 50 ms are not told by the browser, and count as 0. */
async function watchTasks(page: Page): Promise<void> {
  await page.evaluate(() => {
    const watched = window as unknown as { tasks: number[] };
    watched.tasks = [];
    new PerformanceObserver((list) => {
      for (const entry of list.getEntries()) watched.tasks.push(entry.duration);
    }).observe({ type: "longtask" });
  });
}

async function longest(page: Page, name: string, work: () => Promise<void>): Promise<void> {
  await page.waitForTimeout(1_000);
  await page.evaluate(() => {
    (window as unknown as { tasks: number[] }).tasks = [];
  });
  const start = performance.now();
  await work();
  const time = performance.now() - start;
  await page.waitForTimeout(1_000);
  const tasks = await page.evaluate(() => (window as unknown as { tasks: number[] }).tasks);
  say(`${name}: longest task of the page (0: none of 50 ms)`, Math.max(0, ...tasks));
  say("  it took", time);
}

const browser = await launchBrowser();
const host = await startHost({ door });
const { page, errors } = await openPage(browser, host, { viewport: { width: 1440, height: 900 } });
try {
  const { studies } = await ask<"shelf.show">({ kind: "shelf.show" });
  const { study } = await ask<"study.open">({ kind: "study.open", place: studies[0]?.place ?? "" });
  // Whoever writes is named beforehand: no dialog stands between the cells.
  await page.evaluate(() => sessionStorage.setItem("boilbench.who", "bench"));
  const start = performance.now();
  await page.evaluate((handle) => location.assign(`#/runs?study=${handle}`), study);
  await page.locator('[data-place="0:0"]').waitFor({ timeout: 120_000 });
  say("until the first rows are there", performance.now() - start);
  for (let waits = 0; waits < 600; waits += 1) {
    if ((await ask<"study.state">({ kind: "study.state", study })).looking === null) break;
    await page.waitForTimeout(200);
  }
  await page.waitForTimeout(3_000);
  await watchTasks(page);
  const frame = page.locator(".grid-frame");
  const box = (await frame.boundingBox()) ?? { x: 0, y: 0, width: 0, height: 0 };
  await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);

  await longest(page, "scrolling down by wheel, 60 times", async () => {
    for (let turn = 0; turn < 60; turn += 1) {
      await page.mouse.wheel(0, 400);
      await page.waitForTimeout(16);
    }
  });
  await longest(page, "dragging the scroll bar through all rows", async () => {
    await frame.evaluate(async (element) => {
      for (let step = 0; step <= 120; step += 1) {
        element.scrollTop = ((element.scrollHeight - element.clientHeight) * step) / 120;
        await new Promise((done) => requestAnimationFrame(done));
      }
    });
  });
  await longest(page, "scrolling sideways and back", async () => {
    await frame.evaluate(async (element) => {
      for (let step = 0; step <= 120; step += 1) {
        element.scrollLeft = Math.abs(60 - step) * 40;
        await new Promise((done) => requestAnimationFrame(done));
      }
    });
  });
  await page.keyboard.press("Escape");
  await frame.evaluate((element) => {
    element.scrollTop = 0;
    element.scrollLeft = 0;
  });
  await page.waitForTimeout(500);
  await page.locator('[data-place="4:6"]').click();
  await longest(page, "walking 40 rows down and 12 columns to the right by keyboard", async () => {
    for (let step = 0; step < 40; step += 1) await page.keyboard.press("ArrowDown");
    for (let step = 0; step < 12; step += 1) await page.keyboard.press("ArrowRight");
    for (let step = 0; step < 12; step += 1) await page.keyboard.press("ArrowLeft");
  });
  await longest(page, "a page down 20 times, to the end and back", async () => {
    for (let step = 0; step < 20; step += 1) await page.keyboard.press("PageDown");
    await page.keyboard.press("Control+End");
    await page.waitForTimeout(500);
    await page.keyboard.press("Control+Home");
  });
  await page.locator('[data-place="4:8"]').click();
  await longest(page, "typing into 10 cells", async () => {
    for (let cell = 0; cell < 10; cell += 1) {
      await page.keyboard.type(`${600 + cell}`);
      await page.keyboard.press("Enter");
    }
  });
  await longest(page, "sorting by a heading, both ways, and as it was", async () => {
    const heading = page.getByRole("columnheader", { name: "fuel after, g" });
    for (let click = 0; click < 3; click += 1) {
      await heading.click();
      await page.waitForTimeout(2_000);
    }
  });
  await longest(page, "finding a text letter by letter", async () => {
    await page.getByLabel("Find").pressSequentially("N77", { delay: 60 });
    await page.waitForTimeout(3_000);
    await page.getByLabel("Find").fill("");
    await page.waitForTimeout(2_000);
  });
  await longest(page, "choosing all rows by keyboard", async () => {
    await page.locator('[data-place="2:3"]').click();
    await page.keyboard.press("Control+a");
  });
  if (errors.length > 0) throw new Error(errors.join("\n"));
} finally {
  await browser.close();
  await host.close();
  await door.close();
}
