import { execFileSync, spawnSync } from "node:child_process";
import {
  chmodSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import Papa from "papaparse";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { allQuantityKeys, keyText } from "../../core/quantity/quantity-key.ts";
import { phaseQuantityNames, runQuantityNames } from "../../core/quantity/quantity-name.ts";

/** The real command line, in a process of its own. */

const project = join(import.meta.dirname, "..", "..");
const command = join(project, "app", "cli", "boilbench.cjs");
const readings = join(project, "sample-data", "good", "tall-kettle-stove.csv");
const settings = join(project, "sample-data", "good", "tall-kettle-stove.settings.json");
const defective = join(project, "sample-data", "defective");
const scratch = mkdtempSync(join(tmpdir(), "boilbench-cli-"));
afterAll(() => rmSync(scratch, { recursive: true, force: true }));

function boilbench(...commandLine: string[]) {
  const done = spawnSync(process.execPath, [command, ...commandLine], { encoding: "utf8" });
  return { code: done.status, out: done.stdout, error: done.stderr };
}

/** Every number that occurs anywhere in parsed JSON, with the path to it. */
function* numbersIn(value: unknown, path = ""): Generator<readonly [string, number]> {
  if (typeof value === "number") yield [path, value];
  else if (Array.isArray(value)) for (const [index, one] of value.entries()) yield* numbersIn(one, `${path}[${index}]`);
  else if (value !== null && typeof value === "object") {
    for (const [key, one] of Object.entries(value)) yield* numbersIn(one, `${path}.${key}`);
  }
}

describe("boilbench analyse", () => {
  const out = join(scratch, "results");
  interface Results {
    readonly schema: string;
    readonly method: string;
    readonly confidence: number;
    readonly inputs: { file: string; sha256: string }[];
    readonly runs: {
      run: string;
      leftOut: string | null;
      phases: { phase: string; values: Record<string, { value: number; unit: string }> }[];
      values: Record<string, { value: number; unit: string }>;
    }[];
    readonly variants: { variant: string; quantities: Record<string, { n: number; interval: unknown }> }[];
    readonly comparisons: { quantity: string; baseline: string; variant: string; sentence: string }[];
    readonly ratings: { framework: string; probabilities: number[] }[];
  }
  let results: Results;

  beforeAll(() => {
    const done = boilbench("analyse", readings, "--settings", settings, "--trials", "2000", "--out", out);
    expect(done).toEqual({ code: 0, out: "", error: "" });
    results = JSON.parse(readFileSync(join(out, "results.json"), "utf8"));
  });

  it("writes the four files and nothing else", () => {
    expect(readdirSync(out).sort()).toEqual(["report.html", "report.pdf", "results.json", "runs.csv"]);
  });

  it("states schema, method, confidence and the digest of each input", () => {
    expect(results).toMatchObject({ schema: "boilbench-results/1", method: "wbt", confidence: 0.95 });
    const digest = (path: string) => execFileSync("sha256sum", [path], { encoding: "utf8" }).split(" ")[0];
    expect(results.inputs.map(({ sha256 }) => sha256)).toEqual([digest(readings), digest(settings)]);
  });

  it("names every quantity as the layout has it, in every phase where it belongs", () => {
    const emissions = phaseQuantityNames.filter((name) => /^(co|pm25)(Per|Rate)/.test(name));
    const boilingOnly = [
      "effectiveWaterBoiled",
      "timeToBoil",
      "timeToBoilCorrected",
      "specificFuelConsumptionCorrected",
      "specificEnergyConsumptionCorrected",
    ];
    for (const { phase, values } of results.runs[0]?.phases ?? []) {
      const expected = phaseQuantityNames
        .filter((name) => !emissions.includes(name))
        .filter((name) => (phase === "simmer" ? !boilingOnly.includes(name) : name !== "lowPowerSpecificEnergyRate"));
      expect(Object.keys(values).sort()).toEqual([...expected].sort());
    }
    expect(Object.keys(results.runs[0]?.values ?? {}).sort()).toEqual(
      runQuantityNames.filter((name) => !/Co|Pm25|Iso/.test(name)).sort(),
    );
  });

  it("holds no number that is none", () => {
    const numbers = [...numbersIn(results)];
    expect(numbers.length).toBeGreaterThan(5000);
    expect(numbers.filter(([, value]) => !Number.isFinite(value))).toEqual([]);
    expect(readFileSync(join(out, "results.json"), "utf8")).not.toMatch(/NaN|Infinity|undefined/);
  });

  it("counts left-out runs nowhere, compares with the first variant, and says that days were ignored", () => {
    expect(results.runs.find(({ run }) => run === "R18")?.leftOut).toContain("gust");
    for (const { quantities } of results.variants) {
      for (const quantity of Object.values(quantities)) expect(quantity.n).toBe(6);
    }
    expect(new Set(results.comparisons.map(({ baseline }) => baseline))).toEqual(new Set(["no skirt, wide gap"]));
    for (const { sentence } of results.comparisons) expect(sentence).toContain("Days (or other blocks)");
  });

  it("rates Water Boiling Test runs by IWA 11 alone, with probabilities that add up", () => {
    expect(new Set(results.ratings.map(({ framework }) => framework))).toEqual(new Set(["IWA 11:2012"]));
    for (const { probabilities } of results.ratings) {
      expect(Math.abs(probabilities.reduce((sum, one) => sum + one, 0) - 1)).toBeLessThan(1e-12);
    }
  });

  it("writes runs.csv with the layout's columns and the same numbers", () => {
    const { data } = Papa.parse<string[]>(readFileSync(join(out, "runs.csv"), "utf8").trim());
    const [heading = [], ...rows] = data;
    expect(heading.slice(0, 7)).toEqual(["run", "variant", "block", "order", "leftOut", "factor:skirt", "factor:gap"]);
    const known = new Set(allQuantityKeys.map(keyText));
    expect(heading.slice(7).filter((name) => !known.has(name))).toEqual([]);
    const column = heading.indexOf("cold-start.thermalEfficiency");
    const values = results.runs.map(({ phases }) => phases[0]?.values.thermalEfficiency?.value);
    expect(rows.map((row) => Number(row[column]))).toEqual(values);
  });

  it("makes a self-contained page without script, and a tagged A4 PDF of two to five pages", () => {
    const html = readFileSync(join(out, "report.html"), "utf8");
    expect(html).not.toMatch(/<script|<link|https?:\/\/(?!www\.w3\.org)/i);
    const info = execFileSync("pdfinfo", [join(out, "report.pdf")], { encoding: "utf8" });
    expect(info).toMatch(/Tagged:\s+yes/);
    expect(info).toMatch(/Page size:.*A4/);
    const pages = Number(/Pages:\s+(\d+)/.exec(info)?.[1]);
    expect(pages).toBeGreaterThanOrEqual(2);
    expect(pages).toBeLessThanOrEqual(5);
    const text = execFileSync("pdftotext", ["-layout", join(out, "report.pdf"), "-"], { encoding: "utf8" });
    for (const input of results.inputs) expect(text).toContain(input.sha256);
    expect(text).toContain("carbon monoxide");
  });

  it("overwrites nothing without --force, and leaves what is there untouched", () => {
    const before = readFileSync(join(out, "results.json"), "utf8");
    const done = boilbench("analyse", readings, "--out", out);
    expect(done.code).toBe(4);
    expect(done.error).toContain("--force");
    expect(readFileSync(join(out, "results.json"), "utf8")).toBe(before);
    expect(boilbench("analyse", readings, "--force", "--out", out).code).toBe(0);
    expect(readFileSync(join(out, "results.json"), "utf8")).not.toBe(before);
  });

  it("says so where it cannot write, and leaves no half of a file", () => {
    const blocked = join(scratch, "blocked");
    writeFileSync(blocked, "a file where a folder should be");
    const done = boilbench("analyse", readings, "--out", blocked);
    expect(done.code).toBe(4);
    expect(done.error).toMatch(/could not be written/);
    expect(readFileSync(blocked, "utf8")).toBe("a file where a folder should be");
    if (process.getuid?.() !== 0) {
      const locked = join(scratch, "locked");
      mkdirSync(locked);
      chmodSync(locked, 0o500);
      expect(boilbench("analyse", readings, "--out", locked).code).toBe(4);
      expect(readdirSync(locked)).toEqual([]);
    }
  });

  it("refuses bad input with every problem at its place, and writes nothing", () => {
    const bad = join(scratch, "bad.csv");
    const lines = readFileSync(readings, "utf8").split("\r\n");
    lines[1] = lines[1]?.replace(/,(\d{3,4}),(\d{3,4}),/, ",$1,abc,") ?? "";
    lines[5] = lines[5]?.replace("hot-start", "warm-start") ?? "";
    writeFileSync(bad, lines.join("\r\n"));
    const folder = join(scratch, "none");
    const done = boilbench("analyse", bad, "--out", folder);
    expect(done.code).toBe(3);
    expect(done.out).toBe("");
    const [first, second] = done.error.split("\n");
    expect(first).toMatch(/^bad\.csv:2:[a-zA-Z_]+: .*“abc”/);
    expect(second).toMatch(/^bad\.csv:6:phase: .*“warm-start”/);
    expect(existsSync(folder)).toBe(false);
  });

  it("leaves bad rows out when told to, and lists them in the results and the report", () => {
    const folder = join(scratch, "rest");
    const done = boilbench("analyse", join(scratch, "bad.csv"), "--leave-out-bad-rows", "--out", folder);
    expect(done).toMatchObject({ code: 0, error: "" });
    const { leftOutRows } = JSON.parse(readFileSync(join(folder, "results.json"), "utf8"));
    expect(leftOutRows.map(({ row }: { row: number }) => row)).toEqual([2, 6]);
    expect(readFileSync(join(folder, "report.html"), "utf8")).toContain("abc");
  });

  it("ends with 3 where an error is of the whole file, even when bad rows may be left out", () => {
    for (const file of ["empty-file.csv", "no-rows.csv", "column-missing.csv", "column-twice.csv"]) {
      const done = boilbench("analyse", join(defective, file), "--leave-out-bad-rows", "--out", join(scratch, "whole"));
      expect(done.code, file).toBe(3);
      expect(done.error, file).toContain(`${file}:`);
    }
    expect(boilbench("analyse", join(scratch, "no-such.csv"), "--out", join(scratch, "x"))).toMatchObject({ code: 3 });
  });

  it("tells problems of the settings, and lets a flag beat them", () => {
    const broken = join(scratch, "broken.json");
    writeFileSync(broken, '{ "method": "wbt", "confidense": 0.9 }');
    const done = boilbench("analyse", readings, "--settings", broken, "--out", join(scratch, "s"));
    expect(done.code).toBe(3);
    expect(done.error).toMatch(/broken\.json:.*confidense.*confidence/);
    const folder = join(scratch, "flag");
    expect(
      boilbench("analyse", readings, "--settings", settings, "--method", "iso", "--trials", "0", "--out", folder).code,
    ).toBe(0);
    expect(JSON.parse(readFileSync(join(folder, "results.json"), "utf8"))).toMatchObject({ method: "iso" });
  });

  it("keeps hostile names as data in every file", () => {
    const folder = join(scratch, "hostile");
    const name = `=1+1<script>alert(1)</script>`;
    const hostile = join(scratch, "hostile.csv");
    writeFileSync(hostile, readFileSync(readings, "utf8").replaceAll('"skirt, wide gap"', name));
    expect(boilbench("analyse", hostile, "--settings", settings, "--trials", "0", "--out", folder).code).toBe(0);
    const csv = readFileSync(join(folder, "runs.csv"), "utf8");
    expect(csv).toContain(`'${name}`);
    expect(csv).not.toMatch(/(^|,)=1/m);
    expect(readFileSync(join(folder, "report.html"), "utf8")).not.toContain("<script");
  });
});

describe("a baseline that is no variant", () => {
  it.each([
    ["analyse", []],
    ["report", []],
  ])("is refused with 3, as what the file does not hold: %s", (command, more) => {
    const done = boilbench(command, readings, ...more, "--baseline", "no such", "--out", join(scratch, "b"));
    expect(done).toMatchObject({ code: 3, out: "" });
    expect(done.error).toMatch(/::variant: .*no such.*There are: /);
    expect(existsSync(join(scratch, "b"))).toBe(false);
  });
});

describe("the help of a command", () => {
  const names = ["analyse", "report", "export", "compare", "plan", "water"];

  it.each(names)("is printed to standard output, ends with 0, and is of that command alone: %s", (name) => {
    const done = boilbench(name, "--help");
    expect(done).toMatchObject({ code: 0, error: "" });
    expect(done.out).toContain(`boilbench ${name} `);
    for (const other of names.filter((one) => one !== name)) expect(done.out).not.toContain(`boilbench ${other} `);
    expect(done.out).toMatch(new RegExp(`^${name} +\\w`, "m"));
    expect(done.out).toContain("Exit codes: 0 done; 2 wrong usage");
  });

  it("is the same by -h, also behind other flags, and not of a command that is none", () => {
    expect(boilbench("plan", "--sd", "1", "-h")).toEqual(boilbench("plan", "--help"));
    expect(boilbench("analyze", "--help")).toMatchObject({ code: 2, out: "" });
    expect(boilbench("--help").out).toContain(boilbench("water", "-h").out.split("\n")[1] ?? "");
  });
});

describe("wrong usage ends with 2 and says what is right", () => {
  const wrong: [string, string[]][] = [
    ["no command", []],
    ["an unknown command", ["analyze", readings]],
    ["no readings", ["analyse", "--out", scratch]],
    ["two readings", ["analyse", readings, readings, "--out", scratch]],
    ["no --out", ["analyse", readings]],
    ["an unknown flag", ["analyse", readings, "--outt", scratch]],
    ["trials that are no number", ["analyse", readings, "--trials", "many", "--out", scratch]],
    ["less than no trials", ["analyse", readings, "--trials=-1", "--out", scratch]],
    ["more trials than anybody waits for", ["analyse", readings, "--trials", "1e9", "--out", scratch]],
    ["a seed that is no whole number", ["report", readings, "--seed", "1.5", "--out", scratch]],
    ["a method that is none", ["analyse", readings, "--method", "vita", "--out", scratch]],
    ["no place for water", ["water"]],
    ["two places for water", ["water", "--altitude", "1", "--pressure", "90"]],
    ["an altitude that is no number", ["water", "--altitude", "2,000"]],
  ];
  for (const [what, commandLine] of wrong) {
    it(what, () => {
      const done = boilbench(...commandLine);
      expect(done).toMatchObject({ code: 2, out: "" });
      expect(done.error).toContain("boilbench analyse READINGS.csv");
      expect(done.error).not.toMatch(/\n\s+at /);
    });
  }
});

describe("boilbench water", () => {
  it("gives pressure, boiling point and latent heat at an altitude", () => {
    // 79.495 kPa is ISO 2533's pressure at 2 000 m; boiling point and latent heat from IAPWS-IF97.
    const water = JSON.parse(boilbench("water", "--altitude", "2000", "--json").out);
    expect(Object.keys(water)).toEqual(["pressure", "boilingPoint", "latentHeat"]);
    expect(Math.abs(water.pressure - 79.4952)).toBeLessThan(0.0005);
    expect(Math.abs(water.boilingPoint - 93.3)).toBeLessThan(0.05);
    expect(Math.abs(water.latentHeat - 2274)).toBeLessThan(0.5);
  });

  it("takes a pressure, and an altitude below the sea", () => {
    const sea = JSON.parse(boilbench("water", "--pressure", "101.325", "--json").out);
    expect(Math.abs(sea.boilingPoint - 99.974)).toBeLessThan(0.001);
    expect(boilbench("water", "--altitude", "-400").out).toMatch(/boiling point 101\.\d+ °C/);
  });

  it("answers nothing outside its range, and says which it is", () => {
    const done = boilbench("water", "--altitude", "20000");
    expect(done).toMatchObject({ code: 3, out: "" });
    expect(done.error).toMatch(/11.000 m/);
  });
});
