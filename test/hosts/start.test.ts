import { type ChildProcess, spawn } from "node:child_process";
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, afterEach, describe, expect, it } from "vitest";
import { wordsFor } from "../../core/index.ts";
import { ownDoor } from "../build/own-door.ts";

// The program as it is started, in its own process, with the real service and the built page.

const words = wordsFor("en").hosts;
const project = join(import.meta.dirname, "..", "..");
const folder = mkdtempSync(join(tmpdir(), "boilbench-start-"));
const folders = { studies: join(folder, "studies"), data: join(folder, "data") };
const children: ChildProcess[] = [];

interface Started {
  readonly child: ChildProcess;
  readonly output: () => string;
  readonly errors: () => string;
  readonly exit: Promise<number | null>;
  /** Resolves with the first match in standard output; fails when the process ends without one. */
  until(pattern: RegExp): Promise<RegExpExecArray>;
}

function start(...options: string[]): Started {
  const { DISPLAY: _display, WAYLAND_DISPLAY: _wayland, NODE_ENV: _mode, ...environment } = process.env;
  const child = spawn(process.execPath, ["app/require-node.cjs", "app/start.ts", ...options], {
    cwd: project,
    env: {
      ...environment,
      BOILBENCH_STATE_FOLDER: folder,
      BOILBENCH_STUDIES_FOLDER: folders.studies,
      BOILBENCH_DATA_FOLDER: folders.data,
      CI: "true",
    },
    stdio: ["ignore", "pipe", "pipe"],
  });
  children.push(child);
  let output = "";
  let errors = "";
  child.stdout.on("data", (chunk) => {
    output += String(chunk);
  });
  child.stderr.on("data", (chunk) => {
    errors += String(chunk);
  });
  const exit = new Promise<number | null>((done) => child.on("exit", done));
  return {
    child,
    output: () => output,
    errors: () => errors,
    exit,
    until: (pattern) =>
      new Promise((done, fail) => {
        const look = () => {
          const found = pattern.exec(output);
          if (found !== null) done(found);
        };
        child.stdout.on("data", look);
        child.on("exit", () => fail(new Error(`ended without ${pattern}: ${output}${errors}`)));
        look();
      }),
  };
}

