import { existsSync, mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { basename, join } from "node:path";
import { defaultLocale, type Problem, visibleText, wordsFor } from "../../core/index.ts";
import { type Door, type ExportedFile, fileByteLimit, type ReplyValues, type Request } from "../contract/index.ts";
import { createDoor, userFolders } from "../service/index.ts";
import { type Console, exitCodes } from "./console.ts";

const words = wordsFor(defaultLocale).commandLine;

/** Ends a command that cannot go on: what to say, and with which code. */
export class CommandEnded extends Error {
  readonly exitCode: number;

  constructor(message: string, exitCode: number) {
    super(message);
    this.exitCode = exitCode;
  }
}

/** The service's door, for one command: which hears how far long work is, and may stop it. */
export function commandDoor(command: NonNullable<Parameters<typeof createDoor>[0]["command"]> = {}): Door {
  return createDoor({ folders: userFolders(process.platform, process.env), remembers: false, command });
}

/** Asks the door. What it refuses ends the command. */
export async function ask<K extends Request["kind"]>(
  door: Door,
  message: Extract<Request, { kind: K }>,
): Promise<ReplyValues[K]> {
  const reply = await door.ask(message);
  if (!reply.ok) throw new CommandEnded(reply.message, exitCodes.refused);
  return reply.value as ReplyValues[K];
}

/** Prints a command's answer; what ended it goes to standard error, with its exit code. */
export async function answer(console: Console, work: () => Promise<string>): Promise<number> {
  try {
    console.out(await work());
    return exitCodes.done;
  } catch (error) {
    if (!(error instanceof CommandEnded)) throw error;
    console.error(`${error.message}\n`);
    return error.exitCode;
  }
}

/** Why the system refused, by its own code where it gives one. */
export function because(error: unknown): string {
  const code = error instanceof Error && "code" in error ? String(error.code) : "";
  return code || (error instanceof Error ? error.message : String(error));
}

/** A file of the command line as a message carries it. */
export function carried(path: string, console: Console): { readonly name: string; readonly contentBase64: string } {
  console.progress(`${words.reading(path)}\n`);
  let bytes: Buffer;
  try {
    bytes = readFileSync(path);
  } catch (error) {
    throw new CommandEnded(`${path}::: ${words.unreadable(because(error))}`, exitCodes.refused);
  }
  if (bytes.length > fileByteLimit) {
    throw new CommandEnded(`${path}::: ${words.tooLarge(fileByteLimit / 1024 / 1024)}`, exitCodes.refused);
  }
  return { name: basename(path).slice(-500), contentBase64: bytes.toString("base64") };
}

/** The first of the files that is there already; undefined where none is. */
export function standing(folder: string, names: readonly string[]): string | undefined {
  return names.map((name) => join(folder, name)).find((path) => existsSync(path));
}

/** Writes all files beside their places first, so that a full disk leaves what was there whole; then moves them there. */
export function writeAll(folder: string, files: readonly ExportedFile[]): void {
  try {
    mkdirSync(folder, { recursive: true });
    const beside = files.map(({ fileName, contentBase64 }) => ({
      place: join(folder, fileName),
      waiting: join(folder, `.${fileName}.${process.pid}.part`),
      content: Buffer.from(contentBase64, "base64"),
    }));
    try {
      for (const { waiting, content } of beside) writeFileSync(waiting, content, { flag: "wx" });
      for (const { waiting, place } of beside) renameSync(waiting, place);
    } finally {
      for (const { waiting } of beside) rmSync(waiting, { force: true });
    }
  } catch (error) {
    throw new CommandEnded(words.cannotWrite(folder, because(error)), exitCodes.notWritten);
  }
}

/** `FILE:ROW:COLUMN: message`, on one line each. */
function problemLine({ file, row, column, severity, message }: Problem): string {
  const place = [visibleText(file), row ?? "", visibleText(column ?? "")].join(":");
  const marked = severity === "question" ? words.question(message) : message;
  return `${place}: ${marked}`.replaceAll(/[\r\n]+/g, " ");
}

/** The end of a command whose input is refused: every problem, errors first. */
export function refusedBy(problems: readonly Problem[]): CommandEnded {
  const { error = [], question = [] } = Object.groupBy(problems, ({ severity }) => severity);
  return new CommandEnded([...error, ...question].map(problemLine).join("\n"), exitCodes.refused);
}
