/**
 * `npm start`: opens the desktop window where its runtime is present or can be had within a minute, otherwise the browser.
 * Usage: npm start -- [--browser] [--no-open] [--retry-desktop] [STUDY.boilstudy]; BOILBENCH_HOST=browser is the same as --browser.
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
import { closeOnSignals } from "./host/close-on-signals.ts";
import { closingLimit, doneWithin } from "./host/within-time.ts";
import {
  addressOfRunningHost,
  openInRunningHost,
  removeStateFile,
  startListener,
  stateFolder,
  writeStateFile,
} from "./server/index.ts";
import { createDoor, userFolders } from "./service/index.ts";
import { builtFolder, isBuilt, projectFolder } from "./sources.ts";
import { openCommand, planStart, readParameters, type StartWish, writtenIn } from "./start-plan.ts";

const words = wordsFor(defaultLocale).hosts;
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

type Wish = Extract<StartWish, { kind: "start" }>;

/** Opens the window and waits for its end. False where it could not be opened on this machine. */
async function runDesktop(executable: string, { study }: Wish): Promise<boolean> {
  await build("page");
  await build("desktop");
  const environment = { ...process.env };
  delete environment.ELECTRON_RUN_AS_NODE;
  const began = performance.now();
  const child = spawn(executable, [projectFolder, ...(study === null ? [] : [study])], {
    stdio: "inherit",
    env: environment,
  });
  const pass = (signal: NodeJS.Signals) => child.kill(signal);
  const passed = ["SIGINT", "SIGTERM", "SIGHUP"] as const;
  for (const signal of passed) process.on(signal, pass);
  const code = await new Promise<number | null>((done) => {
    child.on("error", () => done(1));
    child.on("exit", (exitCode, signal) => done(passed.some((one) => one === signal) ? 0 : (exitCode ?? 1)));
  });
  for (const signal of passed) process.off(signal, pass);
  // A runtime without what it needs of the system (libraries, a sandbox, a working display) ends at once.
  if (code !== 0 && performance.now() - began < 20_000) return false;
  process.exitCode = code ?? 1;
  return true;
}

function openInBrowser(address: string, wish: Wish): void {
  const opener = wish.switches.has("--no-open") ? null : openCommand(process.platform, process.env, display);
  if (opener === null) return;
  spawn(opener.command, [...opener.before, address], { stdio: "ignore", detached: true })
    .on("error", () => undefined)
    .unref();
}

function refuseStudy(message: string): void {
  console.error(message);
  process.exitCode = 1;
}

/** Hands over to the host that is running already. False where none is. */
async function joinRunningHost(folder: string, wish: Wish): Promise<boolean> {
  let address = await addressOfRunningHost(folder);
  if (address === null) return false;
  if (wish.study !== null) {
    const opened = await openInRunningHost(folder, wish.study);
    if (opened === null || "message" in opened) {
      refuseStudy(opened === null ? words.studyNotOpenedThere : opened.message);
      return true;
    }
    address = opened.address;
  }
  say(words.alreadyRunning(address));
  openInBrowser(address, wish);
  return true;
}

async function runBrowser(why: string, wish: Wish): Promise<void> {
  const folder = stateFolder(process.platform, process.env);
  if (await joinRunningHost(folder, wish)) return;
  await build("page");
  const page = readBuiltPage(join(builtFolder, "page"));
  const door = createDoor({ folders: userFolders(process.platform, process.env) });
  const opened = wish.study === null ? null : await door.openFile(wish.study);
  if (opened?.ok === false) {
    refuseStudy(opened.message);
    await doneWithin(door.close(), closingLimit);
    return;
  }
  const listener = await startListener({ door, page });
  const state = { port: listener.port, pid: process.pid, ownerSecret: listener.ownerSecret };
  try {
    writeStateFile(folder, state);
  } catch (error) {
    console.error(words.stateNotKept(folder, error instanceof Error ? error.message : String(error)));
  }
  closeOnSignals({
    stopListening: () => {
      removeStateFile(folder, state);
      return listener.close();
    },
    close: () => door.close(),
    sayLate: () => console.error(words.notAllClosed(closingLimit / 1000)),
  });
  const address = listener.freshAddress(opened?.study);
  say(words.opensAt(why, address));
  say(words.addressIsOnce);
  openInBrowser(address, wish);
}

/** The sentence for parameters that cannot be followed. */
function complaint(wish: Exclude<StartWish, Wish>): string {
  if (wish.kind === "unknownOption") return words.unknownOption(wish.option);
  return wish.kind === "notStudyFile" ? words.notStudyFile(wish.name) : words.oneStudyOnly;
}

async function start(): Promise<void> {
  const folder = writtenIn(process.cwd(), process.env);
  const wish = readParameters(process.argv.slice(2), folder, process.platform);
  if (wish.kind !== "start") {
    console.error(complaint(wish));
    process.exitCode = 2;
    return;
  }
  const plan = planStart({
    browserWanted: wish.switches.has("--browser") || process.env.BOILBENCH_HOST === "browser",
    display,
    runtimePresent: findRuntime() !== null,
    failedLately: failedLately(Date.now()),
    retryWanted: wish.switches.has("--retry-desktop"),
  });
  if (plan.open === "browser") {
    await runBrowser(words[plan.because], wish);
    return;
  }
  const fetched = plan.open === "desktop" || (await fetchVisibly());
  const runtime = fetched ? findRuntime() : null;
  if (runtime !== null && (await runDesktop(runtime, wish))) return;
  await runBrowser(runtime === null ? words.runtimeFailed : words.windowFailed, wish);
}

start().catch((error: unknown) => {
  console.error(words.cannotStart(error instanceof Error ? error.message : String(error)));
  process.exit(1);
});
