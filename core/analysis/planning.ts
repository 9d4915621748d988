import { studentTCritical } from "../statistics/distribution/student-t.ts";
import { fewestReplicates } from "../statistics/replicates-needed.ts";
import type { Comparison } from "./comparison.ts";

/** What sentences about more runs assume, unless a person says otherwise. Common practice, no source. */
export const planningDefaults = {
  /** Difference worth showing, as a fraction of the baseline's mean. */
  detectableShare: 0.1,
  power: 0.8,
  /** Beyond this many runs of each, more runs are no answer. */
  mostRuns: 60,
  /** How many more runs the narrower interval is worked out for. */
  furtherRuns: 4,
} as const;

export type RunsOutlook =
  | { readonly kind: "enough" }
  | { readonly kind: "more"; readonly runsOfEach: number; readonly furtherOfEach: number | null }
  | { readonly kind: "tooMany" };

/** Pooled standard deviation of the two groups, n - 1 weights; null where a group has one run or nothing varies. */
function pooledDeviation({ groups: { baseline, variant } }: Pick<Comparison, "groups">): number | null {
  if (baseline.standardDeviation === null || variant.standardDeviation === null) return null;
  const degrees = baseline.n + variant.n - 2;
  const squares = (baseline.n - 1) * baseline.standardDeviation ** 2 + (variant.n - 1) * variant.standardDeviation ** 2;
  const pooled = Math.sqrt(squares / degrees);
  return pooled > 0 ? pooled : null;
}

/**
 * How many runs of each variant would show a difference of a tenth of the baseline's mean with 80 % chance, from the scatter
 * seen (two-sided pooled t, noncentral t power).
 *
 * @returns null where the scatter is not known or the baseline's mean is not positive
 */
export function runsOutlook(comparison: Pick<Comparison, "groups" | "confidence">): RunsOutlook | null {
  const pooled = pooledDeviation(comparison);
  const { baseline, variant } = comparison.groups;
  if (pooled === null || baseline.mean === null || baseline.mean <= 0) return null;
  const needed = fewestReplicates({
    standardDeviation: pooled,
    difference: baseline.mean * planningDefaults.detectableShare,
    power: planningDefaults.power,
    confidence: comparison.confidence,
    maximum: planningDefaults.mostRuns,
  });
  if (needed.runsPerVariant === null) return { kind: "tooMany" };
  const fewest = Math.min(baseline.n, variant.n);
  if (needed.runsPerVariant <= fewest) return { kind: "enough" };
  return {
    kind: "more",
    runsOfEach: needed.runsPerVariant,
    furtherOfEach: baseline.n === variant.n ? needed.runsPerVariant - baseline.n : null,
  };
}

/**
 * The factor by which the interval of the difference would narrow with some more runs of each, if the scatter stays as it is;
 * null where there is no interval or nothing would be gained.
 */
export function narrowingWith(comparison: Comparison, furtherRuns: number): number | null {
  const { baseline, variant } = comparison.groups;
  const { welch } = comparison;
  if (
    welch.standardError === null ||
    welch.degreesOfFreedom === null ||
    baseline.standardDeviation === null ||
    variant.standardDeviation === null ||
    welch.interval === null
  ) {
    return null;
  }
  const [baselineRuns, variantRuns] = [baseline.n + furtherRuns, variant.n + furtherRuns];
  const error = Math.hypot(
    baseline.standardDeviation / Math.sqrt(baselineRuns),
    variant.standardDeviation / Math.sqrt(variantRuns),
  );
  const degrees = (welch.degreesOfFreedom * (baselineRuns + variantRuns - 2)) / (baseline.n + variant.n - 2);
  const now = studentTCritical(comparison.confidence, welch.degreesOfFreedom) * welch.standardError;
  const then = studentTCritical(comparison.confidence, degrees) * error;
  return then < now ? then / now : null;
}
