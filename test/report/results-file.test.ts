import { describe, expect, it } from "vitest";
import { unitOf } from "../../core/quantity/quantity-table.ts";
import type { StudyProvenance } from "../../core/report/report-request.ts";
import { resultsFile } from "../../core/report/results-file.ts";
import { runsTable } from "../../core/report/runs-table.ts";
import { plainRun, type RunSheet } from "../build/readings.ts";
import { expectNumber } from "../numbers.ts";
import { analysed, baselineA, longerB, provenance, runsOf } from "./duration-study.ts";

// The layout boilbench-results/1: other programs rely on its names. Numbers from R 4.2.2: t.test, on the logarithms for the ratio
// of geometric means, and Fieller's definition with qt.

const fileOf = (sheets: readonly RunSheet[], more: Partial<StudyProvenance> = {}, baseline = "A") =>
  resultsFile(analysed(sheets), { ...provenance, ...more }, baseline);
const close = { relative: 1e-9 };
const key = "cold-start.duration";
const comparisonOf = (file: ReturnType<typeof fileOf>, variant = "B") => {
  const found = file.comparisons.find((one) => one.quantity === key && one.variant === variant);
  if (found === undefined) throw new Error(`no comparison of ${variant}`);
  return found;
};

describe("results.json", () => {
  const file = fileOf([...baselineA, ...longerB]);

  it("begins with what it is, what made it, and from what", () => {
    expect(file).toMatchObject({
      schema: "boilbench-results/1",
      program: { name: "boilbench", version: "9.8.7" },
      inputs: provenance.inputs,
      method: "wbt",
      confidence: 0.95,
      baseline: "A",
      leftOutRows: [],
    });
    expect(Object.keys(file).sort()).toEqual(
      [
        ...["schema", "program", "inputs", "method", "confidence", "baseline", "runs", "variants", "comparisons"],
        ...["ratings", "leftOutRows", "questions", "notes"],
      ].sort(),
    );
  });

  it("has each run with its values in the table's units", () => {
    expect(file.runs.map(({ run, variant, leftOut }) => [run, variant, leftOut])).toEqual([
      ["A1", "A", null],
      ["A2", "A", null],
      ["A3", "A", null],
      ["B1", "B", null],
      ["B2", "B", null],
      ["B3", "B", null],
    ]);
    const [phase] = file.runs[0]?.phases ?? [];
    expect(phase?.phase).toBe("cold-start");
    expect(phase?.values.duration).toEqual({ value: 20, unit: "min" });
    // 1500 g before, 900 g after.
    expect(phase?.values.fuelConsumedMoist).toEqual({ value: 600, unit: "g" });
    for (const [name, { unit }] of Object.entries(phase?.values ?? {})) expect(unit).toBe(unitOf(name as never));
  });

  it("names what a run lacks, with the reason, and does not hold it", () => {
    const [run] = file.runs;
    expect(run?.missing).toContainEqual({ quantity: "turnDownRatio", because: "no hot start phase" });
    expect(run?.values).toEqual({});
    // Without moisture: the phase stands in front of the name.
    const dry = fileOf(
      baselineA.map((sheet) => ({
        ...sheet,
        phases: sheet.phases.map((one) => ({ ...one, fuels: [{ before: 900, after: 300, net: 18_000 }] })),
      })),
    );
    const missing = dry.runs[0]?.missing.find(({ quantity }) => quantity === "cold-start.thermalEfficiency");
    expect(missing?.because).toMatch(/moisture/);
    expect(dry.runs[0]?.phases[0]?.values).not.toHaveProperty("thermalEfficiency");
  });

  it("has mean, scatter and interval of each variant", () => {
    const quantity = file.variants[0]?.quantities[key];
    expect(file.variants.map(({ variant, runs, leftOut }) => [variant, runs, leftOut])).toEqual([
      ["A", 3, 0],
      ["B", 3, 0],
    ]);
    expect(quantity).toMatchObject({ unit: "min", n: 3, interval: { level: 0.95 } });
    expectNumber(quantity?.mean, 21, close);
    expectNumber(quantity?.standardDeviation, 1, close);
    expectNumber(quantity?.coefficientOfVariation, 1 / 21, close);
    expectNumber(quantity?.interval?.lower, 18.5158622882497, close);
    expectNumber(quantity?.interval?.upper, 23.4841377117503, close);
  });

  it("has Welch's difference, Fieller's ratio and the ratio of geometric means against the baseline", () => {
    const comparison = comparisonOf(file);
    expect(comparison).toMatchObject({ quantity: key, baseline: "A", variant: "B", notes: [] });
    expectNumber(comparison.difference.value, 10, close);
    expectNumber(comparison.difference.lower, 7.73304206447248, close);
    expectNumber(comparison.difference.upper, 12.2669579355275, close);
    expectNumber(comparison.welch.t, 12.2474487139159, close);
    expectNumber(comparison.welch.degreesOfFreedom, 4, close);
    expectNumber(comparison.welch.p, 2.55216749441926e-4, close);
    expectNumber(comparison.ratio.value, 31 / 21, close);
    expectNumber(comparison.ratio.lower, 1.34125, { relative: 1e-6 });
    expectNumber(comparison.ratio.upper, 1.630464, { relative: 1e-6 });
    expectNumber(comparison.logRatio.value, 1.47679535793851, close);
    expectNumber(comparison.logRatio.lower, 1.33960106608916, close);
    expectNumber(comparison.logRatio.upper, 1.62804030575739, close);
    expect(comparison.sentence).toMatch(/“B”.*48.*“A”/);
    expect(file.comparisons.every(({ variant, baseline }) => variant === "B" && baseline === "A")).toBe(true);
  });

  it("has null, and the difference still, where a variant has one run", () => {
    const one = fileOf([...baselineA, ...longerB.slice(0, 1)]);
    expect(one.variants[1]?.quantities[key]).toEqual({
      unit: "min",
      n: 1,
      mean: 30,
      standardDeviation: null,
      coefficientOfVariation: null,
      interval: null,
    });
    const comparison = comparisonOf(one);
    expect(comparison.difference).toEqual({ value: 9, lower: null, upper: null });
    expectNumber(comparison.ratio.value, 30 / 21, close);
    expect(comparison.ratio).toMatchObject({ lower: null, upper: null });
    expect(comparison.logRatio).toMatchObject({ lower: null, upper: null });
    expect(comparison.welch).toEqual({ t: null, degreesOfFreedom: null, p: null });
    expect(comparison.warnings.join(" ")).toMatch(/one run/);
  });

  it("has null on an unbounded side, with a note", () => {
    // Means 15.5 and 15: the baseline's is not clear of zero (1 and 30 min), so by Fieller every ratio is possible.
    const wide = fileOf([...runsOf("A", [1, 30]), ...runsOf("B", [10, 20])]);
    const { ratio, difference, notes } = comparisonOf(wide);
    expectNumber(ratio.value, 15 / 15.5, close);
    expect(ratio).toMatchObject({ lower: null, upper: null });
    expectNumber(difference.lower, -126.41569165, { relative: 1e-8 });
    expect(notes).toHaveLength(1);
    expect(notes[0]).toMatch(/ratio/);
  });

  it("keeps what was left out, with the reason, and counts it nowhere", () => {
    const row = { file: "readings.csv", row: 9, run: "B9", phase: "cold-start", reasons: ["end before start"] };
    const with4 = fileOf(
      [...baselineA, ...longerB, ...runsOf("X", [90], { variant: "B", leftOut: "pot tipped over" })],
      { leftOutRows: [row] },
    );
    expect(with4.leftOutRows).toEqual([row]);
    const run = with4.runs.find((one) => one.run === "X1");
    expect(run).toMatchObject({ variant: "B", leftOut: "pot tipped over" });
    expect(run?.phases[0]?.values.duration?.value).toBe(90);
    expect(with4.variants[1]).toMatchObject({ runs: 3, leftOut: 1 });
    expect(with4.variants[1]?.quantities[key]?.n).toBe(3);
    expect(comparisonOf(with4)).toEqual(comparisonOf(file));
  });

  it("rates each variant, with probabilities that add up to 1", () => {
    const extra = [0, 40, 90];
    const whole = ["A1", "A2", "A3"].map((run, index) => {
      const sheet = plainRun(run, "A");
      const phases = sheet.phases.map((phase) => ({ ...phase, char: 60 + (extra[index] ?? 0) / 10 }));
      return { ...sheet, phases };
    });
    const { ratings } = fileOf(whole);
    expect(ratings.map(({ framework, quantity }) => [framework, quantity])).toEqual([
      ["IWA 11:2012", "highPowerThermalEfficiency"],
      ["IWA 11:2012", "simmer.lowPowerSpecificEnergyRate"],
    ]);
    for (const { variant, tier, tierAtUnfavourableLimit, probabilities } of ratings) {
      expect(variant).toBe("A");
      expect(tierAtUnfavourableLimit).toBeLessThanOrEqual(tier);
      expect(probabilities).toHaveLength(5);
      expectNumber(
        probabilities.reduce((total, one) => total + one, 0),
        1,
        close,
      );
    }
  });

  it("is plain data: it reads back as it was written, and every number is one", () => {
    const odd = [...runsOf("A", [20, 21]), ...runsOf("P", [30], { run: "__proto__", variant: "__proto__" })];
    for (const one of [file, fileOf(odd), fileOf([{ run: "R", variant: "A", phases: [] }]), fileOf([])]) {
      const text = JSON.stringify(one);
      expect(JSON.parse(text)).toEqual(one);
      expect(text).not.toMatch(/NaN|Infinity|undefined/);
    }
    expect(fileOf(odd).variants.map(({ variant }) => variant)).toEqual(["A", "__proto__"]);
    expect(comparisonOf(fileOf(odd), "__proto__").difference.value).toBe(9.5);
  });
});

describe("runs.csv", () => {
  it("has one row for each run, then a column for each quantity that some run has", () => {
    const [heading = [], ...rows] = runsTable(
      analysed([...baselineA, ...runsOf("X", [90], { variant: "B", leftOut: "rain", block: "day 1" })]),
    );
    expect(heading.slice(0, 5)).toEqual(["run", "variant", "block", "order", "leftOut"]);
    const column = heading.indexOf(key);
    expect(rows.map((row) => [...row.slice(0, 5), row[column]])).toEqual([
      ["A1", "A", null, null, null, 20],
      ["A2", "A", null, null, null, 21],
      ["A3", "A", null, null, null, 22],
      ["X1", "B", "day 1", null, "rain", 90],
    ]);
    expect(heading).not.toContain("taskFuel5L");
    expect(new Set(heading).size).toBe(heading.length);
    for (const row of rows) expect(row).toHaveLength(heading.length);
  });
});
