import { describe, expect, it } from "vitest";
import { runResults } from "../../core/analysis/run-results.ts";
import { analyseStudy } from "../../core/analysis/study-results.ts";
import { atOnce } from "../../core/numeric/in-steps.ts";
import { physicalRange } from "../../core/quantity/physical-range.ts";
import { parseKey } from "../../core/quantity/quantity-key.ts";
import type { InstrumentRole } from "../../core/readings/reading.ts";
import type { Settings, UncertaintyComponent } from "../../core/readings/settings.ts";
import { resultsFile } from "../../core/report/results-file.ts";
import type { Simulation } from "../../core/report/simulation.ts";
import { monteCarlo } from "../../core/uncertainty/monte-carlo/monte-carlo.ts";
import { runModel } from "../../core/uncertainty/run-model.ts";
import { buildRun, buildSettings, buildStudy, type PhaseSheet, plainPhase, type RunSheet } from "../build/readings.ts";
import { expectNumber } from "../numbers.ts";
import { baselineA, longerB, provenance, runsOf } from "./duration-study.ts";

// Uncertainties in results.json. Expected numbers: by hand from JCGM 100:2008, with qt and qnorm of R 4.2.2 for the coverage factors;
// for whole formulas by central differences over the readings themselves, which knows nothing of how the program propagates.

const component = (
  name: string,
  size: UncertaintyComponent["size"],
  more: Partial<UncertaintyComponent> = {},
): UncertaintyComponent => ({ name, distribution: "normal", size, kind: "shared", degreesOfFreedom: null, ...more });
const instruments = (of: Partial<Record<InstrumentRole, UncertaintyComponent[]>>): Settings["instruments"] =>
  new Map(Object.entries(of).map(([role, components]) => [role as InstrumentRole, { components }]));
const withInstruments = (of: Partial<Record<InstrumentRole, UncertaintyComponent[]>>, more: Partial<Settings> = {}) =>
  buildSettings({}, { instruments: instruments(of), ...more });

const resolution = component("resolution", { halfWidth: 0.5 }, { distribution: "rectangular", kind: "independent" });
const gain = component("gain", { relativeExpandedUncertainty: 0.002, coverageFactor: 2 });
const close = { relative: 1e-9 };

/** Draws all runs in this process, as the workers do. */
function simulated(sheets: readonly RunSheet[], settings: Settings, trials: number): Simulation {
  const runs = sheets.map((sheet) => {
    const run = buildRun(sheet);
    const model = runModel(run, settings);
    const ranges = model.keys.map((text) => {
      const key = parseKey(text);
      if (key === null) throw new Error(text);
      return physicalRange(key.quantity);
    });
    const { outputs } = atOnce(monteCarlo(model, { trials, seed: 1, confidence: settings.confidence, ranges }));
    const byKey = new Map(outputs.map((output, index) => [model.keys[index] as string, output]));
    return [run.id, { trials, seed: 1, outputs: byKey, stable: null }] as const;
  });
  return { wanted: trials, trials, seed: 1, isAdaptive: false, runs: new Map(runs) };
}

function fileOf(sheets: readonly RunSheet[], settings: Settings, trials = 0) {
  const simulation = trials === 0 ? null : simulated(sheets, settings, trials);
  const file = resultsFile(analyseStudy(buildStudy(sheets, settings), "en"), provenance, "A", simulation);
  return JSON.parse(JSON.stringify(file)) as ResultsJson;
}

interface Value {
  readonly value: number;
  readonly standardUncertainty?: number | null;
  readonly degreesOfFreedom?: number;
  readonly interval?: { level: number; lower: number | null; upper: number | null } | null;
  readonly monteCarlo?: {
    mean: number | null;
    standardUncertainty: number | null;
    shortestInterval: { lower: number; upper: number } | null;
    validates: boolean | null;
    trials: number;
    seed: number;
  };
}
interface Combined {
  readonly value: number;
  readonly lower: number;
  readonly upper: number;
  readonly standardUncertainty: number;
  readonly degreesOfFreedom: number | null;
  readonly scatterUncertainty: number;
  readonly sharedUncertainty: number;
  readonly sharedUncertaintyIfSeparate: number;
}
interface ResultsJson {
  readonly runs: { phases: { values: Record<string, Value> }[]; values: Record<string, Value>; notes: string[] }[];
  readonly variants: {
    quantities: Record<
      string,
      {
        interval: unknown;
        sharedUncertainty: number;
        combinedUncertainty: number;
        combinedDegreesOfFreedom: number | null;
        combinedInterval: { level: number; lower: number; upper: number };
        notes?: string[];
      }
    >;
  }[];
  readonly comparisons: {
    quantity: string;
    sentence: string;
    notes: string[];
    difference: { lower: number };
    combinedDifference?: Combined;
    combinedRatio?: Combined;
  }[];
  readonly notes: string[];
}
const valueIn = (file: ResultsJson, quantity: string, run = 0): Value => {
  const value = file.runs[run]?.phases[0]?.values[quantity];
  if (value === undefined) throw new Error(`no ${quantity}`);
  return value;
};
const key = "cold-start.duration";
const durationIn = ({ comparisons }: ResultsJson) => {
  const found = comparisons.find(({ quantity }) => quantity === key);
  if (found === undefined) throw new Error("no comparison");
  return found;
};

