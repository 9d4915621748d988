/**
 * `npm run bench`: how long the main jobs take on this machine, and how much memory. Prints a table; asserts nothing, for a
 * machine that is busy is not a fault of the program.
 */
import { execFileSync, spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { cpus, tmpdir } from "node:os";
import { join } from "node:path";
import { serviceFlags } from "../../app/host/service-flags.ts";
import { emptySettingsFile, readReadings, readSettings, readTable } from "../../app/import/index.ts";
import { analyseStudy, resultsFile } from "../../core/index.ts";
import { ownDoor } from "../build/own-door.ts";
import { manyRuns } from "./many-runs.ts";

const project = join(import.meta.dirname, "..", "..");
const settingsPath = join(project, "sample-data", "good", "tall-kettle-stove.settings.json");
const folder = mkdtempSync(join(tmpdir(), "boilbench-bench-"));

// As installed: the command line is built.
execFileSync(process.execPath, [join(project, "app", "build.ts"), "--command", "--if-stale"], { stdio: "ignore" });

/** The command line as `npm run boilbench` starts it, which then says how much memory it took. */
const command = join(project, "app", "cli", "boilbench.cjs");
const measured = join(folder, "measured.cjs");
writeFileSync(
  measured,
  `process.on("exit", () => console.error("peak " + process.resourceUsage().maxRSS * 1024));
require(${JSON.stringify(command)});
`,
);

interface Measure {
  readonly what: string;
  readonly value: string;
}
const measures: Measure[] = [];
const note = (what: string, value: string) => {
  measures.push({ what, value });
  console.log(`${what.padEnd(72)} ${value}`);
};
const milliseconds = (value: number) => `${value.toFixed(value < 10 ? 2 : 0)} ms`;
const megabytes = (bytes: number) => `${(bytes / 1024 / 1024).toFixed(0)} MB`;

function median(times: readonly number[]): number {
  return times.toSorted((one, other) => one - other)[Math.floor(times.length / 2)] ?? 0;
}

function timed<T>(work: () => T, rounds = 5): { readonly time: number; readonly value: T } {
  const times: number[] = [];
  let value = work();
  for (let round = 0; round < rounds; round += 1) {
    const start = performance.now();
    value = work();
    times.push(performance.now() - start);
  }
  return { time: median(times), value };
}

function commandLine(runs: number): void {
  const readings = join(folder, `runs-${runs}.csv`);
  writeFileSync(readings, manyRuns(runs));
  const out = join(folder, `out-${runs}`);
  const times: number[] = [];
  let memory = 0;
  for (let round = 0; round < 5; round += 1) {
    const start = performance.now();
    const done = spawnSync(
      process.execPath,
      [measured, "analyse", readings, "--settings", settingsPath, "--trials", "0", "--force", "--out", out],
      { encoding: "utf8" },
    );
    times.push(performance.now() - start);
    memory = Number(/peak (\d+)/.exec(done.stderr)?.[1] ?? 0);
    if (done.status !== 0) throw new Error(done.stderr);
  }
  note(
    `analyse, ${runs} runs of three phases, first order, whole process, PDF included (median of 5)`,
    milliseconds(median(times)),
  );
  note(`  its peak memory`, megabytes(memory));
  note(
    `  report.pdf, report.html`,
    ["report.pdf", "report.html"].map((name) => `${Math.round(statSync(join(out, name)).size / 1024)} kB`).join(", "),
  );
}

function inProcess(runs: number): void {
  const bytes = Buffer.from(manyRuns(runs));
  const settings = readSettings(readFileSync(settingsPath), "settings.json").settings ?? emptySettingsFile();
  const reading = timed(() => readReadings({ table: readTable(bytes, "many.csv"), settings }), 3);
  note(`reading ${runs} runs (${megabytes(bytes.length)})`, milliseconds(reading.time));
  const { study } = reading.value;
  if (study === null) throw new Error("the made readings were refused");
  const analysis = timed(() => analyseStudy(study, "en"), 3);
  note(`analysing ${runs} runs`, milliseconds(analysis.time));
  const provenance = {
    inputs: [],
    leftOutRows: [],
    readingNotes: [],
    isExample: true,
    program: { name: "boilbench", version: "0" },
  };
  const [first] = analysis.value.variants;
  const writing = timed(() => JSON.stringify(resultsFile(analysis.value, provenance, first?.variant ?? "")), 3);
  note(`results.json of ${runs} runs (${megabytes(writing.value.length)})`, milliseconds(writing.time));
}

/** A large study file, by processes of their own: each figure as they print it. */
function studyFile(runs: number): void {
  const own = join(folder, `study-${runs}`);
  const part = (name: string, ...more: string[]) => {
    const script = join(import.meta.dirname, name);
    const printed = execFileSync(process.execPath, [...serviceFlags, script, ...more], { encoding: "utf8" });
    for (const line of printed.trim().split("\n")) {
      const { name, value, unit } = JSON.parse(line) as { name: string; value: number; unit: "ms" | "MB" };
      note(`study file, ${runs} runs: ${name}`, unit === "ms" ? milliseconds(value) : `${value.toFixed(0)} MB`);
    }
  };
  part("study-file.ts", "make", own, String(runs));
  part("study-file.ts", "use", own);
  part("grid.ts", own);
  part("grid-page.ts", own);
  part("bench-run.ts", own);
}

/** The comparison statistics, beside R's where it is installed. */
function statistics(): void {
  for (const script of ["bootstrap.ts", "compare.ts"]) {
    const printed = execFileSync(process.execPath, [join(import.meta.dirname, script)], { encoding: "utf8" });
    for (const line of printed.trim().split("\n")) {
      const { name, value, unit } = JSON.parse(line) as { name: string; value: number; unit: "ms" | "times" };
      note(name, unit === "ms" ? milliseconds(value) : `${value.toFixed(0)} times`);
    }
  }
}

/** First order and Monte Carlo, beside numpy where it is installed. */
function uncertainty(): void {
  const script = join(import.meta.dirname, "uncertainty.ts");
  const printed = execFileSync(process.execPath, [script], { encoding: "utf8" });
  for (const line of printed.trim().split("\n")) {
    const { name, value, unit } = JSON.parse(line) as { name: string; value: number | string; unit: string };
    if (typeof value === "string") note(name, value);
    else note(name, unit === "ms" ? milliseconds(value) : `${value.toFixed(unit === "times" ? 1 : 0)} ${unit}`);
  }
}

async function door(): Promise<void> {
  const own = ownDoor();
  const service = own.door;
  const choice = { quantity: null, variant: null, baseline: null };
  const ask = async (message: unknown) => {
    const times: number[] = [];
    for (let round = 0; round < 9; round += 1) {
      const start = performance.now();
      const reply = await service.ask(message);
      times.push(performance.now() - start);
      if (!reply.ok) throw new Error(reply.message);
    }
    return median(times);
  };
  note(
    "example study: Compare, as the window asks for it (median of 9)",
    milliseconds(await ask({ kind: "compare.show", study: null, choice })),
  );
  note("example study: Runs", milliseconds(await ask({ kind: "runs.show", study: null })));
  note("example study: report preview", milliseconds(await ask({ kind: "report.prepare", study: null, choice })));
  note(
    "example study: report.pdf",
    milliseconds(await ask({ kind: "export", study: null, what: "report.pdf", choice })),
  );
  await own.close();
}

console.log(`Node ${process.versions.node}, ${cpus()[0]?.model ?? "unknown processor"}, ${cpus().length} processors\n`);
try {
  const start = performance.now();
  execFileSync(process.execPath, [command, "--version"]);
  note("starting the command line (--version)", milliseconds(performance.now() - start));
  commandLine(40);
  commandLine(400);
  inProcess(1000);
  inProcess(10_000);
  statistics();
  uncertainty();
  await door();
  studyFile(10_000);
} finally {
  rmSync(folder, { recursive: true, force: true });
}