afterEach(async () => {
  for (const child of children.splice(0)) if (child.exitCode === null) child.kill("SIGKILL");
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const address = /http:\/\/127\.0\.0\.1:(\d+)\/#token=([A-Za-z0-9_-]{43})/;

/** An address that leads to a study. */
const studyAddress = /http:\/\/127\.0\.0\.1:(\d+)\/#token=([A-Za-z0-9_-]{43})&study=([A-Za-z0-9_-]{1,64})\s/;

/** Makes a study by the service itself, and lets go of it; its file. */
async function studyFile(name: string): Promise<string> {
  const { door, close } = ownDoor(folders);
  const made = await door.ask({ kind: "study.create", name, method: "wbt", who: "Ann" });
  if (!made.ok) throw new Error(made.message);
  await close();
  const file = readdirSync(folders.studies).find((one) => one.startsWith(name));
  return join(folders.studies, file ?? "");
}

async function ask(origin: string, token: string, message: unknown): Promise<unknown> {
  const headers = { Origin: origin, "Sec-Fetch-Site": "same-origin", "Content-Type": "application/json" };
  const entered = await fetch(`${origin}/enter`, { method: "POST", headers, body: JSON.stringify({ token }) });
  const cookie = (entered.headers.get("set-cookie") ?? "").split(";")[0] ?? "";
  const options = { method: "POST", headers: { ...headers, Cookie: cookie }, body: JSON.stringify(message) };
  return (await fetch(`${origin}/ask`, options)).json();
}

describe("npm start without a display", () => {
  it("says so in one line, serves the example study, is found by a second start, and ends at Ctrl+C", async () => {
    const first = start("--no-open");
    const [, port, token] = await first.until(address);
    expect(
      first
        .output()
        .split("\n")
        .filter((line) => line.startsWith(words.opensAt(words.noDisplay, `http://127.0.0.1:${port}/`))),
    ).toHaveLength(1);
    const study = await ask(`http://127.0.0.1:${port}`, token ?? "", { kind: "study.show", study: null });
    expect(study).toMatchObject({ ok: true, value: { isExample: true } });

    const second = start();
    const [, samePort, freshToken] = await second.until(address);
    expect(await second.exit).toBe(0);
    expect([samePort, freshToken === token]).toEqual([port, false]);
    expect(await ask(`http://127.0.0.1:${port}`, freshToken ?? "", { kind: "study.show", study: null })).toMatchObject({
      ok: true,
    });

    expect(existsSync(join(folder, "browser-host.json"))).toBe(true);
    first.child.kill("SIGINT");
    expect(await first.exit).toBe(0);
    expect(existsSync(join(folder, "browser-host.json"))).toBe(false);
    expect(first.errors()).toBe("");
  }, 120_000);

  it("starts afresh after a first one that was killed", async () => {
    const first = start("--browser");
    const [, port] = await first.until(address);
    expect(first.output()).toContain(words.browserWanted);
    first.child.kill("SIGKILL");
    await first.exit;
    expect(existsSync(join(folder, "browser-host.json"))).toBe(true);
    const second = start("--browser");
    const [, otherPort] = await second.until(address);
    expect(second.output()).not.toContain(words.alreadyRunning("").trim());
    expect(otherPort).not.toBe(port);
    second.child.kill("SIGTERM");
    expect(await second.exit).toBe(0);
  }, 120_000);

  it("opens the study that it is named, tells the running one of another, and closes all at the end", async () => {
    const [tall, low] = [await studyFile("Tall skirt"), await studyFile("Low skirt")];
    const first = start("--browser", tall);
    const [, port, token, study] = await first.until(studyAddress);
    const origin = `http://127.0.0.1:${port}`;
    const shown = await ask(origin, token ?? "", { kind: "study.show", study });
    expect(shown).toMatchObject({ ok: true, value: { name: "Tall skirt", study } });

    const second = start("--browser", low);
    const [, samePort, freshToken, other] = await second.until(studyAddress);
    expect([await second.exit, samePort, other === study]).toEqual([0, port, false]);
    const otherShown = await ask(origin, freshToken ?? "", { kind: "study.show", study: other });
    expect(otherShown).toMatchObject({ ok: true, value: { name: "Low skirt" } });

    const damaged = join(folder, "damaged.boilstudy");
    writeFileSync(damaged, "no study at all");
    const third = start("--browser", damaged);
    expect(await third.exit).toBe(1);
    expect([third.errors().split("\n").length, third.output()]).toEqual([2, ""]);
    expect(readFileSync(damaged, "utf8")).toBe("no study at all");

    first.child.kill("SIGTERM");
    expect([await first.exit, first.errors()]).toEqual([0, ""]);
    // Let go of: another process opens it as its only writer.
    const { door, close } = ownDoor(folders);
    const opened = await door.openFile(tall);
    const state = await door.ask({ kind: "study.show", study: opened.ok ? opened.study : null });
    expect(state).toMatchObject({ ok: true, value: { name: "Tall skirt", readOnly: null } });
    await close();
  }, 120_000);

  it("says why a study that it is named cannot be opened, and starts nothing", async () => {
    const wrong = start("--browser", "none-such.boilstudy");
    expect(await wrong.exit).toBe(1);
    expect(wrong.errors()).toMatch(/none-such\.boilstudy/);
    expect(wrong.output()).not.toMatch(address);
    const table = start("readings.csv");
    expect([await table.exit, table.errors()]).toEqual([2, `${words.notStudyFile("readings.csv")}\n`]);
  }, 60_000);

  it("refuses an option that it does not know", async () => {
    const wrong = start("--brwoser");
    expect(await wrong.exit).toBe(2);
    expect(wrong.errors()).toBe(`${words.unknownOption("--brwoser")}\n`);
  });
});
