import { extname } from "node:path";
import { defaultLocale, type Method, wordsFor } from "../../core/index.ts";
import { type Door, type ExportedFile, mostTrials, type OutputKind } from "../contract/index.ts";
import { studyEnding } from "../service/index.ts";
import { type Console, exitCodes, parseCommand, UsageFault, wholeOf } from "./console.ts";
import { ask, CommandEnded, carried, commandDoor, refusedBy, standing, writeAll } from "./files.ts";
import { progressLine, stoppable } from "./stoppable.ts";

const words = wordsFor(defaultLocale).commandLine;

/** What a command writes, in this order. */
const analyseOutputs = ["results.json", "runs.csv", "report.html", "report.pdf"] as const;
const reportOutputs = ["report.html", "report.pdf"] as const;
const exportOutputs = ["readings.csv", "settings.json"] as const;

interface Wanted {
  readonly path: string;
  readonly settings: string | undefined;
  readonly method: Method | null;
  readonly baseline: string | null;
  readonly leaveOutBadRows: boolean;
  readonly what: readonly OutputKind[];
  /** In place of what the settings say of Monte Carlo; null: what they say. */
  readonly trials: number | null;
  readonly seed: number | null;
}

const monteCarloFlags = { trials: { type: "string" }, seed: { type: "string" } } as const;

function monteCarloOf({ trials, seed }: { readonly trials?: string | undefined; readonly seed?: string | undefined }) {
  return {
    trials: trials === undefined ? null : wholeOf("--trials", trials, 0, mostTrials),
    seed: seed === undefined ? null : wholeOf("--seed", seed, 0, Number.MAX_SAFE_INTEGER),
  };
}

/** `boilbench analyse`: readings in, results and report out. */
export async function analyse(commandLine: readonly string[], console: Console): Promise<number> {
  const { values, positionals } = parseCommand(commandLine, {
    settings: { type: "string" },
    method: { type: "string" },
    baseline: { type: "string" },
    "leave-out-bad-rows": { type: "boolean" },
    ...monteCarloFlags,
    force: { type: "boolean" },
    out: { type: "string" },
  });
  const { method, settings } = values;
  const [path] = positionals;
  if (path === undefined || positionals.length > 1) throw new UsageFault(words.oneReadingsFile);
  if (values.out === undefined || values.out === "") throw new UsageFault(words.noOut);
  if (method !== undefined && method !== "wbt" && method !== "iso") throw new UsageFault(words.badMethod(method));
  return write(
    {
      path,
      settings,
      method: method ?? null,
      baseline: values.baseline ?? null,
      leaveOutBadRows: values["leave-out-bad-rows"] === true,
      what: analyseOutputs,
      ...monteCarloOf(values),
    },
    values.out,
    values.force === true,
    console,
  );
}

/** `boilbench report`: a study or a readings file in, the report out. */
export async function report(commandLine: readonly string[], console: Console): Promise<number> {
  const { values, positionals } = parseCommand(commandLine, {
    settings: { type: "string" },
    baseline: { type: "string" },
    ...monteCarloFlags,
    force: { type: "boolean" },
    out: { type: "string" },
  });
  const [path] = positionals;
  if (path === undefined || positionals.length > 1) throw new UsageFault(words.oneStudyOrReadingsFile);
  if (values.out === undefined || values.out === "") throw new UsageFault(words.noOut);
  const { settings, baseline = null } = values;
  const monteCarlo = monteCarloOf(values);
  const wanted = { path, settings, method: null, baseline, leaveOutBadRows: false, what: reportOutputs, ...monteCarlo };
  return write(wanted, values.out, values.force === true, console);
}

/** `boilbench export`: a study in, its readings and settings out, whichever version wrote it. */
export async function exportStudy(commandLine: readonly string[], console: Console): Promise<number> {
  const { values, positionals } = parseCommand(commandLine, { force: { type: "boolean" }, out: { type: "string" } });
  const [path] = positionals;
  if (path === undefined || positionals.length > 1) throw new UsageFault(words.oneStudyFile);
  if (extname(path) !== studyEnding) throw new UsageFault(words.notAStudyFile(path));
  if (values.out === undefined || values.out === "") throw new UsageFault(words.noOut);
  const wanted = {
    path,
    settings: undefined,
    method: null,
    baseline: null,
    leaveOutBadRows: false,
    what: exportOutputs,
    trials: null,
    seed: null,
  };
  return write(wanted, values.out, values.force === true, console);
}

