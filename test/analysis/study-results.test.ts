import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { analyseStudy, compareIn, headlineKey, isFormulaOnly } from "../../core/analysis/study-results.ts";
import { keyText } from "../../core/quantity/quantity-key.ts";
import { resultsOf } from "../build/expect-quantities.ts";
import { buildSettings, buildStudy, type PhaseSheet, plainPhase, plainRun, type RunSheet } from "../build/readings.ts";
import { keyOf } from "../build/results.ts";
import { expectNumber } from "../numbers.ts";

/** A run whose pots lost a little more or less, so that runs differ. */
function runLosing(run: string, variant: string, extra: number, more: Partial<RunSheet> = {}): RunSheet {
  const sheet = plainRun(run, variant, more);
  const phases = sheet.phases.map((phase) => ({
    ...phase,
    pots: phase.pots.map((pot) => ("end" in pot ? { ...pot, end: pot.end - extra } : pot)),
  }));
  return { ...sheet, phases };
}

const analysed = (sheets: RunSheet[], settings = buildSettings()) => analyseStudy(buildStudy(sheets, settings), "en");

describe("a study's results", () => {
  const sheets = [
    runLosing("R1", "A", 0),
    runLosing("R2", "A", 30),
    runLosing("R3", "A", 10),
    runLosing("R4", "B", 100),
    runLosing("R5", "B", 120),
    runLosing("R6", "B", 90),
  ];

  it("count no run that was left out: not in means, numbers, comparisons or what leads", () => {
    const before = analysed(sheets);
    const after = analysed([...sheets, runLosing("R7", "B", 2000, { leftOut: "pot tipped over" })]);
    expect(after.runs).toHaveLength(7);
    expect(after.variants.map(({ variant, runs, leftOut }) => [variant, runs, leftOut])).toEqual([
      ["A", 3, 0],
      ["B", 3, 1],
    ]);
    for (const [index, { quantities }] of after.variants.entries()) {
      expect(quantities).toEqual(before.variants[index]?.quantities);
    }
    const key = keyOf("taskFuel5L");
    expect(compareIn(after, key, "B", "A")).toEqual(compareIn(before, key, "B", "A"));
    expect(headlineKey(after)).toEqual(headlineKey(before));
    expect(after.questions).toEqual(before.questions);
    // Its own results are still shown.
    expect(after.runs[6]?.values.has("taskFuel5L")).toBe(true);
  });

  it("give the mean of the counted runs", () => {
    const summary = analysed(sheets).variants[0]?.quantities.get("cold-start.waterEvaporated");
    // 200 g, 230 g and 210 g: mean 640 / 3, s^2 = (13.333^2 + 16.667^2 + 3.333^2) / 2 = 233.333
    expect(summary?.n).toBe(3);
    expectNumber(summary?.mean, 640 / 3, { relative: 1e-12 });
    expectNumber(summary?.standardDeviation, Math.sqrt(700 / 3), { relative: 1e-9 });
    expect(summary?.values).toEqual([200, 230, 210]);
  });

  it("of a variant whose runs were all left out are empty, and it keeps its place", () => {
    const results = analysed([runLosing("R0", "old", 5, { leftOut: "rain" }), ...sheets]);
    expect(results.variants.map(({ variant, index, runs }) => [variant, index, runs])).toEqual([
      ["old", 0, 0],
      ["A", 1, 3],
      ["B", 2, 3],
    ]);
    expect(results.variants[0]?.quantities.size).toBe(0);
    expect(compareIn(results, keyOf("taskFuel5L"), "old", "A")).toBeNull();
  });

  it("take any name for data", () => {
    const names = ["__proto__", "constructor", "toString", "hasOwnProperty"];
    const odd = names.flatMap((name, index) => [
      runLosing(`${name} 1`, name, index, { block: "__proto__" }),
      runLosing(`${name} 2`, name, index + 7, { block: "constructor" }),
    ]);
    const fuels = Object.fromEntries(names.map((name) => [name, { net: 17_000 }]));
    const withOddFuel = odd.map((sheet, index) => ({
      ...sheet,
      phases: sheet.phases.map((phase) => ({
        ...phase,
        fuels: phase.fuels.map(({ net: _, ...fuel }) => ({ ...fuel, fuel: names[index % names.length] ?? "" })),
      })),
    }));
    const results = analysed(withOddFuel, buildSettings(fuels));
    expect(results.variants.map(({ variant, runs }) => [variant, runs])).toEqual(names.map((name) => [name, 2]));
    for (const { quantities } of results.variants) expect(quantities.has("taskFuel5L")).toBe(true);
    expect(compareIn(results, keyOf("taskFuel5L"), "constructor", "__proto__")?.blocks).toBe(2);
    // A fuel that the settings do not know is not found among what every object has.
    const unknown = analysed(withOddFuel, buildSettings());
    expect(unknown.runs[0]?.values.has("taskFuel5L")).toBe(false);
  });

  it("lead with wood for the task, for ISO runs with the efficiency without char credit", () => {
    expect(headlineKey(analysed(sheets))).toEqual(keyOf("taskFuel5L"));
    const iso = (["high-power", "medium-power", "low-power"] as const).map((phase) => plainPhase(phase));
    expect(headlineKey(analysed([{ run: "I", variant: "A", phases: iso }]))).toEqual(
      keyOf("meanIsoEfficiencyWithoutChar"),
    );
    const coldOnly = [{ run: "C", variant: "A", phases: [plainPhase("cold-start")] }];
    expect(headlineKey(analysed(coldOnly))).toEqual(keyOf("cold-start.specificFuelConsumptionCorrected"));
    expect(headlineKey(analysed([]))).toBeNull();
    // Two variants of three without a simmer: what all three have leads.
    const short = (variant: string) => ({
      run: variant,
      variant,
      phases: [plainPhase("cold-start"), plainPhase("hot-start")],
    });
    expect(headlineKey(analysed([...sheets.slice(0, 3), short("B"), short("C")]))).toEqual(
      keyOf("highPowerThermalEfficiency"),
    );
  });

  it("tell the other method's formulas apart", () => {
    const results = analysed(sheets);
    expect(isFormulaOnly(results, keyOf("cold-start.isoEfficiencyWithChar"))).toBe(true);
    expect(isFormulaOnly(results, keyOf("cold-start.thermalEfficiency"))).toBe(false);
    expect(isFormulaOnly(results, keyOf("cold-start.waterEvaporated"))).toBe(false);
  });

  it("stand in the order in which they are shown: the run's own, then phase by phase", () => {
    const texts = analysed(sheets).keys.map(keyText);
    const phasesOf = texts.map((text) => (text.includes(".") ? (text.split(".")[0] ?? "") : "run"));
    expect([...new Set(phasesOf)]).toEqual(["run", "cold-start", "hot-start", "simmer"]);
    expect(phasesOf).toEqual([...phasesOf].sort((one, other) => phasesOf.indexOf(one) - phasesOf.indexOf(other)));
  });
});

