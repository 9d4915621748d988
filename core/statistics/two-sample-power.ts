import { requireProbability } from "./argument.ts";
import { LARGEST_NONCENTRALITY, noncentralTLowerTail, noncentralTUpperTail } from "./distribution/noncentral-t.ts";
import { normalQuantile, normalUpperTail } from "./distribution/normal.ts";
import { studentTCritical } from "./distribution/student-t.ts";

/** A two-sided two-sample t-test with pooled variance, before it is made. */
export interface TwoSampleDesign {
  /** Standard deviation of single runs, common to both variants, above 0. */
  readonly standardDeviation: number;
  /** True difference of the means, in the same unit; its sign does not matter. */
  readonly difference: number;
  /** Runs of each variant; they need not be whole, but must add to more than 2. */
  readonly baselineRuns: number;
  readonly variantRuns: number;
  /** 1 minus the test's significance level. */
  readonly confidence: number;
}

/**
 * Power: the probability that the test will find a difference that is really there, counting rejection on either side.
 *
 *     power = P(T > t) + P(T < -t),  T noncentral with nu = n1 + n2 - 2 and delta = |difference|/(s sqrt(1/n1 + 1/n2))
 *
 * with t Student's at the confidence. A noncentrality above 1000 is taken as 1000, where the power is 1 for every usual
 * confidence. A RangeError outside the domain.
 *
 * Source: J. Cohen, Statistical power analysis for the behavioral sciences, 2nd edition (1988), chapter 2; noncentral t after AS 243.
 */
export function twoSamplePower(design: TwoSampleDesign): number {
  const { standardDeviation, difference, baselineRuns, variantRuns, confidence } = design;
  requireProbability("Confidence", confidence);
  if (!(standardDeviation > 0)) throw new RangeError(`Standard deviation is ${standardDeviation}: it must be above 0.`);
  if (!(baselineRuns > 0 && variantRuns > 0)) throw new RangeError("The numbers of runs must be above 0.");
  const degreesOfFreedom = baselineRuns + variantRuns - 2;
  const size = Math.abs(difference) / standardDeviation;
  const noncentrality = size / Math.sqrt(1 / baselineRuns + 1 / variantRuns);
  const within = Math.min(noncentrality, LARGEST_NONCENTRALITY);
  const critical = studentTCritical(confidence, degreesOfFreedom);
  const rightSide = noncentralTUpperTail(critical, degreesOfFreedom, within);
  const wrongSide = noncentralTLowerTail(-critical, degreesOfFreedom, within);
  return Math.min(1, rightSide + wrongSide);
}

/**
 * The power that a fixed number of the baseline's runs allows, however many the variant has: the limit of `twoSamplePower` for a
 * variant's number without end, where the standard error is the baseline's alone and t is the normal distribution's.
 *
 *     limit = P(Z > z - delta) + P(Z < -z - delta),  delta = |difference| sqrt(n1)/s
 */
export function powerLimit({
  standardDeviation,
  difference,
  baselineRuns,
  confidence,
}: Omit<TwoSampleDesign, "variantRuns">): number {
  requireProbability("Confidence", confidence);
  const noncentrality = (Math.abs(difference) / standardDeviation) * Math.sqrt(baselineRuns);
  const critical = normalQuantile((1 + confidence) / 2);
  return Math.min(1, normalUpperTail(critical - noncentrality) + normalUpperTail(critical + noncentrality));
}
