import { type ChildProcess, execFileSync, spawn } from "node:child_process";
import { once } from "node:events";
import { copyFileSync, mkdirSync, mkdtempSync, renameSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { createInterface } from "node:readline";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { UserFolders } from "../../app/service/index.ts";
import { ownDoor } from "../build/own-door.ts";
import { fillDrive, mountDrive } from "../store/file/drive.ts";
import { atEnd } from "../store/file/support.ts";
import { launchBrowser, type OpenedPage, openPage, startHost } from "./harness.ts";
import { cellText, change, nameWriter, openRuns, tab } from "./steps.ts";

/** What becomes of a change where the disk is full, the drive is pulled out, or another program is at the file: all of it real. */

let browser: Browser;

beforeAll(async () => {
  browser = await launchBrowser();
});

afterAll(async () => {
  await browser?.close();
});

const cell = "3:8";
const field = (page: Page) => page.getByLabel("R02, cold start, fuel after, g");

function newFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), "boilbench-drive-"));
  atEnd(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

const foldersIn = (folder: string): UserFolders => ({ studies: join(folder, "studies"), data: join(folder, "data") });

/** The host on these folders, and a page on its example with one change made: from 834 to 820. */
async function changedOnce(folders: UserFolders): Promise<OpenedPage> {
  const service = ownDoor(folders);
  const host = await startHost({ door: service.door });
  atEnd(() => service.close());
  atEnd(() => host.close());
  const opened = await openPage(browser, host);
  atEnd(() => opened.page.context().close());
  const { page } = opened;
  await openRuns(page);
  await change(page, cell, "820");
  await nameWriter(page, "Ama");
  await expect.poll(() => cellText(page, cell)).toBe("820");
  // The cell shows it before it is on disk.
  await page.getByText(/^Saved: .*became “820”/).waitFor();
  return opened;
}

/** The sentence is there, and so is what was typed. */
async function expectRefused(page: Page, sentence: RegExp, typed: string): Promise<void> {
  await page.getByRole("alert").getByText(sentence).waitFor();
  await expect.poll(() => field(page).inputValue()).toBe(typed);
}

/** Presses Enter in the field that still holds what was typed, and looks at it again after a reload. */
async function saveOnceMore(page: Page, typed: string): Promise<void> {
  await field(page).press("Enter");
  await expect.poll(() => cellText(page, cell)).toBe(typed);
  await page.reload();
  await expect.poll(() => cellText(page, cell)).toBe(typed);
  await page.locator(`[data-place="${cell}"]`).focus();
  const history = page.getByRole("region", { name: "History of this cell" });
  await history.getByText(`820 → ${typed}`).waitFor();
  await history.getByText("834 → 820").waitFor();
}

describe("a change that the disk does not take", { timeout: 40_000 }, () => {
  it("the disk is full: the sentence says so, what was typed stays and is saved once there is room", async () => {
    const drive = mountDrive(newFolder(), 4_000_000);
    if (drive === null) return;
    const { page, errors } = await changedOnce(foldersIn(drive));
    const free = fillDrive(drive, 0);
    await change(page, cell, "811");
    await expectRefused(
      page,
      /The disk is full, so this was not saved.*Make room on the disk and save once more/,
      "811",
    );

    // Neither another page nor a reload loses it.
    await tab(page, "Compare");
    await tab(page, "Runs");
    await page.reload();
    await page.getByRole("region", { name: "Not saved yet" }).getByRole("button", { name: "Go to it" }).click();
    await expect.poll(() => field(page).inputValue()).toBe("811");

    free();
    await saveOnceMore(page, "811");
    expect(errors).toEqual([]);
  });

  it("the drive was pulled out: the same, and it is saved once the drive is back", async () => {
    const folder = newFolder();
    const drive = mountDrive(folder, 4_000_000);
    if (drive === null) return;
    const socket = join(folder, "plugged");
    mkdirSync(socket);
    const plugIn = () => execFileSync("mount", ["--bind", drive, socket]);
    const pullOut = () => execFileSync("umount", ["-l", socket]);
    plugIn();
    let isIn = true;
    atEnd(() => isIn && pullOut());
    const { page, errors } = await changedOnce(foldersIn(socket));
    pullOut();
    isIn = false;
    await change(page, cell, "812");
    await expectRefused(page, /no longer there: its drive was taken out.*Put it back/, "812");
    plugIn();
    isIn = true;
    await saveOnceMore(page, "812");
    expect(errors).toEqual([]);
  });

  it("another program replaced the file: nothing is written over, and what was typed is there when it is opened again", async () => {
    const folders = foldersIn(newFolder());
    const { page, errors } = await changedOnce(folders);
    await tab(page, "Study");
    const file = (await page.locator(".study-file bdi").first().textContent()) ?? "";
    copyFileSync(file, `${file}.other`);
    renameSync(`${file}.other`, file);
    await openRuns(page);
    await change(page, cell, "813");
    await expectRefused(page, /changed or replaced by another program.*Open the study again/, "813");

    await page.keyboard.press("Control+o");
    await page
      .getByRole("button", { name: /^Open “/ })
      .first()
      .click();
    await page.waitForURL(/#\/study/);
    await openRuns(page);
    await page.getByRole("region", { name: "Not saved yet" }).getByRole("button", { name: "Go to it" }).click();
    await expect.poll(() => field(page).inputValue()).toBe("813");
    await saveOnceMore(page, "813");
    expect(errors).toEqual([]);
  });
});

/** Another program of the same user, with its own page. */
async function otherProgram({ studies, data }: UserFolders): Promise<{ child: ChildProcess; address: string }> {
  const script = join(import.meta.dirname, "other-host.ts");
  const child = spawn(process.execPath, ["--disable-warning=ExperimentalWarning", script, studies, data], {
    stdio: ["ignore", "pipe", "inherit"],
  });
  atEnd(() => child.kill("SIGKILL"));
  const lines = createInterface({ input: child.stdout });
  const [address] = (await once(lines, "line")) as [string];
  return { child, address };
}

describe("two programs on one study", { timeout: 40_000 }, () => {
  it("the second reads, says who holds it, follows the first, and writes after the first was killed", async () => {
    const folders = foldersIn(newFolder());
    const { child, address } = await otherProgram(folders);
    const context = await browser.newContext({ viewport: { width: 1280, height: 860 }, locale: "en-GB" });
    atEnd(() => context.close());
    const first = await context.newPage();
    await first.goto(address);
    await first.getByRole("button", { name: "writing: nobody named yet" }).click();
    await nameWriter(first, "Kofi");
    await openRuns(first);
    await change(first, cell, "821");
    await expect.poll(() => cellText(first, cell)).toBe("821");
    // A program that knows its writer's name says so to others when it opens a study.
    await first.keyboard.press("Control+o");
    await first.getByRole("button", { name: "Open the example" }).click();
    await first.getByText("The example is open.").waitFor();
    await openRuns(first);
    await change(first, cell, "820");
    await expect.poll(() => cellText(first, cell)).toBe("820");

    const service = ownDoor(folders);
    const host = await startHost({ door: service.door });
    atEnd(() => service.close());
    atEnd(() => host.close());
    const { page: second, errors } = await openPage(browser, host);
    atEnd(() => second.context().close());
    await second.getByText("This study cannot be changed now.").waitFor();
    await second.getByText(/Kofi has this study open in another program/).waitFor();
    expect(await second.getByRole("button", { name: "Rename" }).count()).toBe(0);
    await openRuns(second);
    await second.locator(`[data-place="${cell}"]`).focus();
    await second.keyboard.press("Enter");
    expect(await field(second).count()).toBe(0);
    expect(await second.getByRole("button", { name: "Leave this run out" }).count()).toBe(0);

    await change(first, cell, "815");
    await expect.poll(() => cellText(second, cell), { timeout: 5_000 }).toBe("815");

    const ended = once(child, "exit");
    child.kill("SIGKILL");
    await ended;
    await second.getByRole("button", { name: "Open it anew" }).click();
    await second.getByText("It can be changed now.").waitFor();
    expect(await second.getByText("This study cannot be changed now.").count()).toBe(0);
    await change(second, cell, "816");
    await nameWriter(second, "Ama");
    await expect.poll(() => cellText(second, cell)).toBe("816");
    // Enter goes on to the cell below.
    await second.locator(`[data-place="${cell}"]`).focus();
    const history = second.getByRole("region", { name: "History of this cell" });
    await history.getByText("820 → 815").waitFor();
    // The history is asked for again once the change is on disk, which the cell shows before.
    await history.getByText("815 → 816").waitFor();
    expect(await history.getByRole("listitem").first().textContent()).toContain("815 → 816");
    expect(errors).toEqual([]);
  });
});
