import { type Locale, wordsFor } from "../../words/index.ts";
import type { NumberedRun, Suspicion } from "./numbered-run.ts";

/** Limits of dates. Common practice, no source. */
export const dateLimits = {
  /** From the nearest other run, days; more where the study itself has such pauses. */
  farFromOthers: 60,
  /** Times the longest pause between the other runs. */
  longestPauses: 3,
  fewestOthers: 2,
  /** Share of runs out of order beyond which the order says nothing. */
  outOfOrder: 0.15,
} as const;

const millisecondsPerDay = 86_400_000;

interface Dated {
  readonly run: NumberedRun;
  /** Days since 1970, with the time of day as a fraction where it is known. */
  readonly day: number;
  readonly moment: number;
}

function dated(runs: readonly NumberedRun[]): Dated[] {
  return runs.flatMap((run) => {
    const day = run.facts.date === null ? Number.NaN : Date.parse(run.facts.date) / millisecondsPerDay;
    if (!Number.isFinite(day)) return [];
    const start = run.phases.map((phase) => phase.start).find(Number.isFinite);
    return [{ run, day, moment: day + (start ?? 0) / 1440 }];
  });
}

/** Runs whose date does not fit the others', with what is said of it. */
export function dateSuspicions(runs: readonly NumberedRun[], locale: Locale): Map<NumberedRun, Suspicion[]> {
  const all = dated(runs);
  const found = new Map<NumberedRun, Suspicion[]>();
  const ask = (run: NumberedRun, rule: string, column: string, message: string, touches: readonly string[]) => {
    if (!found.has(run)) found.set(run, [{ rule, phase: null, column, message, touches }]);
  };
  const { questions } = wordsFor(locale);
  for (const { run, nearest, days } of farFromOthers(all)) {
    // A study may be gone on with after a long time; the date was written by the machine.
    if (run.facts.onBench) continue;
    ask(run, "dateFar", "date", questions.dateFar(run.facts.date ?? "", nearest.run.facts.date ?? "", days), ["date"]);
  }
  for (const { run, date, block } of againstBlock(all)) {
    ask(run, "dateOfBlock", "date", questions.dateOfBlock(run.facts.date ?? "", block, date), ["date"]);
  }
  for (const { run, before, after } of outOfOrder(all.filter(({ run: one }) => !found.has(one)))) {
    const message = questions.outOfOrder(run.facts.date ?? "", before?.facts.name ?? null, after?.facts.name ?? null);
    ask(run, "outOfOrder", "date", message, ["date"]);
  }
  return found;
}

function farFromOthers(all: readonly Dated[]): { run: NumberedRun; nearest: Dated; days: number }[] {
  if (all.length <= dateLimits.fewestOthers) return [];
  const sorted = all.toSorted((one, other) => one.day - other.day);
  const pauses = sorted.slice(1).map((one, index) => one.day - (sorted[index]?.day ?? one.day));
  return sorted.flatMap((one, index) => {
    const [left, right] = [sorted[index - 1], sorted[index + 1]];
    const toLeft = left === undefined ? Number.POSITIVE_INFINITY : one.day - left.day;
    const toRight = right === undefined ? Number.POSITIVE_INFINITY : right.day - one.day;
    const nearest = toLeft < toRight ? left : right;
    const days = Math.min(toLeft, toRight);
    if (nearest === undefined || days <= dateLimits.farFromOthers) return [];
    const others = pauses.filter((_, place) => place !== index && place !== index - 1);
    if (days <= dateLimits.longestPauses * Math.max(0, ...others)) return [];
    return [{ run: one.run, nearest, days }];
  });
}

/** Runs of a block of one day that have another date than the rest of it, where blocks are days. */
function againstBlock(all: readonly Dated[]): { run: NumberedRun; date: string; block: string }[] {
  const blocks = [...Map.groupBy(all, ({ run }) => run.facts.block)].filter(([block]) => block !== null);
  const days = blocks.map(([block, runs]) => {
    const byDate = [...Map.groupBy(runs, ({ run }) => run.facts.date)].sort(
      ([, one], [, other]) => other.length - one.length,
    );
    return { block, size: runs.length, byDate };
  });
  const single = days.filter(({ size, byDate }) => size >= 2 && byDate.length === 1).length;
  return days.flatMap(({ block, size, byDate: [usual, ...others] }) => {
    const odd = others.flatMap(([, runs]) => runs);
    if (usual === undefined || block === null || odd.length !== 1 || size < 3 || single < dateLimits.fewestOthers)
      return [];
    return odd.map(({ run }) => ({ run, date: usual[0] ?? "", block }));
  });
}

/** Runs that have to be taken away for date and time to rise with the order. */
function outOfOrder(
  all: readonly Dated[],
): { run: NumberedRun; before: NumberedRun | undefined; after: NumberedRun | undefined }[] {
  const ordered = all
    .filter(({ run }) => run.facts.order !== null)
    .toSorted((one, other) => (one.run.facts.order ?? 0) - (other.run.facts.order ?? 0));
  if (ordered.length <= dateLimits.fewestOthers) return [];
  const kept = longestRising(ordered.map(({ moment }) => moment));
  const odd = ordered.length - kept.size;
  if (odd === 0 || odd > Math.max(1, dateLimits.outOfOrder * ordered.length)) return [];
  return ordered.flatMap(({ run }, index) =>
    kept.has(index) ? [] : [{ run, before: ordered[index - 1]?.run, after: ordered[index + 1]?.run }],
  );
}

/** Places of a longest subsequence that never falls (patience sorting). */
export function longestRising(values: readonly number[]): Set<number> {
  const tails: number[] = [];
  const previous: number[] = [];
  for (const [index, value] of values.entries()) {
    let [low, high] = [0, tails.length];
    while (low < high) {
      const middle = (low + high) >> 1;
      if ((values[tails[middle] ?? 0] ?? 0) <= value) low = middle + 1;
      else high = middle;
    }
    previous[index] = tails[low - 1] ?? -1;
    tails[low] = index;
  }
  const kept = new Set<number>();
  for (let at = tails.at(-1) ?? -1; at >= 0; at = previous[at] ?? -1) kept.add(at);
  return kept;
}
