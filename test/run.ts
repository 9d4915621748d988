/**
 * `npm test`: all tests, those in a real browser among them. Finds or installs what they need of the system first, and fails with
 * one line where it can do neither: nothing is left out in silence. Further arguments are vitest's.
 */
import { spawn } from "node:child_process";
import { join } from "node:path";
import { defaultLocale, wordsFor } from "../core/index.ts";
import { findChromium, hasPdfTools, installDebian } from "./tools.ts";

const words = wordsFor(defaultLocale).hosts.tests;

/** What is missing and cannot be had, in a sentence; null where all is there. */
function prepare(): string | null {
  const missing = [...(findChromium() === null ? ["chromium"] : []), ...(hasPdfTools() ? [] : ["poppler-utils"])];
  if (missing.length > 0) {
    console.log(words.installing(missing.join(", ")));
    installDebian(missing);
  }
  if (findChromium() === null) return words.noBrowser;
  return hasPdfTools() ? null : words.noPdfTools;
}

const lacking = prepare();
if (lacking !== null) {
  console.error(lacking);
  process.exitCode = 1;
} else {
  const vitest = join(import.meta.dirname, "..", "node_modules", "vitest", "vitest.mjs");
  const child = spawn(process.execPath, [vitest, "run", ...process.argv.slice(2)], {
    cwd: join(import.meta.dirname, ".."),
    stdio: ["ignore", "inherit", "inherit"],
    env: { ...process.env, CHROMIUM: findChromium() ?? "" },
  });
  for (const signal of ["SIGINT", "SIGTERM"] as const) process.on(signal, () => child.kill(signal));
  child.on("exit", (code) => {
    process.exitCode = code ?? 1;
  });
}
