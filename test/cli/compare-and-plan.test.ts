import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { run } from "../../app/cli/run.ts";
import type { PlanNumbers, TableComparison } from "../../core/index.ts";
import { expectNumber } from "../numbers.ts";

/** The real command line, in a process of its own. */

const project = join(import.meta.dirname, "..", "..");
const command = join(project, "app", "cli", "boilbench.cjs");
const sample = join(project, "sample-data", "good", "tall-kettle-stove");
const scratch = mkdtempSync(join(tmpdir(), "boilbench-compare-"));
afterAll(() => rmSync(scratch, { recursive: true, force: true }));

function boilbench(...commandLine: string[]) {
  const done = spawnSync(process.execPath, [command, ...commandLine], { encoding: "utf8" });
  return { code: done.status, out: done.stdout, error: done.stderr };
}

function file(name: string, text: string): string {
  const path = join(scratch, name);
  writeFileSync(path, text);
  return path;
}

/** The same without a process of its own. */
async function inProcess(...commandLine: readonly string[]) {
  const done = { code: 0, out: "", error: "" };
  done.code = await run(commandLine, {
    out: (text) => {
      done.out += text;
    },
    error: (text) => {
      done.error += text;
    },
    progress: () => {},
  });
  return done;
}

async function numbers(...commandLine: string[]): Promise<PlanNumbers> {
  const done = await inProcess("plan", ...commandLine, "--json");
  expect([done.code, done.error]).toEqual([0, ""]);
  return JSON.parse(done.out) as PlanNumbers;
}

const table = file(
  "table.csv",
  "run,variant,day,leftOut,factor:skirt,factor:gap,wood\n" +
    [
      ["A", "1", "", "no", "wide", 1050],
      ["B", "1", "", "yes", "wide", 850],
      ["C", "1", "", "no", "narrow", 990],
      ["D", "1", "", "yes", "narrow", 800],
      ["A", "2", "", "no", "wide", 1010],
      ["B", "2", "", "yes", "wide", 880],
      ["C", "2", "", "no", "narrow", 940],
      ["D", "2", "", "yes", "narrow", 820],
      ["A", "3", "", "no", "wide", 1085],
      ["B", "3", "wind", "yes", "wide", 980],
      ["C", "3", "", "no", "narrow", 1020],
      ["D", "3", "", "yes", "narrow", 790],
    ]
      .map((cells, index) => `R${index + 1},${cells.join(",")}\n`)
      .join(""),
);
const asked = [table, "--value", "wood", "--by", "variant"];

