import { StoreFault } from "../fault.ts";
import type { Connection } from "../schema/connection.ts";
import { counterSeal } from "./seal.ts";

/** Things that are numbered; a number that was used once is never used again. */
export const numbered = [
  "variant",
  "fuel",
  "pot",
  "instrument",
  "attachment",
  "remark",
  "series",
  "run",
  "act",
] as const;
export type Numbered = (typeof numbered)[number];

/** The next number of each subject, their seals checked. */
export function readCounters(connection: Connection): Map<Numbered, number> {
  const found = new Map<Numbered, number>();
  for (const { subject, next, seal } of connection.all("SELECT subject, next, seal FROM counter")) {
    if (connection.checksSeals && counterSeal(subject as string, next as number) !== seal) {
      throw new StoreFault("damaged", `the seal of the counter ${subject} does not fit`);
    }
    found.set(subject as Numbered, next as number);
  }
  if (found.size !== numbered.length) throw new StoreFault("damaged", "a counter is missing");
  return found;
}

export function writeCounter(connection: Connection, subject: Numbered, next: number): void {
  connection.write(
    "UPDATE counter SET next = ?, seal = ? WHERE subject = ?",
    next,
    counterSeal(subject, next),
    subject,
  );
}

export function insertCounters(connection: Connection): void {
  for (const subject of numbered) {
    connection.write(
      "INSERT INTO counter (subject, next, seal) VALUES (?, 1, ?)",
      ...[subject, counterSeal(subject, 1)],
    );
  }
}
