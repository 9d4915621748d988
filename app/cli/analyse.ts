import { existsSync, mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { basename, join } from "node:path";
import { defaultLocale, type Problem, visibleText, wordsFor } from "../../core/index.ts";
import { firstReportChoice, openFiles, outputFile, program, type SourceFile } from "../service/index.ts";
import { type Console, exitCodes, parseCommand, UsageFault } from "./console.ts";

const words = wordsFor(defaultLocale).commandLine;

/** What `analyse` writes, in this order. */
const outputs = ["results.json", "runs.csv", "report.html", "report.pdf"] as const;

function because(error: unknown): string {
  const code = error instanceof Error && "code" in error ? String(error.code) : "";
  return code || (error instanceof Error ? error.message : String(error));
}

/** `FILE:ROW:COLUMN: message`, on one line each. */
function problemLine({ file, row, column, severity, message }: Problem): string {
  const place = [visibleText(file), row ?? "", visibleText(column ?? "")].join(":");
  const marked = severity === "question" ? words.question(message) : message;
  return `${`${place}: ${marked}`.replaceAll(/[\r\n]+/g, " ")}\n`;
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
  const [readingsPath] = positionals;
  if (readingsPath === undefined || positionals.length > 1) throw new UsageFault(words.oneReadingsFile);
  const { method, out } = values;
  if (out === undefined || out === "") throw new UsageFault(words.noOut);
  if (method !== undefined && method !== "wbt" && method !== "iso") throw new UsageFault(words.badMethod(method));

  const sources: SourceFile[] = [];
  for (const path of [readingsPath, ...(values.settings === undefined ? [] : [values.settings])]) {
    console.progress(`${words.reading(path)}\n`);
    try {
      sources.push({ name: basename(path), bytes: readFileSync(path) });
    } catch (error) {
      console.error(`${path}::: ${words.unreadable(because(error))}\n`);
      return exitCodes.refused;
    }
  }
  const [readings, settings] = sources as [SourceFile, SourceFile | undefined];
  const read = openFiles(
    {
      readings,
      settings: settings ?? null,
      method: method ?? null,
      leaveOutBadRows: values["leave-out-bad-rows"] === true,
      locale: defaultLocale,
    },
    program,
  );
  if (!read.ok) {
    const { error = [], question = [] } = Object.groupBy(read.problems, ({ severity }) => severity);
    console.error([...error, ...question].map(problemLine).join(""));
    return exitCodes.refused;
  }

  const { open } = read;
  const variants = open.results.variants.map(({ variant }) => variant);
  const { baseline } = values;
  if (baseline !== undefined && !variants.includes(baseline)) {
    throw new UsageFault(words.unknownBaseline(baseline, variants.join(", ")));
  }
  const standing = outputs.map((name) => join(out, name)).find((path) => existsSync(path));
  if (standing !== undefined && values.force !== true) {
    console.error(`${words.wouldOverwrite(standing)}\n`);
    return exitCodes.notWritten;
  }

  console.progress(`${words.analysing(open.results.runs.length)}\n`);
  const choice = firstReportChoice(open, baseline ?? null);
  const files = await Promise.all(outputs.map((kind) => outputFile(open, kind, choice)));
  try {
    writeAll(out, files);
  } catch (error) {
    console.error(`${words.cannotWrite(out, because(error))}\n`);
    return exitCodes.notWritten;
  }
  console.progress(`${words.done(out)}\n`);
  return exitCodes.done;
}

/** Writes all files beside their places first, so that a full disk leaves what was there whole; then moves them there. */
function writeAll(
  folder: string,
  files: readonly { readonly fileName: string; readonly content: string | Uint8Array }[],
) {
  mkdirSync(folder, { recursive: true });
  const beside = files.map(({ fileName, content }) => ({
    place: join(folder, fileName),
    waiting: join(folder, `.${fileName}.${process.pid}.part`),
    content,
  }));
  try {
    for (const { waiting, content } of beside) writeFileSync(waiting, content, { flag: "wx" });
    for (const { waiting, place } of beside) renameSync(waiting, place);
  } finally {
    for (const { waiting } of beside) rmSync(waiting, { force: true });
  }
}
