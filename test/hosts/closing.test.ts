import { spawn } from "node:child_process";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { doneWithin } from "../../app/host/within-time.ts";

// A process of its own, ended by real signals (POSIX.1-2017, signal.h): the files are closed before it is gone.

const target = join(import.meta.dirname, "closing-target.ts");

/** Signals a process once it is ready, and again at each mark in its output; what it said, and how it ended. */
async function end(signals: readonly [string, NodeJS.Signals][], ...parameters: string[]) {
  const child = spawn(process.execPath, [target, ...parameters], { stdio: ["ignore", "pipe", "inherit"] });
  const waiting = [...signals];
  let said = "";
  child.stdout.on("data", (chunk) => {
    said += String(chunk);
    const [next] = waiting;
    if (next !== undefined && said.includes(next[0])) {
      waiting.shift();
      child.kill(next[1]);
    }
  });
  const start = performance.now();
  const code = await new Promise((done) => child.on("exit", (exitCode, signal) => done(exitCode ?? signal)));
  return { code, said: said.trim().split("\n").slice(1), milliseconds: performance.now() - start };
}

describe("a signal to end", () => {
  it.each(["SIGINT", "SIGTERM", "SIGHUP"] as const)("%s: files are closed first", async (signal) => {
    const ended = await end([["ready", signal]], "200");
    expect(ended).toMatchObject({ code: 0, said: ["stopped listening", "closing", "closed"] });
  });

  it("files are closed where the listener fails to", async () => {
    const ended = await end([["ready", "SIGTERM"]], "10", "fails");
    expect(ended).toMatchObject({ code: 0, said: ["stopped listening", "closing", "closed"] });
  });

  it("is not waited for longer than the limit, which is said", async () => {
    const ended = await end([["ready", "SIGTERM"]], "60000");
    expect(ended).toMatchObject({ code: 0, said: ["stopped listening", "closing", "late"] });
    expect(ended.milliseconds).toBeLessThan(6_000);
  });

  it("given twice ends at once", async () => {
    const ended = await end(
      [
        ["ready", "SIGINT"],
        ["closing", "SIGINT"],
      ],
      "60000",
    );
    expect(ended).toMatchObject({ code: 1, said: ["stopped listening", "closing"] });
  });
});

describe("work within a time", () => {
  it("is done, is late, or has failed", async () => {
    expect(await doneWithin(Promise.resolve(), 1_000)).toBe(true);
    expect(await doneWithin(new Promise(() => undefined), 10)).toBe(false);
    expect(await doneWithin(Promise.reject(new Error("x")), 1_000)).toBe(false);
  });
});
