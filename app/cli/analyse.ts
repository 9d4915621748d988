import { extname } from "node:path";
import { defaultLocale, type Method, wordsFor } from "../../core/index.ts";
import type { ExportedFile, OutputKind } from "../contract/index.ts";
import { studyEnding } from "../service/index.ts";
import { type Console, exitCodes, parseCommand, UsageFault } from "./console.ts";
import { ask, CommandEnded, carried, commandDoor, refusedBy, standing, writeAll } from "./files.ts";

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
}

/** `boilbench analyse`: readings in, results and report out. */
export async function analyse(commandLine: readonly string[], console: Console): Promise<number> {
  const { values, positionals } = parseCommand(commandLine, {
    settings: { type: "string" },
    method: { type: "string" },
    baseline: { type: "string" },
    "leave-out-bad-rows": { type: "boolean" },
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
    force: { type: "boolean" },
    out: { type: "string" },
  });
  const [path] = positionals;
  if (path === undefined || positionals.length > 1) throw new UsageFault(words.oneStudyOrReadingsFile);
  if (values.out === undefined || values.out === "") throw new UsageFault(words.noOut);
  const { settings, baseline = null } = values;
  const wanted = { path, settings, method: null, baseline, leaveOutBadRows: false, what: reportOutputs };
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
  };
  return write(wanted, values.out, values.force === true, console);
}

/** Makes the wanted files and writes them. Nothing is overwritten unless `force`. */
async function write(wanted: Wanted, out: string, force: boolean, console: Console): Promise<number> {
  const there = force ? undefined : standing(out, wanted.what);
  // The input is looked at first: what is wrong with it is said before anything else.
  const asked = there === undefined ? wanted : { ...wanted, what: [] };
  try {
    const files = await (extname(wanted.path) === studyEnding ? ofStudy(asked, console) : ofFiles(asked, console));
    if (there !== undefined) throw new CommandEnded(words.wouldOverwrite(there), exitCodes.notWritten);
    writeAll(out, files);
  } catch (error) {
    if (!(error instanceof CommandEnded)) throw error;
    console.error(`${error.message}\n`);
    return error.exitCode;
  }
  console.progress(`${words.done(out)}\n`);
  return exitCodes.done;
}

async function ofFiles(wanted: Wanted, console: Console): Promise<readonly ExportedFile[]> {
  const readings = carried(wanted.path, console);
  const settings = wanted.settings === undefined ? null : carried(wanted.settings, console);
  const { method, baseline, leaveOutBadRows } = wanted;
  console.progress(`${words.analysing}\n`);
  const door = commandDoor();
  const message = { kind: "files.analyse", readings, settings, method, baseline, leaveOutBadRows } as const;
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

async function ofStudy(wanted: Wanted, console: Console): Promise<readonly ExportedFile[]> {
  if (wanted.settings !== undefined || wanted.method !== null) throw new UsageFault(words.studyHasSettings);
  console.progress(`${words.reading(wanted.path)}\n`);
  const door = commandDoor();
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
    for (const what of wanted.what) files.push(await ask<"export">(door, { kind: "export", study, what, choice }));
    return files;
  } finally {
    await door.close();
  }
}
