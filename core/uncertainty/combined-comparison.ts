import { studentTCritical } from "../statistics/distribution/student-t.ts";
import { type FiellerRatio, type RatioLimits, ratioLimits } from "../statistics/fieller-ratio.ts";
import { hasScatter } from "../statistics/moments.ts";
import { type Combined, combine, effectiveDegreesOfFreedom } from "./combined.ts";
import {
  type QuantityError,
  type SharedError,
  sharedUncertainty,
  type VarianceTerm,
  weightedShared,
} from "./run-errors.ts";

/** One variant's runs in one quantity: scatter and errors. */
export interface GroupWithErrors {
  readonly n: number;
  readonly mean: number;
  /** Null for one run. */
  readonly standardDeviation: number | null;
  /** One for each run; or one alone that stands for the mean of all. */
  readonly errors: readonly QuantityError[];
}

/**
 * A mean with all that makes it uncertain: u^2 = s^2/n + u^2(shared). The scatter holds the readings' independent errors; only where
 * there is one run do these stand for themselves.
 */
export function combinedMean(group: GroupWithErrors, confidence: number): Combined {
  const { scatter, independent } = varianceOfMean(group);
  const leastScatter = leastScatterOf(group);
  const parts = { scatter, leastScatter, independent, shared: sharedOfMean(group), noReplicates: group.n === 1 };
  return combine(group.mean, parts, confidence);
}

function varianceOfMean({ n, standardDeviation, errors }: GroupWithErrors): {
  readonly scatter: readonly VarianceTerm[];
  readonly independent: readonly VarianceTerm[];
} {
  if (standardDeviation !== null) {
    return { scatter: [{ variance: standardDeviation ** 2 / n, degreesOfFreedom: n - 1 }], independent: [] };
  }
  return { scatter: [], independent: errors.map(({ independent }) => independent) };
}

/** Standard uncertainty of the mean if runs differed by their readings' independent errors alone. */
function leastScatterOf({ n, standardDeviation, errors }: GroupWithErrors): number {
  if (standardDeviation === null || errors.length === 0) return 0;
  const variances = errors.map(({ independent }) => independent.variance);
  return Math.sqrt(variances.reduce((sum, variance) => sum + variance, 0) / variances.length / n);
}

function sharedOfMean({ errors }: GroupWithErrors): readonly SharedError[] {
  const [only] = errors;
  if (only !== undefined && errors.length === 1) return only.shared;
  return weightedShared(errors.map(({ shared }) => ({ weight: 1 / errors.length, shared })));
}

/** Variant minus baseline: what both share cancels as far as it moves both alike. */
export function combinedDifference(baseline: GroupWithErrors, variant: GroupWithErrors, confidence: number): Combined {
  const [first, second] = [varianceOfMean(baseline), varianceOfMean(variant)];
  return combine(
    variant.mean - baseline.mean,
    {
      scatter: [...first.scatter, ...second.scatter],
      leastScatter: Math.hypot(leastScatterOf(baseline), leastScatterOf(variant)),
      independent: [...first.independent, ...second.independent],
      shared: weightedShared([
        { weight: 1, shared: sharedOfMean(variant) },
        { weight: -1, shared: sharedOfMean(baseline) },
      ]),
      noReplicates: baseline.n === 1 || variant.n === 1,
    },
    confidence,
  );
}

/** Variant's mean over baseline's mean, with scatter and shared errors. */
export interface CombinedRatio extends Omit<FiellerRatio, "runs"> {
  /** To first order; null without a ratio. */
  readonly standardUncertainty: number | null;
  /** The part of the errors that all runs share; what is left after they cancel. */
  readonly sharedUncertainty: number | null;
  readonly noReplicates: boolean;
}

/**
 * Fieller's set of ratios where the means are correlated through shared errors. With beta = cov/u^2(mean1) the mean of the variant less beta
 * times the baseline's is uncorrelated with the baseline's; its ratio has Fieller's set without covariance, and that set moved by beta is
 * the one wanted. Degrees of freedom after Satterthwaite for the ratio at its estimate, each shared error's among them.
 *
 * Source: E. C. Fieller, J. R. Statist. Soc. B 16, 175 (1954), whose form has a covariance; JCGM 100:2008, equation G.2b.
 */
