import { defaultLocale, wordsFor } from "../../core/index.ts";
import { type Console, exitCodes, UsageFault } from "./console.ts";

/** Each command is loaded when it is asked for: most of a start is loading. */
async function version(): Promise<string> {
  const { program } = await import("../service/program.ts");
  return `${program.name} ${program.version}\n`;
}

/** Whether a command's help is wanted; what follows `--` is no flag. */
function asksForHelp(rest: readonly string[]): boolean {
  const end = rest.indexOf("--");
  return (end === -1 ? rest : rest.slice(0, end)).some((text) => text === "--help" || text === "-h");
}

/** The usage of one command and what it does; null where there is no such command. */
function helpOf(command: string): string | null {
  const words = wordsFor(defaultLocale).commandLine;
  const usage = words.usage.filter((line) => line.startsWith(`boilbench ${command} `));
  const start = words.help.findIndex((line) => line.startsWith(`${command} `));
  if (usage.length === 0 || start === -1) return null;
  const more = words.help.slice(start + 1).findIndex((line) => !line.startsWith(" "));
  const lines = [
    words.usageHeading,
    ...usage.map((line) => `  ${line}`),
    "",
    ...words.help.slice(start, start + 1 + more),
  ];
  return `${[...lines, words.help.at(-1) ?? ""].join("\n")}\n`;
}

/** Runs the command line; resolves to its exit code. */
export async function run(commandLine: readonly string[], console: Console): Promise<number> {
  const words = wordsFor(defaultLocale).commandLine;
  const usage = `${words.usageHeading}\n${words.usage.map((line) => `  ${line}\n`).join("")}`;
  const all = `${usage}\n${words.help.map((line) => `${line}\n`).join("")}`;
  const [command, ...rest] = commandLine;
  try {
    const own = command !== undefined && asksForHelp(rest) ? helpOf(command) : null;
    if (own !== null) {
      console.out(own);
      return exitCodes.done;
    }
    switch (command) {
      case "analyse":
        return await (await import("./analyse.ts")).analyse(rest, console);
      case "report":
        return await (await import("./analyse.ts")).report(rest, console);
      case "export":
        return await (await import("./analyse.ts")).exportStudy(rest, console);
      case "compare":
        return await (await import("./compare.ts")).compare(rest, console);
      case "plan":
        return await (await import("./plan.ts")).plan(rest, console);
      case "water":
        return (await import("./water.ts")).water(rest, console);
      case "--help":
      case "-h":
      case "help":
        console.out(all);
        return exitCodes.done;
      case "--version":
        console.out(await version());
        return exitCodes.done;
      case undefined:
        throw new UsageFault(words.noCommand);
      default:
        throw new UsageFault(words.unknownCommand(command));
    }
  } catch (error) {
    if (!(error instanceof UsageFault)) throw error;
    console.error(`${error.message}\n${usage}`);
    return exitCodes.usage;
  }
}