describe("a run's values", () => {
  it("a difference of two weighings: each its own rounding, one gain (calculations by hand)", () => {
    // 1500 - 900 g: u^2 = 2 x 0.5^2/3 + (0.001 x 600)^2, R: 600 -+ qnorm(0.975) u.
    const file = fileOf(baselineA, withInstruments({ fuelBalance: [resolution, gain] }));
    const fuel = valueIn(file, "fuelConsumedMoist");
    expectNumber(fuel.standardUncertainty, 0.725718035235908, close);
    expectNumber(fuel.interval?.lower, 598.577618788006, close);
    expectNumber(fuel.interval?.upper, 601.422381211994, close);
    expect(fuel.interval?.level).toBe(0.95);
    expect(fuel).not.toHaveProperty("monteCarlo");
    expect(fuel).not.toHaveProperty("degreesOfFreedom");
    expect(file.notes.join(" ")).toMatch(/No Monte Carlo was run/);
  });

  it("a size that came from four readings has its degrees of freedom, where they matter", () => {
    // Gain alone, 4 degrees of freedom: nu is 4 for what it reaches (JCGM 100, G.4.1), t(0.975, 4) = 2.776445 (tables).
    const few = component("gain", { relativeStandardUncertainty: 0.001 }, { degreesOfFreedom: 4 });
    const fuel = valueIn(fileOf(baselineA, withInstruments({ fuelBalance: [few] })), "fuelConsumedMoist");
    expectNumber(fuel.degreesOfFreedom, 4, close);
    expectNumber(fuel.interval?.upper, 600 + 2.776445 * 0.6, { relative: 1e-8 });
  });

  it("without stated errors nothing of it is there, and the notes say that scatter is all", () => {
    const file = fileOf([...baselineA, ...longerB], buildSettings());
    expect(valueIn(file, "thermalEfficiency")).toEqual({ value: expect.any(Number), unit: "1" });
    expect(file.comparisons[0]).not.toHaveProperty("combinedRatio");
    expect(file.variants[0]?.quantities[key]).not.toHaveProperty("combinedInterval");
    expect(file.notes.join(" ")).toMatch(/run-to-run scatter alone/);
    expect(durationIn(file).sentence).not.toMatch(/errors included/);
  });

  it("names the instruments of which nothing is stated", () => {
    const notes = fileOf(baselineA, withInstruments({ fuelBalance: [resolution] })).runs[0]?.notes.join(" ");
    expect(notes).toMatch(/^Not included: /);
    for (const role of ["balance for pots", "thermometer", "moisture meter", "clock"]) expect(notes).toContain(role);
    expect(notes).not.toMatch(/balance for fuel/);
  });
});

