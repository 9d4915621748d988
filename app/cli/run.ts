import { defaultLocale, wordsFor } from "../../core/index.ts";
import { type Console, exitCodes, UsageFault } from "./console.ts";

/** Each command is loaded when it is asked for: most of a start is loading. */
async function version(): Promise<string> {
  const { program } = await import("../service/program.ts");
  return `${program.name} ${program.version}\n`;
}

/** Runs the command line; resolves to its exit code. */
export async function run(commandLine: readonly string[], console: Console): Promise<number> {
  const words = wordsFor(defaultLocale).commandLine;
  const usage = `${words.usageHeading}\n${words.usage.map((line) => `  ${line}\n`).join("")}`;
  const [command, ...rest] = commandLine;
  try {
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
        console.out(`${usage}\n${words.help.map((line) => `${line}\n`).join("")}`);
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