/** Makes the wanted files and writes them. Nothing is overwritten unless `force`. */
function write(wanted: Wanted, out: string, force: boolean, console: Console): Promise<number> {
  return stoppable(console, (signal) => writeUnlessStopped(wanted, out, force, { console, signal }));
}

interface Surroundings {
  readonly console: Console;
  readonly signal: AbortSignal;
}

/** The service, which tells a terminal how far the trials are. */
function followed({ console, signal }: Surroundings): Door {
  const { progress } = wordsFor(defaultLocale).uncertainty;
  const onProgress = progressLine(console, progress);
  return commandDoor({ signal, onProgress });
}

async function writeUnlessStopped(wanted: Wanted, out: string, force: boolean, around: Surroundings): Promise<number> {
  const { console, signal } = around;
  const there = force ? undefined : standing(out, wanted.what);
  // The input is looked at first: what is wrong with it is said before anything else.
  const asked = there === undefined ? wanted : { ...wanted, what: [] };
  try {
    const files = await (extname(wanted.path) === studyEnding ? ofStudy(asked, around) : ofFiles(asked, around));
    // Let whatever arrived meanwhile be heard.
    await new Promise((resolve) => setImmediate(resolve));
    signal.throwIfAborted();
    if (there !== undefined) throw new CommandEnded(words.wouldOverwrite(there), exitCodes.notWritten);
    writeAll(out, files);
  } catch (error) {
    signal.throwIfAborted();
    if (!(error instanceof CommandEnded)) throw error;
    console.error(`${error.message}\n`);
    return error.exitCode;
  }
  console.progress(`${words.done(out)}\n`);
  return exitCodes.done;
}

async function ofFiles(wanted: Wanted, around: Surroundings): Promise<readonly ExportedFile[]> {
  const { console } = around;
  const readings = carried(wanted.path, console);
  const settings = wanted.settings === undefined ? null : carried(wanted.settings, console);
  const { method, baseline, leaveOutBadRows, trials, seed } = wanted;
  console.progress(`${words.analysing}\n`);
  const door = followed(around);
  const flags = { method, baseline, leaveOutBadRows, trials, seed };
  const message = { kind: "files.analyse", readings, settings, ...flags } as const;
  const analysed = await ask<"files.analyse">(door, { ...message, what: [...wanted.what] });
  if (analysed.outcome === "refused") {
    throw refusedBy(analysed.problems);
  }
  if (analysed.outcome === "unknownBaseline") {
    throw unknownBaseline(wanted.path, baseline ?? "", analysed.variants);
  }
  return analysed.files;
}

/** What the command line asks of a file and the file does not hold is a refusal, as a column that is missing is. */
function unknownBaseline(path: string, baseline: string, names: readonly string[]): CommandEnded {
  return new CommandEnded(`${path}::variant: ${words.unknownBaseline(baseline, names.join(", "))}`, exitCodes.refused);
}

async function ofStudy(wanted: Wanted, around: Surroundings): Promise<readonly ExportedFile[]> {
  const { console } = around;
  if (wanted.settings !== undefined || wanted.method !== null) throw new UsageFault(words.studyHasSettings);
  console.progress(`${words.reading(wanted.path)}\n`);
  const door = followed(around);
  try {
    const opened = await door.openFile(wanted.path);
    if (!opened.ok) throw new CommandEnded(opened.message, exitCodes.refused);
    const { study } = opened;
    console.progress(`${words.analysing}\n`);
    const { variants } = await ask<"study.show">(door, { kind: "study.show", study });
    const names = variants.map(({ name }) => name);
    const { baseline } = wanted;
    if (baseline !== null && !names.includes(baseline)) {
      throw unknownBaseline(wanted.path, baseline, names);
    }
    const choice = { quantity: null, variant: null, baseline };
    const files: ExportedFile[] = [];
    const { trials, seed } = wanted;
    for (const what of wanted.what) {
      files.push(await ask<"export">(door, { kind: "export", study, what, choice, trials, seed }));
    }
    return files;
  } finally {
    await door.close();
  }
}