describe("first order against central differences over the readings, and against trials", () => {
  // Everything that the efficiency of a cold start is read from, with a shared error of thermometer, meter, gain of one balance for all
  // weighings, and the rounding of each weighing.
  const sheetWith = (change: { [name: string]: number }): RunSheet => {
    const { rounding0 = 0, rounding1 = 0, rounding2 = 0, rounding3 = 0, rounding4 = 0, rounding5 = 0 } = change;
    // Net char is two weighings.
    const { rounding6 = 0 } = change;
    const { gainOff = 0, offset = 0, meter = 0 } = change;
    const mass = (value: number, rounding: number) => value * (1 + gainOff) + rounding;
    const phase: Partial<PhaseSheet> = {
      fuels: [
        { fuel: "pine", wet: 10 + meter, net: 18_500, before: mass(1500, rounding0), after: mass(900, rounding1) },
      ],
      char: mass(60, rounding2 + rounding6),
      charAtStart: 0,
      air: 25 + offset,
      boiling: 98 + offset,
      pots: [
        {
          empty: mass(600, rounding3),
          start: mass(5600, rounding4),
          end: mass(5400, rounding5),
          from: 25 + offset,
          to: 98 + offset,
        },
      ],
    };
    return { run: "R", variant: "A", phases: [plainPhase("cold-start", phase)] };
  };
  const sizes: Record<string, number> = {
    ...Object.fromEntries([0, 1, 2, 3, 4, 5, 6].map((index) => [`rounding${index}`, 0.5 / Math.sqrt(3)])),
    gainOff: 0.001,
    offset: 0.5,
    meter: 1.5,
  };
  const settings = withInstruments(
    {
      fuelBalance: [resolution, gain],
      thermometer: [component("offset", { standardUncertainty: 0.5 })],
      moistureMeter: [component("meter", { standardUncertainty: 1.5 })],
    },
    {
      instruments: new Map([
        ["fuelBalance", { components: [resolution, gain] }],
        ["potBalance", { sameAs: "fuelBalance" }],
        ["thermometer", { components: [component("offset", { standardUncertainty: 0.5 })] }],
        ["moistureMeter", { components: [component("meter", { standardUncertainty: 1.5 })] }],
      ]),
    },
  );
  const quantities = [
    "thermalEfficiency",
    "fuelConsumedDryEquivalent",
    "specificFuelConsumption",
    "firepower",
  ] as const;

  function numerically(quantity: (typeof quantities)[number]): number {
    const at = (name: string, by: number) => {
      const run = buildRun(sheetWith({ [name]: by }));
      return runResults(run, settings, "en").phases[0]?.values.get(quantity) ?? Number.NaN;
    };
    // Central differences with a hundredth of each size.
    const parts = Object.entries(sizes).map(([name, size]) => 50 * (at(name, size / 100) - at(name, -size / 100)));
    return Math.hypot(...parts);
  }

  const file = fileOf([sheetWith({})], settings, 40_000);
  it.each(quantities)("%s", (quantity) => {
    const value = valueIn(file, quantity);
    const expected = numerically(quantity);
    expect(expected).toBeGreaterThan(0);
    expectNumber(value.standardUncertainty, expected, { relative: 1e-6 });
    // Trials: standard deviations of 40 000 are off by u/sqrt(2 x 40 000) = 0.35 %, their mean by 0.5 % of u: five times that.
    const trials = value.monteCarlo;
    expectNumber(trials?.standardUncertainty, expected, { relative: 0.03 });
    expectNumber(trials?.mean, value.value, { absolute: 0.06 * expected });
    expectNumber(value.interval?.lower, value.value - 1.96 * expected, { absolute: 0.2 * expected });
    expectNumber(value.interval?.upper, value.value + 1.96 * expected, { absolute: 0.2 * expected });
    expect(trials).toMatchObject({ trials: 40_000, seed: 1 });
    const shortest = (trials?.shortestInterval?.upper ?? NaN) - (trials?.shortestInterval?.lower ?? NaN);
    expect(shortest).toBeLessThanOrEqual((value.interval?.upper ?? NaN) - (value.interval?.lower ?? NaN));
  });
});