export function combinedRatio(baseline: GroupWithErrors, variant: GroupWithErrors, confidence: number): CombinedRatio {
  const head = { level: confidence, noReplicates: baseline.n === 1 || variant.n === 1 };
  const without = { ratio: null, degreesOfFreedom: null, standardUncertainty: null, sharedUncertainty: null };
  if (baseline.mean <= 0) return { ...head, ...without, ...none("baseline-mean-not-positive") };
  const ratio = variant.mean / baseline.mean;
  if (!Number.isFinite(ratio)) return { ...head, ...without, ...none("too-large") };
  // Everything relative to the baseline's mean.
  const scale = 1 / baseline.mean;
  const [first, second] = [varianceOfMean(baseline), varianceOfMean(variant)];
  const [firstShared, secondShared] = [sharedOfMean(baseline), sharedOfMean(variant)];
  const ofRatio = weightedShared([
    { weight: scale, shared: secondShared },
    { weight: -ratio * scale, shared: firstShared },
  ]);
  const terms = [
    ...scaled([...second.scatter, ...second.independent], scale),
    ...scaled([...first.scatter, ...first.independent], ratio * scale),
  ];
  const shared = sharedUncertainty(ofRatio);
  const standardUncertainty = Math.hypot(shared, ...terms.map(({ variance }) => Math.sqrt(variance)));
  const known = { ...head, ratio, standardUncertainty, sharedUncertainty: shared, degreesOfFreedom: null };
  if (!Number.isFinite(standardUncertainty)) return { ...known, ...none("too-large") };
  if (!hasScatter(standardUncertainty, ratio)) return { ...known, ...none("no-scatter") };
  const degreesOfFreedom = effectiveDegreesOfFreedom(standardUncertainty, [
    ...terms,
    ...ofRatio.map(({ source, contribution }) => ({
      variance: contribution ** 2,
      degreesOfFreedom: source.degreesOfFreedom,
    })),
  ]);
  const t = studentTCritical(confidence, degreesOfFreedom);
  const firstVariance = varianceOf(first, firstShared) * scale ** 2;
  const secondVariance = varianceOf(second, secondShared) * scale ** 2;
  const covariance = productOf(firstShared, secondShared) * scale ** 2;
  const beta = firstVariance === 0 ? 0 : covariance / firstVariance;
  const leftVariance = Math.max(0, secondVariance - beta * covariance);
  const limits = ratioLimits(ratio - beta, t * Math.sqrt(leftVariance), t * Math.sqrt(firstVariance));
  return { ...known, degreesOfFreedom, ...moved(limits, beta) };
}

function scaled(terms: readonly VarianceTerm[], factor: number): VarianceTerm[] {
  return terms.map(({ variance, degreesOfFreedom }) => ({ variance: variance * factor ** 2, degreesOfFreedom }));
}

function varianceOf(own: ReturnType<typeof varianceOfMean>, shared: readonly SharedError[]): number {
  const variances = [...own.scatter, ...own.independent].map(({ variance }) => variance);
  return [...variances, ...shared.map(({ contribution }) => contribution ** 2)].reduce((sum, one) => sum + one, 0);
}

/** The covariance that errors in common give. */
function productOf(first: readonly SharedError[], second: readonly SharedError[]): number {
  const others = new Map(second.map(({ source, contribution }) => [source.key, contribution]));
  return first.reduce((sum, { source, contribution }) => sum + contribution * (others.get(source.key) ?? 0), 0);
}

function none(because: FiellerRatio["because"]): RatioLimits {
  return { set: "none", lower: null, upper: null, excluded: null, because };
}

function moved(limits: RatioLimits, by: number): RatioLimits {
  const end = (limit: number | null) => (limit === null ? null : limit + by);
  const { excluded } = limits;
  return {
    ...limits,
    lower: end(limits.lower),
    upper: end(limits.upper),
    excluded: excluded === null ? null : { lower: excluded.lower + by, upper: excluded.upper + by },
  };
}
