import type { StoredRunLine } from "../store/index.ts";

/**
 * The name of the run that would come next, in the manner of the study's names: after "R24" comes "R25", after "14" comes "15",
 * after "day 2-07" comes "day 2-08". Where the last name has no number at its end, and in a study without runs, runs are counted.
 *
 * @param lines the runs that there are, and those that are to come before it
 */
export function nextRunName(lines: readonly Pick<StoredRunLine, "name" | "position">[]): string {
  const last = lines.reduce<Pick<StoredRunLine, "name" | "position"> | null>(
    (latest, line) => (latest === null || line.position > latest.position ? line : latest),
    null,
  );
  const taken = new Set(lines.map(({ name }) => name));
  const [, before = "", digits = ""] = /^(.*?)(\d{1,9})$/su.exec(last?.name ?? "") ?? [];
  let number = digits === "" ? lines.length : Number(digits);
  for (;;) {
    number += 1;
    const name = `${before}${String(number).padStart(digits.length, "0")}`;
    if (!taken.has(name)) return name;
  }
}
