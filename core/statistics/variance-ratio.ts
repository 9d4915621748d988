import { compensatedSum } from "../numeric/compensated-sum.ts";
import { fTail } from "./distribution/f.ts";
import { type GroupMoments, meanDifference } from "./group-moments.ts";
import { hasScatter } from "./moments.ts";
import type { StatisticReason } from "./reason.ts";

/** A test of several groups by the ratio of two variances. */
export interface VarianceRatio<Because extends StatisticReason> {
  readonly f: number | null;
  /** Degrees of freedom of the numerator: number of groups - 1. */
  readonly df1: number | null;
  /** Degrees of freedom of the denominator. */
  readonly df2: number | null;
  /** P(F > f). */
  readonly p: number | null;
  /** Why the test is missing. */
  readonly because: Because | null;
}

/** The test with nothing but the reason why it is missing. */
export function noVarianceRatio<Because extends StatisticReason>(because: Because): VarianceRatio<Because> {
  return { f: null, df1: null, df2: null, p: null, because };
}

/** A test with its p; `too-large` where F is beyond the numbers that a computer holds. */
export function varianceRatio(f: number, df1: number, df2: number): VarianceRatio<"too-large"> {
  if (!Number.isFinite(f) || !Number.isFinite(df2)) return noVarianceRatio("too-large");
  return { f, df1, df2, p: fTail(f, df1, df2), because: null };
}

/** The standard deviation within groups, all pooled. */
export interface PooledScatter {
  readonly standardDeviation: number;
  /** Number of values minus number of groups. */
  readonly degreesOfFreedom: number;
}

/**
 * Root of the mean square within groups: sp^2 = sum over groups of (n - 1) s^2 / (N - k). Null where no group has two values.
 */
export function pooledScatter(groups: readonly GroupMoments[]): PooledScatter | null {
  const scattered = groups.flatMap(({ n, standardDeviation }) =>
    standardDeviation === null ? [] : [{ weight: n - 1, standardDeviation }],
  );
  const degreesOfFreedom = scattered.reduce((total, { weight }) => total + weight, 0);
  if (degreesOfFreedom === 0) return null;
  // Squares are taken relative to the greatest, so that none over- or underflows.
  const greatest = Math.max(...scattered.map(({ standardDeviation }) => standardDeviation));
  if (greatest === 0) return { standardDeviation: 0, degreesOfFreedom };
  const squares = scattered.map(({ weight, standardDeviation }) => weight * (standardDeviation / greatest) ** 2);
  return { standardDeviation: greatest * Math.sqrt(compensatedSum(squares) / degreesOfFreedom), degreesOfFreedom };
}

/**
 * F of the one-way analysis of variance from the groups' moments: mean square between groups over mean square within.
 *
 * @param groups each with a value or more, two or more of them
 * @param magnitude the largest of what the values were made of, whose rounding may look like scatter
 */
export function oneWayF(
  groups: readonly GroupMoments[],
  magnitude: number,
): VarianceRatio<"one-value" | "no-scatter" | "too-large"> {
  const within = pooledScatter(groups);
  if (within === null) return noVarianceRatio("one-value");
  if (!Number.isFinite(within.standardDeviation)) return noVarianceRatio("too-large");
  if (!hasScatter(within.standardDeviation, magnitude)) return noVarianceRatio("no-scatter");
  const [first] = groups as readonly [GroupMoments];
  // In units of the pooled scatter and from the first group's mean on: neither size nor offset of the values costs digits.
  const places = groups.map((group) => ({
    n: group.n,
    place: meanDifference(first, group) / within.standardDeviation,
  }));
  const total = compensatedSum(places.map(({ n }) => n));
  const grand = compensatedSum(places.map(({ n, place }) => n * place)) / total;
  const between = compensatedSum(places.map(({ n, place }) => n * (place - grand) ** 2));
  const df1 = groups.length - 1;
  return varianceRatio(between / df1, df1, within.degreesOfFreedom);
}
