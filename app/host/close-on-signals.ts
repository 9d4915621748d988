import { closingLimit, doneWithin } from "./within-time.ts";

/**
 * At the first signal to end, stops taking requests, gives the service its time to write back and close its files, and ends the process. A
 * second signal ends it at once.
 */
export function closeOnSignals(
  steps: { stopListening(): Promise<void>; close(): Promise<void>; sayLate(): void },
  limit = closingLimit,
): void {
  let ending = false;
  const end = async () => {
    if (ending) process.exit(1);
    ending = true;
    // Whatever the first step meets, the files are closed.
    await doneWithin(steps.stopListening(), limit);
    if (!(await doneWithin(steps.close(), limit))) steps.sayLate();
    process.exit(0);
  };
  for (const signal of ["SIGINT", "SIGTERM", "SIGHUP"] as const) process.on(signal, () => void end());
}