describe("what the trials say", () => {
  const sheets = baselineA.slice(0, 1);

  it("a normal error of a sum validates first order; too few trials leave it open", () => {
    const settings = withInstruments({ fuelBalance: [gain] });
    expect(valueIn(fileOf(sheets, settings, 40_000), "fuelConsumedMoist").monteCarlo?.validates).toBe(true);
    const few = fileOf(sheets, settings, 2_000);
    expect(valueIn(few, "fuelConsumedMoist").monteCarlo?.validates).toBeNull();
    expect(few.notes.join(" ")).toMatch(/fewer than 10.000 trials/);
    // Of 9 trials 0.95 are all of them (JCGM 101:2008, 7.7.2: the whole part of 8.55 + 0.5), so no interval has an end.
    const hardlyAny = fileOf(sheets, settings, 9);
    expect(valueIn(hardlyAny, "fuelConsumedMoist").interval).toBeNull();
    expect(hardlyAny.notes.join(" ")).toMatch(/interval is null.*200.000 trials/);
    expect(few.notes.join(" ")).not.toMatch(/interval is null/);
  });

  it("one rectangular error: its ends are at 0.95 of the half-width, not at 1.96 u, and it is said", () => {
    // +- 5 min on a duration of 20: 20 -+ 4.75; first order 20 -+ 1.96 x 5/sqrt(3) = 20 -+ 5.66.
    const clock = component("reading", { halfWidth: 300 }, { distribution: "rectangular" });
    const file = fileOf(sheets, withInstruments({ clock: [clock] }), 40_000);
    const duration = valueIn(file, "duration");
    expectNumber(duration.standardUncertainty, 5 / Math.sqrt(3), close);
    expectNumber(duration.interval?.lower, 15.25, { absolute: 0.05 });
    expectNumber(duration.interval?.upper, 24.75, { absolute: 0.05 });
    expect(duration.monteCarlo?.validates).toBe(false);
    expect(file.runs[0]?.notes.join("\n")).toMatch(/normal distribution.*duration, cold start/);
  });

  it("an error of one degree of freedom, whose mean does not exist, does not make a sum of masses non-linear", () => {
    // Cauchy's distribution: the mean of any number of draws strays as far as one draw does.
    const certificate = component("certificate", { relativeStandardUncertainty: 0.01 }, { degreesOfFreedom: 1 });
    const file = fileOf(sheets, withInstruments({ fuelBalance: [certificate] }), 40_000);
    expect(valueIn(file, "fuelConsumedMoist").monteCarlo?.validates).toBe(false);
    const notes = file.runs[0]?.notes.join("\n") ?? "";
    expect(notes).toMatch(/normal distribution[^\n]*moist wood used, cold start/);
    expect(notes).not.toMatch(/non-linear[^\n]*moist wood used, cold start/);
  });

  it("gives no mean and no standard deviation where a t has none, and says so; the intervals hold", () => {
    // JCGM 101:2008, 6.4.9.4 (from memory): a mean above 1 degree of freedom, a standard deviation above 2. Only the fuel's balance has so few.
    const certificate = (degreesOfFreedom: number) =>
      component("certificate", { relativeStandardUncertainty: 0.01 }, { degreesOfFreedom });
    const of = (degreesOfFreedom: number) => {
      const errors = { fuelBalance: [certificate(degreesOfFreedom)], potBalance: [certificate(50)] };
      const file = fileOf(sheets, withInstruments(errors), 10_000);
      const note = file.runs[0]?.notes.find((text) => text.includes("has no standard deviation")) ?? "";
      return { fuel: valueIn(file, "fuelConsumedMoist"), water: valueIn(file, "waterEvaporated"), note };
    };
    const [one, two, three] = [of(1), of(2), of(3)];
    expect(one.fuel.monteCarlo).toMatchObject({ mean: null, standardUncertainty: null });
    expect(two.fuel.monteCarlo).toMatchObject({ mean: expect.any(Number), standardUncertainty: null });
    expect(three.fuel.monteCarlo).toMatchObject({ mean: expect.any(Number), standardUncertainty: expect.any(Number) });
    // 600 g with u = 6 g: t(0.975, 2) = 4.302653 (qt of R 4.2.2); of 10,000 draws the ends stray by some per cent.
    expectNumber(two.fuel.interval?.upper, 600 + 4.302653 * 6, { absolute: 2.5 });
    for (const { water } of [one, two]) expect(water.monteCarlo?.standardUncertainty).toEqual(expect.any(Number));
    expect(two.note).toMatch(/moist wood used, cold start/);
    expect(two.note).not.toMatch(/water/);
    expect(three.note).toBe("");
  });

  it("gives them where an error of few degrees of freedom cancels", () => {
    // One balance for wood, char and water, with a gain alone: heat and energy of the wood are both as large as the balance makes them.
    const gainOfOne = component("certificate", { relativeStandardUncertainty: 1e-5 }, { degreesOfFreedom: 1 });
    const meter = component("meter", { standardUncertainty: 1.5 });
    const settings = withInstruments({ fuelBalance: [gainOfOne], moistureMeter: [meter] });
    const oneBalance = new Map([...settings.instruments, ["potBalance" as const, { sameAs: "fuelBalance" as const }]]);
    const file = fileOf(sheets, { ...settings, instruments: oneBalance }, 10_000);
    expect(valueIn(file, "fuelConsumedMoist").monteCarlo).toMatchObject({ mean: null, standardUncertainty: null });
    expect(valueIn(file, "thermalEfficiency").monteCarlo).toMatchObject({
      mean: expect.any(Number),
      standardUncertainty: expect.any(Number),
    });
  });

  it("a fuel mass that could be zero: the efficiency leaves its range, has no sound mean, and Monte Carlo's interval leads", () => {
    // 600 g with an error of 300 g: more than two per cent of the draws burn nothing at all (two standard deviations).
    const wild = component("scale", { standardUncertainty: 300 / Math.SQRT2 }, { kind: "independent" });
    const file = fileOf(sheets, withInstruments({ fuelBalance: [wild] }), 40_000);
    const efficiency = valueIn(file, "thermalEfficiency");
    expect(efficiency.monteCarlo?.validates).toBe(false);
    const notes = file.runs[0]?.notes.join("\n") ?? "";
    expect(notes).toMatch(/outside what is physically possible.*thermal efficiency, cold start/);
    expect(notes).toMatch(/non-linear.*thermal efficiency, cold start/);
    // Of the mass itself nothing is bent.
    expect(notes).not.toMatch(/non-linear[^\n]*moist wood used/);
    expect(JSON.stringify(file)).not.toMatch(/NaN|Infinity/);
  });
});

