import { criticalByOctaves } from "./distribution/critical-by-octaves.ts";
import { studentTCritical } from "./distribution/student-t.ts";
import { studentizedRangeQuantile, studentizedRangeTail } from "./distribution/studentized-range.ts";
import type { StatisticReason } from "./reason.ts";

/** With more groups than this there are more pairs than a series of critical values has terms, so that one for all costs less. */
const MANY_GROUPS = 8;

/** Two of several groups compared, so that the statements about all pairs hold together at the confidence asked for. */
export interface PairComparison<Because extends StatisticReason> {
  /** Indices of the groups, `first` before `second`. */
  readonly first: number;
  readonly second: number;
  /** Second mean minus first, in the unit of the values; null where a group has no values. */
  readonly difference: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  /** Adjusted for the number of groups. */
  readonly p: number | null;
  /** Why limits and p are missing. */
  readonly because: Because | null;
}

/** Every pair of indices below `count`, in the order of the first and then of the second. */
export function allPairs(count: number): { readonly first: number; readonly second: number }[] {
  const pairs: { first: number; second: number }[] = [];
  for (let first = 0; first < count; first += 1) {
    for (let second = first + 1; second < count; second += 1) pairs.push({ first, second });
  }
  return pairs;
}

/** What the studentized range says of a difference; null where the numbers that a computer holds do not suffice. */
export function byStudentizedRange({
  difference,
  standardError,
  groups,
  degreesOfFreedom,
  critical,
}: {
  readonly difference: number;
  /** Of one mean, such that q = |difference|/standardError. */
  readonly standardError: number;
  readonly groups: number;
  readonly degreesOfFreedom: number;
  /** The q that limits are made with. */
  readonly critical: number;
}): { readonly lower: number; readonly upper: number; readonly p: number } | null {
  const half = critical * standardError;
  const [lower, upper] = [difference - half, difference + half];
  if (!Number.isFinite(lower) || !Number.isFinite(upper)) return null;
  return { lower, upper, p: studentizedRangeTail(Math.abs(difference) / standardError, groups, degreesOfFreedom) };
}

/** By how many degrees of freedom an interval is made, to its critical value. */
export type Critical = (degreesOfFreedom: number) => number;

/** The q of simultaneous intervals at a confidence, as a function of the degrees of freedom. */
export function criticalRange(confidence: number, groups: number): Critical {
  return groups > MANY_GROUPS
    ? manyCriticalRanges(confidence, groups)
    : (degreesOfFreedom) => studentizedRangeQuantile(1 - confidence, groups, degreesOfFreedom);
}

/** Those that were asked for last: a table's pairs, and the same without single runs. */
let latest: { readonly confidence: number; readonly groups: number; readonly critical: Critical } | null = null;

/** The same for more degrees of freedom than a series has terms. */
export function manyCriticalRanges(confidence: number, groups: number): Critical {
  if (latest?.confidence !== confidence || latest.groups !== groups) {
    const critical: Critical = (degreesOfFreedom) => studentizedRangeQuantile(1 - confidence, groups, degreesOfFreedom);
    latest = { confidence, groups, critical: criticalByOctaves(critical) };
  }
  return latest.critical;
}

/** Student's t of the intervals of pairs taken one by one, likewise. */
export function criticalT(confidence: number, groups: number): Critical {
  const critical: Critical = (degreesOfFreedom) => studentTCritical(confidence, degreesOfFreedom);
  return groups > MANY_GROUPS ? criticalByOctaves(critical) : critical;
}
