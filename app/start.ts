/**
 * `npm start`: opens the desktop window where its runtime is present or can be had within a minute, otherwise the browser.
 * Usage: npm start -- [--browser] [--no-open] [--retry-desktop]; BOILBENCH_HOST=browser is the same as --browser.
 */
import { spawn } from "node:child_process";
import { join } from "node:path";
import { defaultLocale, wordsFor } from "../core/index.ts";
import { buildProduct } from "./build.ts";
import {
  failedLately,
  fetchRuntime,
  findRuntime,
  forgetFailure,
  hasDisplay,
  rememberFailure,
} from "./desktop-runtime.ts";
import { readBuiltPage } from "./host/built-page.ts";
import { addressOfRunningHost, removeStateFile, startListener, stateFolder, writeStateFile } from "./server/index.ts";
import { createDoor } from "./service/index.ts";
import { builtFolder, isBuilt, projectFolder } from "./sources.ts";
import { openCommand, planStart } from "./start-plan.ts";

const words = wordsFor(defaultLocale).hosts;
const options = process.argv.slice(2);
const say = (line: string) => console.log(line);
const display = hasDisplay(process.platform, process.env);
const fetchLimit = 60;

async function build(product: "page" | "desktop"): Promise<void> {
  if (!isBuilt(product)) say(words.building);
  await buildProduct(product, { always: false, say });
}

async function fetchVisibly(): Promise<boolean> {
  const terminal = process.stdout.isTTY;
  const fetched = await fetchRuntime(fetchLimit, (seconds) => {
    const line = words.fetchingRuntime(seconds, fetchLimit);
    if (terminal) process.stdout.write(`\r${line}`);
    else if (seconds % 15 === 0) say(line);
  });
  if (terminal) process.stdout.write("\r\u001b[K");
  if (fetched) forgetFailure();
  else rememberFailure(Date.now());
  return fetched;
}

/** Opens the window and waits for its end. False where it could not be opened on this machine. */
async function runDesktop(executable: string): Promise<boolean> {
  await build("page");
  await build("desktop");
  const environment = { ...process.env };
  delete environment.ELECTRON_RUN_AS_NODE;
  const began = performance.now();
  const child = spawn(executable, [projectFolder], { stdio: "inherit", env: environment });
  const pass = (signal: NodeJS.Signals) => child.kill(signal);
  process.on("SIGINT", pass).on("SIGTERM", pass);
  const code = await new Promise<number | null>((done) => {
    child.on("error", () => done(1));
    child.on("exit", (exitCode, signal) => done(signal === "SIGINT" || signal === "SIGTERM" ? 0 : (exitCode ?? 1)));
  });
  process.off("SIGINT", pass).off("SIGTERM", pass);
  // A runtime without what it needs of the system (libraries, a sandbox, a working display) ends at once.
  if (code !== 0 && performance.now() - began < 20_000) return false;
  process.exitCode = code ?? 1;
  return true;
}

function openInBrowser(address: string): void {
  const opener = options.includes("--no-open") ? null : openCommand(process.platform, process.env, display);
  if (opener === null) return;
  spawn(opener.command, [...opener.before, address], { stdio: "ignore", detached: true })
    .on("error", () => undefined)
    .unref();
}

async function runBrowser(why: string): Promise<void> {
  const folder = stateFolder(process.platform, process.env);
  const running = await addressOfRunningHost(folder);
  if (running !== null) {
    say(words.alreadyRunning(running));
    openInBrowser(running);
    return;
  }
  await build("page");
  const page = readBuiltPage(join(builtFolder, "page"));
  const listener = await startListener({ door: createDoor({}), page });
  const state = { port: listener.port, pid: process.pid, ownerSecret: listener.ownerSecret };
  try {
    writeStateFile(folder, state);
  } catch (error) {
    console.error(words.stateNotKept(folder, error instanceof Error ? error.message : String(error)));
  }
  const stop = () => {
    removeStateFile(folder, state);
    void listener.close().then(() => process.exit(0));
  };
  for (const signal of ["SIGINT", "SIGTERM", "SIGHUP"] as const) process.once(signal, stop);
  const address = listener.freshAddress();
  say(words.opensAt(why, address));
  say(words.addressIsOnce);
  openInBrowser(address);
}

async function start(): Promise<void> {
  const unknown = options.find((option) => !["--browser", "--no-open", "--retry-desktop"].includes(option));
  if (unknown !== undefined) {
    console.error(words.unknownOption(unknown));
    process.exitCode = 2;
    return;
  }
  const plan = planStart({
    browserWanted: options.includes("--browser") || process.env.BOILBENCH_HOST === "browser",
    display,
    runtimePresent: findRuntime() !== null,
    failedLately: failedLately(Date.now()),
    retryWanted: options.includes("--retry-desktop"),
  });
  if (plan.open === "browser") {
    await runBrowser(words[plan.because]);
    return;
  }
  const fetched = plan.open === "desktop" || (await fetchVisibly());
  const runtime = fetched ? findRuntime() : null;
  if (runtime !== null && (await runDesktop(runtime))) return;
  await runBrowser(runtime === null ? words.runtimeFailed : words.windowFailed);
}

start().catch((error: unknown) => {
  console.error(words.cannotStart(error instanceof Error ? error.message : String(error)));
  process.exit(1);
});