describe("means and comparisons", () => {
  // The clock runs fast or slow by 1 %, one error for all: 0.21 min of A's mean (21), 0.31 of B's (31), 0.1 of their difference.
  const rate = component("rate", { relativeStandardUncertainty: 0.01 });
  const settings = withInstruments({ clock: [rate] });
  const file = fileOf([...baselineA, ...longerB], settings);

  it("a mean: u^2 = s^2/n + shared^2, degrees of freedom after Satterthwaite (R)", () => {
    const mean = file.variants[0]?.quantities[key];
    expectNumber(mean?.sharedUncertainty, 0.21, close);
    expectNumber(mean?.combinedUncertainty, 0.614356031412839, close);
    expectNumber(mean?.combinedDegreesOfFreedom, 2.56420658, { relative: 1e-8 });
    expectNumber(mean?.combinedInterval.lower, 18.8427367432253, { relative: 1e-8 });
    expectNumber(mean?.combinedInterval.upper, 23.1572632567747, { relative: 1e-8 });
    expect(mean?.notes).toBeUndefined();
  });

  it("a difference: the shared error is that of 10 min, not of 21 and of 31 (R)", () => {
    const { combinedDifference: difference, sentence, notes } = durationIn(file);
    expectNumber(difference?.value, 10, close);
    expectNumber(difference?.standardUncertainty, 0.822597511950204, close);
    expectNumber(difference?.degreesOfFreedom, 4.1209, { relative: 1e-8 });
    expectNumber(difference?.lower, 7.7422876598292, { relative: 1e-8 });
    expectNumber(difference?.upper, 12.2577123401708, { relative: 1e-8 });
    expectNumber(difference?.scatterUncertainty, Math.sqrt(2 / 3), close);
    expectNumber(difference?.sharedUncertainty, 0.1, close);
    expectNumber(difference?.sharedUncertaintyIfSeparate, Math.hypot(0.21, 0.31), close);
    expect(sentence).toMatch(/instruments’ errors included; 3 runs against 3/);
    expect(notes.join(" ")).toMatch(/99 % of this uncertainty is run-to-run scatter/);
    expect(notes.join(" ")).toMatch(/cancel in part/);
  });

  it("a ratio: a common rate cancels, and Fieller's limits with the covariance are these (R)", () => {
    const ratio = durationIn(file).combinedRatio;
    expectNumber(ratio?.value, 31 / 21, close);
    expectNumber(ratio?.sharedUncertainty, 0, { absolute: 1e-12 });
    expectNumber(ratio?.standardUncertainty, 0.0490201673986121, close);
    expectNumber(ratio?.degreesOfFreedom, 3.51627993509851, { relative: 1e-8 });
    expectNumber(ratio?.lower, 1.34119529566, { relative: 1e-8 });
    expectNumber(ratio?.upper, 1.63053531737, { relative: 1e-8 });
  });

  it("intervals from scatter alone stay what they were", () => {
    const before = fileOf([...baselineA, ...longerB], buildSettings());
    expect(durationIn(file).difference).toEqual(durationIn(before).difference);
    expect(file.variants[0]?.quantities[key]?.interval).toEqual(before.variants[0]?.quantities[key]?.interval);
    expect(file.notes.join(" ")).toMatch(/combined…/);
  });

  it("one run: from the instruments alone, marked", () => {
    // 30 min -+ qnorm(0.975) x 0.3
    const one = fileOf([...baselineA, ...longerB.slice(0, 1)], settings).variants[1]?.quantities[key];
    expect(one?.interval).toBeNull();
    expectNumber(one?.combinedInterval.lower, 29.412010804638, close);
    expectNumber(one?.combinedInterval.upper, 30.587989195362, close);
    expect(one?.combinedDegreesOfFreedom).toBeNull();
    expect(one?.notes).toEqual([expect.stringMatching(/No replicates/)]);
  });

  it("a left-out run has its uncertainty, and counts nowhere", () => {
    const extra = runsOf("X", [90], { variant: "B", leftOut: "rain" });
    const more = fileOf([...baselineA, ...longerB, ...extra], settings);
    expectNumber(valueIn(more, "duration", 6).standardUncertainty, 0.9, close);
    expect(more.variants).toEqual(file.variants.map((one, index) => (index === 1 ? { ...one, leftOut: 1 } : one)));
  });
});
