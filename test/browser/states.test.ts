import { readFileSync, rmSync, truncateSync, writeFileSync } from "node:fs";
import { basename } from "node:path";
import AxeBuilder from "@axe-core/playwright";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Door, ReplyValues, Request } from "../../app/contract/index.ts";
import { ownDoor, ownFolders } from "../build/own-door.ts";
import { launchBrowser, openPage, startHost } from "./harness.ts";
import { cellText, goodFile, openRuns } from "./steps.ts";

/** Studies that are empty, gone, damaged, or named by somebody who means harm: real files, as a person meets them. */

let browser: Browser;

beforeAll(async () => {
  browser = await launchBrowser();
});

afterAll(async () => {
  await browser?.close();
});

const hostileName = `<img src=x onerror=alert(1)> "quoted" \u202Eesrever ${"long name without an end ".repeat(12)}${"W".repeat(300)}`;

type Kind = keyof ReplyValues;

async function asked<K extends Kind>(door: Door, message: Extract<Request, { kind: K }>): Promise<ReplyValues[K]> {
  const reply = await door.ask(message);
  if (!reply.ok) throw new Error(reply.message);
  return reply.value as ReplyValues[K];
}

/** Five studies with a backup each: one is cut to nothing, one deleted, one has a letter changed, one is empty, one has a hostile name. */
async function studies(): Promise<{ folders: ReturnType<typeof ownFolders>; gone: string }> {
  const folders = ownFolders();
  const { door } = ownDoor(folders.folders);
  const readings = { name: basename(goodFile), contentBase64: readFileSync(goodFile).toString("base64") };
  const take = async (studyName: string) => {
    const { importId } = await asked(door, { kind: "import.check", readings, settings: null });
    const into = { kind: "new", studyName } as const;
    const study = await asked(door, { kind: "import.accept", importId, into, who: "Ama" });
    await asked(door, { kind: "backups.make", study: study.study });
    return study;
  };
  const cut = await take("Cut to nothing");
  const gone = await take("Gone with its stick");
  const changed = await take("A letter changed");
  await take(hostileName);
  await asked(door, { kind: "study.create", name: "Empty so far", method: "iso", who: "Ama" });
  await door.close();
  truncateSync(cut.file, 0);
  rmSync(gone.file);
  const bytes = readFileSync(changed.file);
  bytes[bytes.lastIndexOf("eucalyptus")] = "E".charCodeAt(0);
  writeFileSync(changed.file, bytes);
  return { folders, gone: gone.study };
}

/** axe finds nothing, and nothing sticks out of a narrow window or a wide one. */
async function check(page: Page, what: string): Promise<void> {
  const { violations } = await new AxeBuilder({ page }).analyze();
  const told = violations.map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.html).join(" | ")}`);
  expect(told, what).toEqual([]);
  for (const width of [390, 1280]) {
    await page.setViewportSize({ width, height: 900 });
    const tooWide = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
    expect(tooWide, `${what} is wider than a window of ${width} pixels`).toBeLessThanOrEqual(0);
  }
}

describe("studies that something is wrong with", () => {
  it("each leads on: to its backups as studies of their own, or to a first reading", { timeout: 120_000 }, async () => {
    const { folders, gone } = await studies();
    const service = ownDoor(folders.folders);
    const host = await startHost({ door: service.door });
    const { page, close } = await openPage(browser, host, { colorScheme: "dark" });
    await page.getByText("Nothing has been recorded in this study yet.").waitFor();

    await page.keyboard.press("Control+o");
    await page.getByLabel("Name for the record").fill("Ama");
    await page.getByText("It is not there any more.").waitFor();
    await page.getByRole("button", { name: "Open “Cut to nothing”" }).click();
    const entry = page
      .getByRole("listitem")
      .filter({ has: page.getByRole("button", { name: "Open “Cut to nothing”" }) });
    await entry.getByText(/is empty: it has no bytes in it/).waitFor();
    await entry
      .getByText(/25 runs, \d+ changes?/)
      .first()
      .waitFor();
    await check(page, "studies that cannot be opened");

    await entry
      .getByRole("button", { name: /^Open as a study of its own/ })
      .first()
      .click();
    await page.getByText(/“Cut to nothing”, as it was on .*, is now open as a study of its own/).waitFor();
    await page.getByRole("heading", { level: 1, name: "Cut to nothing" }).waitFor();
    await openRuns(page);
    expect(await cellText(page, "3:8")).toBe("834");

    await page.evaluate((study) => location.assign(`#/compare?study=${study}`), gone);
    await page.getByText("This study is not open.").waitFor();
    await page
      .getByRole("button", { name: /^Open as a study of its own/ })
      .first()
      .waitFor();
    await check(page, "a study that is not open");

    await page.keyboard.press("Control+o");
    await page.getByRole("button", { name: "Open “A letter changed”" }).click();
    await page.getByText("This study cannot be changed now.").waitFor();
    await page.getByText(/This file is damaged/).waitFor();
    await openRuns(page);
    await page.getByRole("button", { name: "Go to its backups" }).click();
    await expect.poll(() => page.evaluate(() => document.activeElement?.textContent)).toBe("Backups");
    const backup = page.getByRole("button", { name: /^Open as a study of its own/ });
    await backup.first().waitFor();
    await check(page, "a damaged study");
    await backup.first().click();
    await page.getByText(/is now open as a study of its own/).waitFor();
    await expect.poll(() => page.getByText("This study cannot be changed now.").count()).toBe(0);

    await page.keyboard.press("Control+o");
    await page.getByRole("button", { name: /^Open “<img/ }).click();
    await page.getByRole("heading", { level: 1, name: /^<img/ }).waitFor();
    await check(page, "a hostile name");
    await close();
    await host.close();
    await service.close();
    folders.remove();
  });
});