describe("boilbench compare", () => {
  const compared = (...more: string[]): TableComparison => {
    const done = boilbench("compare", ...asked, "--json", ...more);
    expect([done.code, done.error]).toEqual([0, ""]);
    return JSON.parse(done.out) as TableComparison;
  };

  it("prints JSON of all pairs, with the left-out row skipped and said", () => {
    const comparison = compared();
    expect(comparison).toMatchObject({ value: "wood", by: "variant", confidence: 0.95, leads: "gamesHowell" });
    expect(comparison.pairs.map(({ baseline, variant }) => baseline + variant)).toEqual([
      "AB",
      "AC",
      "AD",
      "BC",
      "BD",
      "CD",
    ]);
    expect(Object.values(comparison.groups).map(({ n }) => n)).toEqual([3, 2, 3, 3]);
    expect(comparison.groups.A?.bootstrap).toMatchObject({ method: "BCa", resamples: 10_000, seed: 1 });
    expect(comparison.notes).toContain("Row 11 was skipped, as it is left out: wind");
  });

  it("takes baseline, block, factors one way or the other, margin, confidence, and no bootstrap", () => {
    const flags = ["--baseline", "C", "--block", "day", "--margin", "50", "--confidence", "0.9", "--resamples", "0"];
    const comparison = compared(...flags, "--factor", "skirt", "--factor", "gap");
    expect(comparison).toEqual(compared(...flags, "--factor", "skirt", "gap"));
    expect(comparison).toMatchObject({ leads: "blocked", confidence: 0.9, blocked: { df1: 3, df2: 5 } });
    expect(comparison.pairs[0]).toMatchObject({ baseline: "C", variant: "A", equivalence: { margin: 50 } });
    expect(comparison.factors.map(({ term }) => term)).toEqual(["skirt", "gap", "skirt × gap"]);
    expect(comparison.groups.A?.bootstrap).toBeNull();
  });

  it("says the same in plain text: what leads and why, sentences, what weakens them, notes", () => {
    const { code, out } = boilbench("compare", ...asked);
    expect(code).toBe(0);
    const comparison = compared();
    expect(out.split("\n")[0]).toContain(comparison.because);
    for (const sentence of [...comparison.sentences, ...comparison.warnings, ...comparison.notes]) {
      expect(out).toContain(sentence);
    }
    expect(out).not.toMatch(/\bsignificant/);
  });

  it("refuses input with code 3, every problem as FILE:ROW:COLUMN on standard error", () => {
    const bad = file("bad.csv", "variant,wood\nA,x\n,2\n");
    const done = boilbench("compare", bad, "--value", "wood", "--by", "variant");
    expect([done.code, done.out]).toEqual([3, ""]);
    expect(done.error.trim().split("\n")).toEqual([
      expect.stringMatching(/^bad\.csv:2:wood: “x”/),
      expect.stringMatching(/^bad\.csv:3:variant: /),
    ]);
    expect(boilbench("compare", join(scratch, "none.csv"), "--value", "a", "--by", "b").code).toBe(3);
    // What the file does not hold is a refusal too: the command line by itself is not wrong.
    const column = boilbench("compare", table, "--value", "wod", "--by", "variant");
    expect([column.code, column.out]).toEqual([3, ""]);
    expect(column.error).toMatch(/^table\.csv:1:wod: .*“wood”/);
    expect(boilbench("compare", ...asked, "--block", "week").code).toBe(3);
    expect(boilbench("compare", ...asked, "--factor", "lid").code).toBe(3);
    const unknown = boilbench("compare", ...asked, "--baseline", "skirt");
    expect(unknown.code).toBe(3);
    expect(unknown.error).toMatch(/^table\.csv::variant: .*“A”, “B”, “C”, “D”/);
  });

  it("skips rows without a value and those left out, and says which; where none remain, it says why", () => {
    const gaps = file("gaps.csv", "variant,wood,excluded\nA,10,\nA,,\nA,12,\nB,20,\nB, ,\nB,23,\nB,99,lid off\n");
    const done = boilbench("compare", gaps, "--value", "wood", "--by", "variant", "--json");
    expect([done.code, done.error]).toEqual([0, ""]);
    const comparison = JSON.parse(done.out) as TableComparison;
    expect(Object.values(comparison.groups).map(({ n }) => n)).toEqual([2, 2]);
    expect(comparison.notes).toContain("Rows 3, 6 were skipped: no value in “wood”.");
    expect(comparison.notes).toContain("Row 8 was skipped, as it is left out: lid off");
    const none = file("none-left.csv", "variant,wood,excluded\nA,10,wind\nB,20,rain\n");
    const refused = boilbench("compare", none, "--value", "wood", "--by", "variant");
    expect(refused).toMatchObject({ code: 3, out: "" });
    expect(refused.error).toContain("all 2 rows are left out");
  });

  it("reads semicolons, decimal commas and names with blanks", () => {
    const text = "Probe;Ofen A;Menge, g\n1;alt;1050,5\n2;neu gebaut;880,25\n3;alt;1020\n4;neu gebaut;901\n";
    const done = boilbench("compare", file("de.csv", text), "--value", "Menge, g", "--by", "Ofen A", "--json");
    const { groups } = JSON.parse(done.out) as TableComparison;
    expectNumber(groups.alt?.mean, 1035.25, { relative: 1e-12 });
    expectNumber(groups["neu gebaut"]?.mean, 890.625, { relative: 1e-12 });
  });

  it.each([
    [[]],
    [[table]],
    [[table, "--value", "wood"]],
    [[table, table, "--value", "wood", "--by", "variant"]],
    [[...asked, "--margin", "-1"]],
    [[...asked, "--confidence", "95"]],
    [[...asked, "--resamples", "1.5"]],
    [[...asked, "--seed", "-1"]],
    [[...asked, "--nonsense"]],
  ])("wrong usage is code 2: %j", async (commandLine) => {
    const done = await inProcess("compare", ...commandLine);
    expect(done.code).toBe(2);
    expect(done.error).toContain("Usage:");
  });

  describe("on the runs.csv of analyse", () => {
    interface Results {
      readonly comparisons: readonly {
        readonly quantity: string;
        readonly variant: string;
        readonly difference: { readonly value: number; readonly lower: number };
        readonly ratio: { readonly lower: number };
        readonly welch: { readonly p: number };
        readonly blocked?: { readonly difference: number; readonly lower: number; readonly p: number };
        readonly gamesHowell?: { readonly upper: number; readonly p: number };
      }[];
    }
    const out = join(scratch, "results");
    let results: Results;
    beforeAll(() => {
      const done = boilbench(
        "analyse",
        `${sample}.csv`,
        "--settings",
        `${sample}.settings.json`,
        "--trials",
        "0",
        "--out",
        out,
      );
      expect(done.code).toBe(0);
      results = JSON.parse(readFileSync(join(out, "results.json"), "utf8"));
    });

    it("gives what stands in results.json beside Welch's: within blocks, and for all pairs together", () => {
      const quantity = "taskFuel5L";
      const done = boilbench(
        "compare",
        join(out, "runs.csv"),
        "--value",
        quantity,
        "--by",
        "variant",
        "--block",
        "block",
        "--json",
      );
      const comparison = JSON.parse(done.out) as TableComparison;
      expect(comparison.leads).toBe("blocked");
      const of = results.comparisons.filter((one) => one.quantity === quantity);
      expect(of).toHaveLength(3);
      for (const { variant, blocked, gamesHowell } of of) {
        const within = comparison.blocked?.pairs.find((one) => one.variant === variant);
        expectNumber(blocked?.difference, within?.difference ?? Number.NaN, { relative: 1e-9 });
        expectNumber(blocked?.lower, within?.lower ?? Number.NaN, { relative: 1e-9 });
        expectNumber(blocked?.p, within?.p ?? Number.NaN, { relative: 1e-6 });
        const together = comparison.gamesHowell.find((one) => one.variant === variant);
        expectNumber(gamesHowell?.upper, together?.upper ?? Number.NaN, { relative: 1e-9 });
        expectNumber(gamesHowell?.p, together?.p ?? Number.NaN, { relative: 1e-6 });
      }
    });

    it("gives the comparisons of results.json again", () => {
      const quantity = "cold-start.thermalEfficiency";
      const done = boilbench("compare", join(out, "runs.csv"), "--value", quantity, "--by", "variant", "--json");
      const { pairs, sentences } = JSON.parse(done.out) as TableComparison;
      const of = results.comparisons.filter((one) => one.quantity === quantity);
      expect(of).toHaveLength(3);
      for (const { variant, difference, ratio, welch } of of) {
        const pair = pairs.find((one) => one.variant === variant && one.baseline === "no skirt, wide gap");
        expectNumber(pair?.difference.value, difference.value, { relative: 1e-12 });
        expectNumber(pair?.difference.lower, difference.lower, { relative: 1e-12 });
        expectNumber(pair?.ratio.fieller.lower, ratio.lower, { relative: 1e-12 });
        expectNumber(pair?.welch.p, welch.p, { relative: 1e-12 });
      }
      // The program's own quantities are said in its own words and units.
      expect(sentences.join(" ")).toContain("percentage points");
    });
  });
});

