import { criticalByOctaves } from "./distribution/critical-by-octaves.ts";
import { studentTCritical } from "./distribution/student-t.ts";
import { studentizedRangeQuantile, studentizedRangeTail } from "./distribution/studentized-range.ts";
import type { StatisticReason } from "./reason.ts";

/** With more groups than this there are more pairs than a series of critical values has terms. */
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

/** The q of simultaneous intervals at a confidence, as a function of the degrees of freedom. */
export function criticalRange(confidence: number, groups: number): (degreesOfFreedom: number) => number {
  return forPairsOf(groups, (degreesOfFreedom) => studentizedRangeQuantile(1 - confidence, groups, degreesOfFreedom));
}

/** Student's t of the intervals of pairs taken one by one, likewise. */
export function criticalT(confidence: number, groups: number): (degreesOfFreedom: number) => number {
  return forPairsOf(groups, (degreesOfFreedom) => studentTCritical(confidence, degreesOfFreedom));
}

/** A few pairs ask for their critical values one by one; for many, one series for all costs less. */
function forPairsOf(groups: number, critical: (degreesOfFreedom: number) => number): typeof critical {
  return groups > MANY_GROUPS ? criticalByOctaves(critical) : critical;
}
