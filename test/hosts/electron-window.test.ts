import { type ChildProcess, execFileSync, spawn } from "node:child_process";
import { mkdtempSync, readdirSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { _electron, type ElectronApplication, type Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { findRuntime, hasDisplay } from "../../app/desktop-runtime.ts";
import { planStart } from "../../app/start-plan.ts";
import { wordsFor } from "../../core/index.ts";
import { ownDoor } from "../build/own-door.ts";
import { onPath } from "../tools.ts";

// The desktop window itself, wherever Electron's runtime is present. It is looked for by its file: importing the package would fetch it.

const project = join(import.meta.dirname, "..", "..");
const runtime = findRuntime();
const virtualDisplay = hasDisplay(process.platform, process.env) ? null : onPath(["Xvfb"]);
const canOpen = runtime !== null && (hasDisplay(process.platform, process.env) || virtualDisplay !== null);

if (!canOpen) {
  it("cannot open the desktop window on this machine, and says so", () => {
    console.warn(wordsFor("en").hosts.tests.noElectron);
    // And the program opens the browser there, once the runtime could not be fetched.
    const facts = { browserWanted: false, failedLately: true, retryWanted: false };
    const display = hasDisplay(process.platform, process.env);
    expect(planStart({ ...facts, display, runtimePresent: runtime !== null }).open).toBe("browser");
  });
} else {
  describe("the desktop window", () => {
    let display: ChildProcess | null = null;
    let application: ElectronApplication;
    let page: Page;
    const errors: string[] = [];
    const profile = mkdtempSync(join(tmpdir(), "boilbench-window-"));
    const folders = { studies: join(profile, "studies"), data: join(profile, "data") };
    const switches = [
      // Chromium's own sandbox cannot be used by root.
      ...(process.getuid?.() === 0 ? ["--no-sandbox"] : []),
      `--user-data-dir=${profile}`,
    ];
    let environment: Record<string, string>;

    beforeAll(async () => {
      execFileSync(process.execPath, ["app/build.ts", "--if-stale"], { cwd: project });
      environment = Object.fromEntries(
        Object.entries(process.env).filter((pair): pair is [string, string] => pair[1] !== undefined),
      );
      delete environment.ELECTRON_RUN_AS_NODE;
      environment.BOILBENCH_STUDIES_FOLDER = folders.studies;
      environment.BOILBENCH_DATA_FOLDER = folders.data;
      if (virtualDisplay !== null) {
        const server = spawn(virtualDisplay, ["-displayfd", "1", "-screen", "0", "1400x1000x24", "-nolisten", "tcp"], {
          stdio: ["ignore", "pipe", "ignore"],
        });
        display = server;
        environment.DISPLAY = await new Promise<string>((done, fail) => {
          server.stdout.once("data", (chunk) => done(`:${String(chunk).trim()}`));
          server.once("exit", () => fail(new Error("the virtual display ended at once")));
        });
      }
      application = await _electron.launch({
        executablePath: runtime ?? "",
        args: [...switches, project],
        env: environment,
      });
      page = await application.firstWindow();
      page.on("console", (message) => {
        if (message.type() === "error") errors.push(message.text());
      });
      page.on("pageerror", (error) => errors.push(String(error)));
      await page.waitForLoadState("load");
    });
    afterAll(async () => {
      await application?.close();
      display?.kill();
      rmSync(profile, { recursive: true, force: true });
    });

    it("shows the page by its own scheme, and reports no error", async () => {
      expect(page.url()).toMatch(/^boilbench:\/\/app\//);
      expect(await page.title()).toContain("Boilbench");
      expect(errors).toEqual([]);
    });

    it("gives the page one function and nothing of Node", async () => {
      const seen = await page.evaluate(() => ({
        bridge: Object.keys((window as unknown as { boilbench: object }).boilbench),
        node: ["require", "process", "module", "Buffer", "global"].filter((name) => name in window),
      }));
      expect(seen).toEqual({ bridge: ["ask"], node: [] });
    });

    it("answers the page from the service's own process", async () => {
      const ask = (message: unknown) =>
        page.evaluate(
          (sent) => (window as unknown as { boilbench: { ask(m: unknown): Promise<unknown> } }).boilbench.ask(sent),
          message,
        );
      expect(await ask({ kind: "study.show", study: null })).toMatchObject({ ok: true, value: { isExample: true } });
      expect(await ask({ kind: "no such thing" })).toMatchObject({ ok: false, reason: "refused" });
    });

    it("goes nowhere else, opens no window, and is given no permission", async () => {
      const tried = await page.evaluate(async () => ({
        opened: window.open("https://elsewhere.example/") !== null,
        file: await fetch("file:///etc/passwd").then(
          () => true,
          () => false,
        ),
        outside: await fetch("/../package.json").then((response) => response.ok),
        place: await navigator.permissions.query({ name: "geolocation" }).then((status) => status.state),
      }));
      expect(tried).toEqual({ opened: false, file: false, outside: false, place: "denied" });
      await page.evaluate(() => {
        location.href = "https://elsewhere.example/";
      });
      await page.waitForTimeout(500);
      expect(page.url()).toMatch(/^boilbench:\/\/app\//);
      expect(application.windows()).toHaveLength(1);
    });

    it("is the only one: a second start ends and leaves the first", async () => {
      const second = spawn(runtime ?? "", [...switches, project], { env: environment, stdio: "ignore" });
      expect(await new Promise((done) => second.on("exit", done))).toBe(0);
      expect(application.windows()).toHaveLength(1);
    });

    it("opens a study that a second start names in a window of its own, as restricted as the first", async () => {
      const { door, close } = ownDoor(folders);
      const made = await door.ask({ kind: "study.create", name: "Low skirt", method: "wbt", who: "Ann" });
      expect(made).toMatchObject({ ok: true });
      await close();
      const file = readdirSync(folders.studies).find((one) => one.startsWith("Low skirt")) ?? "";
      const opened = application.waitForEvent("window");
      spawn(runtime ?? "", [...switches, project, join(folders.studies, file)], { env: environment, stdio: "ignore" });
      const other = await opened;
      await other.waitForLoadState("load");
      expect(other.url()).toMatch(/^boilbench:\/\/app\/#\/study\?study=[A-Za-z0-9_-]+/);
      await other.getByText("Low skirt").first().waitFor();
      const seen = await other.evaluate(() => ({
        bridge: Object.keys((window as unknown as { boilbench: object }).boilbench),
        node: ["require", "process", "module", "Buffer", "global"].filter((name) => name in window),
        opened: window.open("https://elsewhere.example/") !== null,
      }));
      expect(seen).toEqual({ bridge: ["ask"], node: [], opened: false });
      await other.close();
    });
  });
}
