import { studentTCritical } from "../statistics/distribution/student-t.ts";
import type { Interval } from "../statistics/reason.ts";
import { freedomOf } from "./freedom-of.ts";
import { type SharedError, sharedUncertainty, type VarianceTerm } from "./run-errors.ts";

/** What several sources of uncertainty come to, kept apart by what could be done about them. */
export interface Combined {
  readonly standardUncertainty: number;
  /** Effective, after Welch and Satterthwaite; Infinity where every size is taken as exactly known. */
  readonly degreesOfFreedom: number;
  readonly interval: Interval;
  /** From scatter between runs: more runs would make it smaller. 0 where a single run tells nothing of it. */
  readonly scatterUncertainty: number;
  /**
   * What the readings' independent errors alone would make of the scatter on average: true scatter is never less. 0 where nothing is
   * stated of them, and of single runs.
   */
  readonly leastScatter: number;
  /** From errors new at each reading, counted on their own only where there is one run: the scatter of several holds them. */
  readonly independentUncertainty: number;
  /** From errors that all runs share: more runs leave it as it is. */
  readonly sharedUncertainty: number;
  readonly shared: readonly SharedError[];
  /** One run, or one of a group: nothing is known of its scatter, which is not in the interval. */
  readonly noReplicates: boolean;
}

/**
 * Combines variances and shared errors about an estimate.
 *
 *   u^2 = sum of variances + sum of squared contributions,   nu = u^4 / sum(u_i^4/nu_i),   interval = estimate +- t(nu) u
 *
 * Source: JCGM 100:2008, 5.1.2, 5.2.2, G.4.1 (equation G.2b).
 */
export function combine(
  estimate: number,
  parts: {
    readonly scatter: readonly VarianceTerm[];
    readonly independent: readonly VarianceTerm[];
    readonly leastScatter: number;
    readonly shared: readonly SharedError[];
    readonly noReplicates: boolean;
  },
  confidence: number,
): Combined {
  const { scatter, leastScatter, independent, shared, noReplicates } = parts;
  const total = (terms: readonly VarianceTerm[]) => Math.sqrt(terms.reduce((sum, { variance }) => sum + variance, 0));
  const scatterUncertainty = total(scatter);
  const independentUncertainty = total(independent);
  const common = sharedUncertainty(shared);
  const standardUncertainty = Math.hypot(scatterUncertainty, independentUncertainty, common);
  const degreesOfFreedom = effectiveDegreesOfFreedom(standardUncertainty, [
    ...scatter,
    ...independent,
    ...shared.map(({ source, contribution }) => ({
      variance: contribution ** 2,
      degreesOfFreedom: source.degreesOfFreedom,
    })),
  ]);
  const half = studentTCritical(confidence, degreesOfFreedom) * standardUncertainty;
  return {
    standardUncertainty,
    degreesOfFreedom,
    interval: { level: confidence, lower: estimate - half, upper: estimate + half },
    scatterUncertainty,
    leastScatter,
    independentUncertainty,
    sharedUncertainty: common,
    shared,
    noReplicates,
  };
}

/** Effective degrees of freedom of a sum of variances (JCGM 100:2008, equation G.2b); Infinity where none has any. */
export function effectiveDegreesOfFreedom(standardUncertainty: number, terms: readonly VarianceTerm[]): number {
  let fourths = 0;
  for (const { variance, degreesOfFreedom } of terms) {
    const share = variance === 0 ? 0 : variance / standardUncertainty ** 2;
    fourths += share ** 2 / degreesOfFreedom;
  }
  return freedomOf(fourths);
}
