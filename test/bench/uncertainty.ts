/**
 * `node test/bench/uncertainty.ts`: Monte Carlo of one run of three phases by the clock, on one core and on two workers, side by side with
 * numpy on the same model in the same run (python3 with numpy, as Debian's python3-numpy brings it). Part of `npm run bench`; prints a
 * line of JSON a figure. `one` and `two` print what the processes of their own measured.
 */
import { execFileSync, spawnSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { readReadings, readSettings, readTable } from "../../app/import/index.ts";
import { MonteCarloDesk } from "../../app/service/uncertainty/monte-carlo-desk.ts";
import {
  atOnce,
  componentUncertainty,
  monteCarlo,
  type OutputTrials,
  type Run,
  runErrors,
  runModel,
} from "../../core/index.ts";
import { plainNumbers } from "../../core/numeric/arithmetic.ts";
import { constants } from "../../core/quantity/constants.ts";
import { latentHeat } from "../../core/water/latent-heat.ts";
import { goodRequest, goodRun } from "../service/uncertainty/good-run.ts";
import { manyRuns } from "./many-runs.ts";

const TRIALS = 1_000_000;
const ROUNDS = 5;
const { run, settings } = goodRun();
const seed = 1;
const confidence = 0.95;

type Unit = "ms" | "MB" | "times" | "";
const print = (name: string, value: number | string, unit: Unit) => console.log(JSON.stringify({ name, value, unit }));
const median = (times: readonly number[]) => times.toSorted((one, other) => one - other)[times.length >> 1] ?? 0;

/** What a process of its own measured. */
interface Measured {
  readonly times: readonly number[];
  /** Most memory that the process had, MB. */
  readonly memory: number;
  readonly outputs: Readonly<Record<string, OutputTrials>>;
}

async function measure(work: () => Promise<Readonly<Record<string, OutputTrials>>>): Promise<Measured> {
  const times: number[] = [];
  let outputs: Measured["outputs"] = {};
  for (let round = 0; round < ROUNDS; round += 1) {
    const start = performance.now();
    outputs = await work();
    times.push(performance.now() - start);
  }
  return { times, memory: process.resourceUsage().maxRSS / 1024, outputs };
}

async function inThisThread(): Promise<Readonly<Record<string, OutputTrials>>> {
  const model = runModel(run, settings);
  const { outputs } = atOnce(monteCarlo(model, { trials: TRIALS, seed, confidence }));
  return Object.fromEntries(outputs.map((output, at) => [model.keys[at], output]));
}

async function onTwoWorkers(): Promise<Measured> {
  const desk = new MonteCarloDesk(2);
  const measured = await measure(async () =>
    Object.fromEntries((await desk.run(goodRequest(TRIALS, { seed, confidence }))).outputs),
  );
  await desk.close();
  return measured;
}

function inItsOwnProcess(part: "one" | "two"): Measured {
  const printed = execFileSync(process.execPath, [import.meta.filename, part], { encoding: "utf8", maxBuffer: 1e8 });
  return JSON.parse(printed) as Measured;
}

/** Size of an instrument's first component as a half-width, and of its second as a standard uncertainty. */
function sizesOf(role: "fuelBalance" | "thermometer" | "clock" | "moistureMeter"): readonly number[] {
  const instrument = settings.instruments.get(role);
  if (instrument === undefined || "sameAs" in instrument) throw new Error(`the example has no ${role}`);
  return instrument.components.map((component) => {
    const { absolute, relative } = componentUncertainty(component);
    return (absolute + relative) * (component.distribution === "rectangular" ? Math.sqrt(3) : 1);
  });
}

/** The run's readings for the script of numpy, which has the model of this one run. */
function forNumpy(example: Run): string {
  const [first] = example.phases;
  const fuel = [...settings.fuels.values()][0]?.netCalorific;
  if (first?.char?.kind !== "weighed" || fuel == null) throw new Error("the example has changed");
  const [mass, gain] = sizesOf("fuelBalance");
  const [temperature, offset] = sizesOf("thermometer");
  const [time = 0] = sizesOf("clock");
  const standard = (components: typeof fuel.components) =>
    Math.hypot(...components.map((component) => componentUncertainty(component).absolute));
  const phases = example.phases.map((phase) => {
    const [burnt, pot] = [phase.fuels[0], phase.pots[0]];
    if (phase.timing.kind !== "clock" || pot?.masses.kind !== "weighed" || phase.char?.kind !== "weighed") {
      throw new Error("the example has changed");
    }
    return [
      phase.phase,
      {
        ...{ fuelStart: burnt?.massBefore.value, fuelEnd: burnt?.massAfter.value },
        ...{ potStart: pot.masses.start.value, potEnd: pot.masses.end.value },
        ...{ temperatureStart: pot.temperatureStart.value, temperatureEnd: pot.temperatureEnd.value },
        ...{ char: phase.char.withContainer.value, charAtStart: phase.charAtStart?.value ?? null },
        ...{ start: phase.timing.start.value, end: phase.timing.end.value },
      },
    ] as const;
  });
  const pot = first.pots[0];
  const boiling = first.boilingPoint.measured?.value ?? 0;
  const halfWidth = 5;
  const points = Array.from({ length: 9 }, (_, at) => Math.cos((Math.PI * (at + 0.5)) / 9));
  return JSON.stringify({
    ...{ trials: TRIALS, rounds: 3, seed, confidence, phases: Object.fromEntries(phases) },
    errors: {
      ...{ mass, gain, temperature, offset, time: time / 60, moisture: sizesOf("moistureMeter")[0] },
      netCalorific: standard(fuel.components),
      charNetCalorific: standard(settings.charNetCalorific.components),
    },
    ...{ moisture: first.fuels[0]?.moisture?.percent.value, netCalorific: fuel.value, boiling },
    ...{ charNetCalorific: settings.charNetCalorific.value, air: first.airTemperature?.value },
    ...{ empty: pot?.masses.kind === "weighed" ? pot.masses.empty.value : 0, container: first.char.container.value },
    latentHeatAsReceived: constants.latentHeatAsReceived.value,
    latentHeat: {
      ...{ centre: boiling, halfWidth, points },
      values: points.map((point) => latentHeat(plainNumbers, boiling + halfWidth * point)),
    },
  });
}

interface NumpyResults {
  readonly numpy: string;
  readonly times: readonly number[];
  /** Mean, standard deviation, symmetric interval, shortest interval. */
  readonly results: Readonly<Record<string, readonly number[]>>;
}

/** Null where there is no python3 with numpy. A choice of the linear algebra's kernels that this machine lacks would stop it. */
function withNumpy(): NumpyResults | null {
  const { OPENBLAS_CORETYPE: _, ...environment } = process.env;
  const ran = spawnSync("/usr/bin/python3", [join(import.meta.dirname, "uncertainty.py")], {
    ...{ input: forNumpy(run), encoding: "utf8", env: environment, maxBuffer: 1e8 },
  });
  if (ran.status === 0) return JSON.parse(ran.stdout) as NumpyResults;
  if (!/ENOENT|No module named 'numpy'/.test(`${ran.error?.message ?? ""}${ran.stderr}`)) throw new Error(ran.stderr);
  return null;
}

/** Largest difference of each kind of figure, in standard uncertainties of the output. */
function apart(ours: Measured["outputs"], theirs: NumpyResults["results"]): Readonly<Record<string, number>> {
  const largest = { mean: 0, "standard deviation": 0, "symmetric ends": 0, "shortest ends": 0 };
  for (const [name, figures] of Object.entries(theirs)) {
    const output = ours[name];
    const u = output?.standardUncertainty;
    if (u == null || output?.mean == null) throw new Error(`no ${name} to compare`);
    const [mean = 0, deviation = 0, lower = 0, upper = 0, shortLower = 0, shortUpper = 0] = figures;
    const note = (kind: keyof typeof largest, one: number | undefined, other: number) => {
      largest[kind] = Math.max(largest[kind], Math.abs((one ?? Number.NaN) - other) / u);
    };
    note("mean", output.mean, mean);
    note("standard deviation", u, deviation);
    note("symmetric ends", output.symmetricInterval?.lower, lower);
    note("symmetric ends", output.symmetricInterval?.upper, upper);
    note("shortest ends", output.shortestInterval?.lower, shortLower);
    note("shortest ends", output.shortestInterval?.upper, shortUpper);
  }
  return largest;
}

/** Five standard errors of a difference of two samples of 10^6, for a normal output; the shortest interval's ends move most. */
const sampling: Readonly<Record<string, number>> = {
  ...{ mean: 0.0071, "standard deviation": 0.0051, "symmetric ends": 0.019, "shortest ends": 0.08 },
};

function sideBySide(): void {
  const what = `Monte Carlo of a run of three phases, ${TRIALS} trials, all outputs`;
  const one = inItsOwnProcess("one");
  const numpy = withNumpy();
  const two = inItsOwnProcess("two");
  for (const [where, { times, memory }] of Object.entries({ "one core": one, "two workers": two })) {
    const [first = 0, ...later] = times;
    print(`${what}: ${where}, the first`, first, "ms");
    print(`${what}: ${where}, the later ones (median of ${later.length})`, median(later), "ms");
    print(`${what}: ${where}, peak memory`, memory, "MB");
  }
  if (numpy === null) {
    print(`${what}: numpy`, "not installed here (Debian: python3-numpy)", "");
    return;
  }
  const theirs = median(numpy.times);
  print(`${what}: numpy ${numpy.numpy} (median of ${numpy.times.length})`, theirs, "ms");
  print(`${what}: numpy's time over one core's`, theirs / median(one.times.slice(1)), "times");
  print(`${what}: numpy's time over two workers'`, theirs / median(two.times.slice(1)), "times");
  const largest = apart(one.outputs, numpy.results);
  const off = Object.entries(largest).filter(([kind, most]) => !(most <= (sampling[kind] ?? 0)));
  const names = Object.keys(numpy.results).length;
  const said = off.map(([kind, most]) => `${kind} off by ${most.toFixed(4)} u`).join(", ");
  print(`  ${names} outputs beside numpy's`, off.length === 0 ? "agree within sampling error" : said, "");
  const same = JSON.stringify(one.outputs) === JSON.stringify(two.outputs);
  print("  two workers beside one core", same ? "the same to the last bit" : "DIFFERENT", "");
}

function firstOrderOfMany(runs: number): void {
  const table = readTable(Buffer.from(manyRuns(runs)), "many.csv");
  const path = join(import.meta.dirname, "../../sample-data/good/tall-kettle-stove.settings.json");
  const read = readSettings(readFileSync(path), "settings.json");
  if (read.settings === null) throw new Error("the settings were refused");
  const { study } = readReadings({ table, settings: read.settings });
  if (study === null) throw new Error("the made readings were refused");
  const start = performance.now();
  for (const one of study.runs) runErrors(one, study.settings);
  print(`first order of ${runs} runs of three phases, all outputs`, performance.now() - start, "ms");
}

const [part] = process.argv.slice(2);
if (part === "one") console.log(JSON.stringify(await measure(inThisThread)));
else if (part === "two") console.log(JSON.stringify(await onTwoWorkers()));
else {
  firstOrderOfMany(10_000);
  sideBySide();
}
