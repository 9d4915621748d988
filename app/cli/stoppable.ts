import { defaultLocale, wordsFor } from "../../core/index.ts";
import type { Console } from "./console.ts";

/** What a command exits with that was stopped at the keyboard, as shells have it: 128 and the number of the signal. */
const stoppedBy = { SIGINT: 130, SIGTERM: 143 } as const;

/**
 * Runs a command that may take long. The first signal to stop ends it between two steps, so that files are written whole or not at all; a
 * second one ends the process at once.
 */
export async function stoppable(console: Console, work: (signal: AbortSignal) => Promise<number>): Promise<number> {
  const words = wordsFor(defaultLocale).uncertainty;
  const controller = new AbortController();
  let code: number = stoppedBy.SIGINT;
  const listeners = Object.entries(stoppedBy).map(([name, exitCode]) => {
    const listener = () => {
      code = exitCode;
      controller.abort();
    };
    process.once(name, listener);
    return { name, listener };
  });
  try {
    return await work(controller.signal);
  } catch (error) {
    if (!controller.signal.aborted) throw error;
    console.error(`\n${words.givenUp}\n`);
    return code;
  } finally {
    for (const { name, listener } of listeners) process.off(name, listener);
  }
}

/** Rewrites one line of progress, at most ten times a second. */
export function progressLine(console: Console, textOf: (share: number) => string): (share: number) => void {
  const between = 100;
  let last = 0;
  let width = 0;
  return (share) => {
    const now = performance.now();
    if (share < 1 && now - last < between) return;
    last = now;
    const text = textOf(share);
    console.progress(`\r${text.padEnd(width)}${share < 1 ? "" : "\n"}`);
    width = text.length;
  };
}