describe("boilbench plan", () => {
  it("prints one line of JSON from a process of its own, and sentences without --json", () => {
    const done = boilbench("plan", "--sd", "1.5", "--detect", "2", "--json");
    expect([done.code, done.error, done.out.trimEnd().split("\n").length]).toEqual([0, "", 1]);
    expect(boilbench("plan", "--sd", "1.5", "--detect", "2").out).toMatch(/^10 runs of each variant are needed/);
  });

  it("is R's for the layout's example: power.t.test(delta = 2, sd = 1.5, power = 0.8, strict = TRUE, tol = 1e-12)", async () => {
    const plan = await numbers("--sd", "1.5", "--detect", "2");
    expect(Object.keys(plan)).toEqual(["runsPerVariant", "powerReached", "exact", "notes"]);
    expect(plan).toMatchObject({ runsPerVariant: 10, notes: [] });
    // R 4.2.2
    expectNumber(plan.exact, 9.8890479156010294, { relative: 1e-9 });
    expectNumber(plan.powerReached, 0.80491306350504133, { relative: 1e-9 });
  });

  it("takes a fixed number of the baseline: R's pt with ncp (reference two-sample-power, baseline-of-five)", async () => {
    const plan = await numbers("--sd", "1.5", "--detect", "2.5", "--n1", "5");
    const { cases } = JSON.parse(
      readFileSync(join(project, "test/reference/two-sample-power/expected.json"), "utf8"),
    ) as { cases: { case: string; runsPerVariant: number; exact: number; powerReached: number }[] };
    const expected = cases.find((one) => one.case === "baseline-of-five");
    expect(plan.runsPerVariant).toBe(expected?.runsPerVariant);
    expectNumber(plan.exact, expected?.exact ?? 0, { relative: 1e-6 });
    expectNumber(plan.powerReached, expected?.powerReached ?? 0, { relative: 1e-6 });
  });

  it.each([
    [["--sd", "1.5", "--detect", "2", "--n1", "4"], "76 %"],
    [["--sd", "0", "--detect", "2"], "standard deviation of zero"],
    [["--sd", "1", "--detect", "0"], "difference of zero"],
    [["--sd", "1e9", "--detect", "1e-3"], "too small beside the scatter"],
  ])("an unreachable demand is null, with the limit in a note: %j", async (commandLine, note) => {
    const plan = await numbers(...commandLine);
    expect(plan).toMatchObject({ runsPerVariant: null, powerReached: null, exact: null });
    expect(plan.notes.join(" ")).toContain(note);
  });

  it("plans from the one-sided 80 % upper limit of the standard deviation too", async () => {
    // R 4.2.2: 8 * sqrt(5 / qchisq(0.2, 5)) and power.t.test with it
    const { atUpperLimit } = await numbers("--sd", "8", "--detect", "10", "--relative", "--sd-from", "6");
    expectNumber(atUpperLimit?.standardDeviation, 11.6877794899, { relative: 1e-8 });
    expect(atUpperLimit?.runsPerVariant).toBe(23);
    expectNumber(atUpperLimit?.exact, 22.4458043515, { relative: 1e-8 });
  });

  it("tells what given runs can detect, per cent of a mean taken", async () => {
    // R 4.2.2: power.t.test(n = 10, sd = 1.5, power = 0.8, strict = TRUE)$delta; power.t.test(n = 10, delta = 2, ...)$power
    const plan = await numbers("--sd", "1.5", "--detect", "4", "--relative", "--mean", "50", "--runs", "10");
    expect(plan.runsPerVariant).toBe(10);
    expectNumber(plan.detectable?.difference, 1.98742108886798, { relative: 1e-9 });
    expectNumber(plan.detectable?.power, 0.80491306350504133, { relative: 1e-9 });
    const alone = await numbers("--sd", "1.5", "--runs", "1");
    expect(alone).toMatchObject({ runsPerVariant: null, detectable: { runs: 1, difference: null, power: null } });
    expect(alone.notes.join(" ")).toContain("three runs in all");
  });

  it("draws a run order, the same for the same seed", async () => {
    const flags = ["--sd", "1", "--detect", "2", "--variant", "kettle", "--variant", "skirt", "--blocks", "3"];
    const { runOrder, runsPerVariant } = await numbers(...flags, "--seed", "5");
    expect(runOrder).toHaveLength(2 * (runsPerVariant ?? 0));
    expect(runOrder?.at(-1)?.block).toBe(3);
    expect((await numbers(...flags, "--seed", "5")).runOrder).toEqual(runOrder);
    expect((await numbers(...flags, "--seed", "6")).runOrder).not.toEqual(runOrder);
    expect((await inProcess("plan", ...flags)).out).toContain("1. block 1: ");
    expect((await numbers(...flags, "--blocks", "99")).notes.join(" ")).toContain("99 blocks are more than");
  });

  it.each([
    [[]],
    [["--sd", "1"]],
    [["--detect", "1"]],
    [["--sd", "-1", "--detect", "1"]],
    [["--sd", "1,5", "--detect", "1"]],
    [["--sd", "1", "--detect", "1", "--power", "80"]],
    [["--sd", "1", "--detect", "1", "--n1", "0"]],
    [["--sd", "1", "--detect", "1", "--mean", "5"]],
    [["--sd", "1", "--detect", "1", "--relative", "--mean", "0"]],
    [["--sd", "1", "--detect", "1", "--variant", "alone"]],
    [["file.csv", "--sd", "1", "--detect", "1"]],
  ])("wrong usage is code 2: %j", async (commandLine) => {
    const done = await inProcess("plan", ...commandLine);
    expect(done.code).toBe(2);
    expect(done.error).toContain("Usage:");
  });
});
