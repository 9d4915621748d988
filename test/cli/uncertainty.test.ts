import { spawnSync } from "node:child_process";
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { analyse } from "../../app/cli/analyse.ts";

/** Monte Carlo of `analyse` and `report`: flags, seeds, what is printed, and how it is stopped. */

const project = join(import.meta.dirname, "..", "..");
const command = join(project, "app", "cli", "boilbench.cjs");
const sample = join(project, "sample-data", "good", "tall-kettle-stove");
const readings = join(tmpdir(), `boilbench-three-runs-${process.pid}.csv`);
const settings = `${sample}.settings.json`;
const scratch = mkdtempSync(join(tmpdir(), "boilbench-uncertainty-"));

beforeAll(() => {
  // Three runs are enough.
  const lines = readFileSync(`${sample}.csv`, "utf8").split("\r\n");
  writeFileSync(readings, [...lines.slice(0, 10), ""].join("\r\n"));
});
afterAll(() => {
  rmSync(scratch, { recursive: true, force: true });
  rmSync(readings, { force: true });
});

function boilbench(...commandLine: string[]) {
  const done = spawnSync(process.execPath, [command, ...commandLine], { encoding: "utf8" });
  return { code: done.status, out: done.stdout, error: done.stderr };
}

interface Value {
  readonly standardUncertainty?: number;
  readonly monteCarlo?: { readonly trials: number; readonly seed: number; readonly mean: number };
}
function analysed(name: string, ...flags: string[]) {
  const out = join(scratch, name);
  const done = boilbench("analyse", readings, "--settings", settings, ...flags, "--out", out);
  expect(done).toEqual({ code: 0, out: "", error: "" });
  const text = readFileSync(join(out, "results.json"), "utf8");
  const { runs, notes } = JSON.parse(text) as { runs: { values: Record<string, Value> }[]; notes: string[] };
  return { text, notes: notes.join("\n"), runs, fuel: runs[0]?.values.taskFuel5L };
}

describe("Monte Carlo on the command line", () => {
  it("a flag beats the settings; the same seed gives the same file, another one another; nothing is printed", () => {
    const first = analysed("first", "--trials", "3000", "--seed", "5");
    const again = analysed("again", "--trials", "3000", "--seed", "5");
    const other = analysed("other", "--trials", "3000", "--seed", "6");
    expect(first.fuel?.monteCarlo).toMatchObject({ trials: 3000, seed: 5 });
    expect(again.text).toBe(first.text);
    expect(other.fuel?.monteCarlo?.mean).not.toBe(first.fuel?.monteCarlo?.mean);
    expect(other.fuel?.standardUncertainty).toBe(first.fuel?.standardUncertainty);
    expect(first.notes).toMatch(/3.000 trials of each run, seed 5/);
  }, 120_000);

  it("0 trials leave it out, and the notes say that intervals are first-order", () => {
    const none = analysed("none", "--trials", "0");
    expect(none.fuel).toHaveProperty("standardUncertainty");
    expect(none.fuel).not.toHaveProperty("monteCarlo");
    expect(none.notes).toMatch(/No Monte Carlo was run/);
  });

  it("report takes the same flags and tells of them in its method", () => {
    const out = join(scratch, "report");
    const flags = ["--settings", settings, "--trials", "3000", "--seed", "5"];
    expect(boilbench("report", readings, ...flags, "--out", out)).toMatchObject({ code: 0, error: "" });
    const html = readFileSync(join(out, "report.html"), "utf8").replaceAll(/[\u00a0\u202f]/g, " ");
    expect(html).toMatch(/3 000 trials of each run, seed 5/);
    expect(html).toContain("How sure, and why");
  });

  it("on a terminal it tells how far it is, and Ctrl+C ends it with 130, with nothing written", async () => {
    const out = join(scratch, "stopped");
    const printed: string[] = [];
    const errors: string[] = [];
    const code = await analyse([readings, "--settings", settings, "--trials", "10000000", "--out", out], {
      out: () => {},
      error: (text) => errors.push(text),
      progress: (text) => {
        printed.push(text);
        // As the terminal does where Ctrl and C are pressed.
        if (text.includes("Monte Carlo:")) process.emit("SIGINT");
      },
    });
    expect(code).toBe(130);
    expect(printed.join("")).toMatch(/\rMonte Carlo: 0 %/);
    expect(errors.join("")).toMatch(/nothing was written/);
    expect(existsSync(out)).toBe(false);
    expect(readdirSync(scratch).filter((name) => name.endsWith(".part"))).toEqual([]);
    expect(process.listenerCount("SIGINT")).toBe(0);
  });
});
