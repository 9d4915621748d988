import { normalQuantile } from "./distribution/normal.ts";
import { studentTCritical } from "./distribution/student-t.ts";
import { type GroupMoments, groupMoments, meanDifference } from "./group-moments.ts";
import type { Fit, LeastSquares } from "./least-squares.ts";
import { hasScatter } from "./moments.ts";
import { type Critical, manyCriticalRanges } from "./pair-comparison.ts";
import { satterthwaiteDegreesOfFreedom } from "./satterthwaite.ts";

/** Among more runs than this no single one is looked for: the work grows with their square, and one of so many hardly decides. */
const mostRuns = 300;

/** A difference with its interval, in the unit of the values. */
export interface Estimate {
  readonly value: number;
  readonly lower: number;
  readonly upper: number;
}

/** A run without which the verdict is another, and what the difference is then. */
export interface InfluentialRun {
  /** Its group, 0 or 1 of a pair (0 where a model has all runs together), and its place in there. */
  readonly group: number;
  readonly place: number;
  readonly without: Estimate;
}

/** A difference of which a single run decides whether its interval holds "no difference". */
export interface Influence {
  readonly all: Estimate;
  /** The one that moves the difference most comes first. */
  readonly runs: readonly InfluentialRun[];
}

/** A group as it is, and without each of its runs in turn. */
interface LeftOut {
  readonly all: GroupMoments;
  readonly without: readonly GroupMoments[];
}

/**
 * For each pair of groups, in the order of `allPairs`: the runs that decide alone whether Welch's interval (of two groups) or Games
 * and Howell's (of more) holds "no difference". Null where there are none.
 *
 * A run counts only where two others remain in its group, and where the runs that remain still scatter. What is found weakens a verdict;
 * it never changes which analysis leads, nor drops a run. A RangeError for a value that is not finite.
 *
 * Source: the idea of leaving out one at a time, R. D. Cook and S. Weisberg, Residuals and influence in regression (1982) (from memory).
 */
export function influenceOnPairs(
  groups: readonly (readonly number[])[],
  confidence: number,
): readonly (Influence | null)[] {
  const all = groupMoments(groups);
  const leftOut = all.map((one, place): LeftOut => {
    const values = groups[place] ?? [];
    const others = values.length > mostRuns ? [] : values.map((_, run) => values.filter((_, other) => other !== run));
    return { all: one, without: groupMoments(others) };
  });
  const count = all.filter(({ n }) => n > 0).length;
  const range = count > 2 ? manyCriticalRanges(confidence, count) : null;
  const critical: Critical = (degreesOfFreedom) =>
    range === null ? studentTCritical(confidence, degreesOfFreedom) : range(degreesOfFreedom) / Math.SQRT2;
  // No critical value is below the normal distribution's: most pairs far inside it stay so without any run.
  const least = normalQuantile((1 + confidence) / 2);
  return leftOut.flatMap((one, first) =>
    leftOut.slice(first + 1).map((other) => {
      const whole = pairEstimate(one.all, other.all, critical);
      if (whole === null) return null;
      const open = !isSure(whole);
      const without = (first: GroupMoments, second: GroupMoments) =>
        open && isWithin(first, second, least) ? null : pairEstimate(first, second, critical);
      return influenceOf(whole, [
        one.without.map((moments) => without(moments, other.all)),
        other.without.map((moments) => without(one.all, moments)),
      ]);
    }),
  );
}

/**
 * The same of a contrast in a linear model (blocks, design factors), by the runs of the whole model. A run counts only where the
 * rest still tells all of the model's coefficients and leaves a degree of freedom.
 */
export function influenceOnContrasts(
  fit: LeastSquares,
  contrasts: readonly (readonly number[] | null)[],
  confidence: number,
): readonly (Influence | null)[] {
  const rows = fit.degreesOfFreedom + fit.coefficients.length;
  const without = rows > mostRuns ? [] : Array.from({ length: rows }, (_, row) => fit.without(row));
  const critical = [fit.degreesOfFreedom, fit.degreesOfFreedom - 1].map((degreesOfFreedom) =>
    degreesOfFreedom > 0 ? studentTCritical(confidence, degreesOfFreedom) : Number.NaN,
  ) as [number, number];
  return contrasts.map((contrast) => {
    if (contrast === null) return null;
    const whole = contrastEstimate(fit, contrast, critical[0]);
    if (whole === null) return null;
    return influenceOf(whole, [
      without.map((rest) => (rest === null ? null : contrastEstimate(rest, contrast, critical[1]))),
    ]);
  });
}

function pairEstimate(one: GroupMoments, other: GroupMoments, critical: Critical): Estimate | null {
  if (one.mean === null || one.standardDeviation === null) return null;
  if (other.mean === null || other.standardDeviation === null) return null;
  const oneError = one.standardDeviation / Math.sqrt(one.n);
  const otherError = other.standardDeviation / Math.sqrt(other.n);
  const together = Math.hypot(oneError, otherError);
  if (!hasScatter(together, one.mean, other.mean)) return null;
  const degreesOfFreedom = satterthwaiteDegreesOfFreedom((oneError / together) ** 2, one.n - 1, other.n - 1);
  return estimate(meanDifference(one, other), critical(degreesOfFreedom) * together);
}

/** Whether the means lie within so many standard errors of each other. */
function isWithin(one: GroupMoments, other: GroupMoments, errors: number): boolean {
  const [oneScatter, otherScatter] = [one.standardDeviation ?? 0, other.standardDeviation ?? 0];
  const square = (oneScatter * oneScatter) / one.n + (otherScatter * otherScatter) / other.n;
  return meanDifference(one, other) ** 2 < errors * errors * square;
}

function contrastEstimate(fit: Fit, contrast: readonly number[], critical: number): Estimate | null {
  if (fit.residualDeviation === null || !fit.hasScatter) return null;
  const value = contrast.reduce((sum, part, index) => sum + part * (fit.coefficients[index] ?? 0), 0);
  return estimate(value, critical * fit.residualDeviation * fit.contrastLength(contrast));
}

function estimate(value: number, half: number): Estimate | null {
  const [lower, upper] = [value - half, value + half];
  return Number.isFinite(lower) && Number.isFinite(upper) ? { value, lower, upper } : null;
}

function influenceOf(all: Estimate, groups: readonly (readonly (Estimate | null)[])[]): Influence | null {
  const runs = groups.flatMap((estimates, group) =>
    estimates.flatMap((without, place) =>
      without !== null && isSure(without) !== isSure(all) ? [{ group, place, without }] : [],
    ),
  );
  const moved = ({ without }: InfluentialRun) => Math.abs(without.value - all.value);
  return runs.length === 0 ? null : { all, runs: runs.sort((one, other) => moved(other) - moved(one)) };
}

function isSure({ lower, upper }: Estimate): boolean {
  return lower > 0 || upper < 0;
}
