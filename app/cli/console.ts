import { type ParseArgsConfig, parseArgs } from "node:util";
import { defaultLocale, wordsFor } from "../../core/index.ts";

/** Where the command line prints. `progress` prints on a terminal alone. */
export interface Console {
  out(text: string): void;
  error(text: string): void;
  progress(text: string): void;
}

export const exitCodes = { done: 0, usage: 2, refused: 3, notWritten: 4 } as const;

/** Wrong usage: what was not understood. */
export class UsageFault extends Error {}

/** Arguments of one command, or a usage fault that names the one that was not understood. */
export function parseCommand<const T extends NonNullable<ParseArgsConfig["options"]>>(
  commandLine: readonly string[],
  options: T,
) {
  try {
    return parseArgs({ args: [...commandLine], options, allowPositionals: true, strict: true });
  } catch (error) {
    const message = error instanceof Error ? error.message : String(error);
    throw new UsageFault(wordsFor(defaultLocale).commandLine.notUnderstood(message.split(". ")[0] ?? message));
  }
}
