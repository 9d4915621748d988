import { execFile } from "node:child_process";
import { join } from "node:path";
import { promisify } from "node:util";
import { type Browser, type BrowserContextOptions, chromium, type Page } from "playwright-core";
import type { Door } from "../../app/contract/index.ts";
import { type BuiltPage, readBuiltPage } from "../../app/host/built-page.ts";
import { type Listener, startListener } from "../../app/server/index.ts";
import { wordsFor } from "../../core/index.ts";
import { findChromium } from "../tools.ts";

/** Tests in a real browser, against the real host on this machine: nothing between them is stood in for. */

const project = join(import.meta.dirname, "..", "..");

/** Starts the Chromium that `npm test` found. Fails, and is not passed over, where there is none. */
export async function launchBrowser(moreArguments: readonly string[] = []): Promise<Browser> {
  const executablePath = findChromium();
  if (executablePath === null) throw new Error(wordsFor("en").hosts.tests.noBrowser);
  return chromium.launch({
    executablePath,
    args: [
      // Chromium's own sandbox cannot be used by root.
      ...(process.getuid?.() === 0 ? ["--no-sandbox"] : []),
      "--disable-quic",
      "--no-first-run",
      "--disable-background-networking",
      "--disable-component-update",
      "--disable-sync",
      ...moreArguments,
    ],
  });
}

let built: Promise<BuiltPage> | null = null;

/** The page as it is shipped, built where its sources have changed: at most once for all files of tests that run together. */
export function builtPage(): Promise<BuiltPage> {
  built ??= promisify(execFile)(process.execPath, [join(project, "app", "build.ts"), "--page", "--if-stale"], {
    cwd: project,
  }).then(
    () => readBuiltPage(join(project, "dist", "page")),
    (error: { stderr?: string; message: string }) => {
      throw new Error(error.stderr || error.message);
    },
  );
  return built;
}

/** The host with the real service, on the example study, and the built page; tests of the host itself bring their own. */
export async function startHost(own: { door?: Door; page?: BuiltPage } = {}): Promise<Listener> {
  const page = own.page ?? (await builtPage());
  if (own.door !== undefined) return startListener({ door: own.door, page });
  const service = (await import("../build/own-door.ts")).ownDoor();
  const listener = await startListener({ door: service.door, page });
  return {
    ...listener,
    async close() {
      await listener.close();
      await service.close();
    },
  };
}

export interface OpenedPage {
  readonly page: Page;
  /** Errors of the console, exceptions and failed requests so far. */
  readonly errors: readonly string[];
  /** Closes the page; throws where there was any error. */
  close(): Promise<void>;
}

/** Opens a fresh browser profile on the host, by an address that works once, as a person would. */
export async function openPage(
  browser: Browser,
  host: Listener,
  options: BrowserContextOptions = {},
): Promise<OpenedPage> {
  const context = await browser.newContext({ viewport: { width: 1280, height: 860 }, locale: "en-GB", ...options });
  const page = await context.newPage();
  const errors: string[] = [];
  page.on("console", (message) => {
    if (message.type() === "error") errors.push(`${message.text()} (${message.location().url})`);
  });
  page.on("pageerror", (error) => errors.push(String(error)));
  page.on("requestfailed", (request) => {
    // A page that is loaded anew or closed drops what it was waiting for.
    if (request.failure()?.errorText === "net::ERR_ABORTED") return;
    errors.push(`${request.url()}: ${request.failure()?.errorText}`);
  });
  await page.goto(host.freshAddress());
  return {
    page,
    errors,
    async close() {
      await context.close();
      if (errors.length > 0) throw new Error(`The page reported errors:\n${errors.join("\n")}`);
    },
  };
}