describe("no number that is none", () => {
  const odd = fc.oneof(
    fc.constantFrom(0, 1e-300, 1e-9, 1, 1e9, 1e300, Number.MAX_VALUE),
    fc.double({ min: 0, max: 1e6, noNaN: true }),
  );
  const celsius = fc.double({ min: -5, max: 110, noNaN: true });
  const phase = (name: PhaseSheet["phase"]) =>
    fc
      .record({
        minutes: odd,
        before: odd,
        after: odd,
        wet: fc.double({ min: 0, max: 99.999, noNaN: true }),
        net: odd,
        char: odd,
        charAtStart: odd,
        air: celsius,
        boiling: celsius,
        empty: odd,
        start: odd,
        end: odd,
        from: celsius,
        to: celsius,
        co: odd,
        pm25: odd,
      })
      .map(
        ({ before, after, wet, net, empty, start, end, from, to, ...rest }): PhaseSheet => ({
          phase: name,
          fuels: [{ before, after, wet, net }],
          pots: [{ empty, start, end, from, to }],
          ...rest,
        }),
      );

  it.each([
    ["a Water Boiling Test", ["cold-start", "hot-start", "simmer"]],
    ["an ISO run", ["high-power", "medium-power", "low-power"]],
  ] as const)("leaves the results of %s, whatever the readings; what is not given is named, once", (_name, names) => {
    const phases = fc.tuple(...names.map((name) => phase(name)));
    fc.assert(
      fc.property(phases, (sheets) => {
        const results = resultsOf({ run: "R", variant: "A", phases: sheets });
        for (const { values, missing } of [...results.phases, results]) {
          for (const [name, value] of values) if (!Number.isFinite(value)) throw new Error(`${name} is ${value}`);
          const named: readonly string[] = missing.map(({ quantity }) => quantity);
          expect(new Set(named).size).toBe(named.length);
          for (const name of named) expect([...values.keys()]).not.toContain(name);
        }
        const counts = results.phases.map(({ values, missing }) => values.size + missing.length);
        expect(Math.min(...counts)).toBeGreaterThanOrEqual(25);
      }),
      { numRuns: 300 },
    );
  });
});
