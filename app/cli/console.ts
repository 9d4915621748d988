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

/** The number that a flag takes. */
export function numberOf(flag: string, text: string): number {
  const value = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i.test(text.trim()) ? Number(text) : Number.NaN;
  if (!Number.isFinite(value)) throw new UsageFault(wordsFor(defaultLocale).commandLine.notANumber(flag, text));
  return value;
}

/** `--altitude -20` as `--altitude=-20`: a number below zero is no flag. */
export function joinNegative(commandLine: readonly string[], flags: readonly string[]): string[] {
  const joined: string[] = [];
  for (const text of commandLine) {
    const last = joined.at(-1);
    if (/^-[\d.]/.test(text) && flags.some((flag) => last === `--${flag}`))
      joined[joined.length - 1] = `${last}=${text}`;
    else joined.push(text);
  }
  return joined;
}

/** A probability, such as 0.95: not per cent. */
export function probabilityOf(flag: string, text: string): number {
  const value = numberOf(flag, text);
  if (!(value > 0 && value < 1)) throw new UsageFault(wordsFor(defaultLocale).commandLine.notAProbability(flag, text));
  return value;
}

/** A whole number within limits. */
export function wholeOf(flag: string, text: string, least: number, most: number): number {
  const value = numberOf(flag, text);
  if (!Number.isSafeInteger(value) || value < least || value > most) {
    throw new UsageFault(wordsFor(defaultLocale).commandLine.notWhole(flag, text, least, most));
  }
  return value;
}

/** The seed of a random draw; 1 unless said. */
export function seedOf(text: string | undefined): number {
  return wholeOf("--seed", text ?? "1", 0, Number.MAX_SAFE_INTEGER);
}
