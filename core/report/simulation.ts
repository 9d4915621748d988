import type { ValueInterval } from "../uncertainty/monte-carlo/interval.ts";
import { numericalTolerance } from "../uncertainty/monte-carlo/numerical-tolerance.ts";
import type { OutputTrials } from "../uncertainty/monte-carlo/summarise.ts";
import { validateFirstOrder } from "../uncertainty/monte-carlo/validation.ts";
import type { QuantityError } from "../uncertainty/run-errors.ts";

/** What Monte Carlo gave for one run. */
export interface SimulatedRun {
  readonly trials: number;
  readonly seed: number;
  /** By the text of the quantity's key. */
  readonly outputs: ReadonlyMap<string, OutputTrials>;
  /** Keys of what the adaptive procedure found stable to two digits; null where all trials were drawn without it. */
  readonly stable: ReadonlySet<string> | null;
}

/** Monte Carlo of a study's runs. */
export interface Simulation {
  /** Trials for each run that the settings ask for, and that were to be drawn: fewer where there are very many runs. */
  readonly wanted: number;
  readonly trials: number;
  readonly seed: number;
  readonly isAdaptive: boolean;
  /** By the run's id. */
  readonly runs: ReadonlyMap<string, SimulatedRun>;
}

/** Fewer trials than this are not set against first order: their intervals' ends are not known to one digit (10^4 of JCGM 101:2008, 7.9.4). */
export const leastTrialsToJudge = 10_000;
/** Where more of the trials than this lie outside what is physically possible, it is said. Ours. */
export const outsideWorthSaying = 0.001;

/** What the trials say of first order for one quantity. */
export interface Judgement {
  /** First order agrees with the trials; null: left open. */
  readonly validates: boolean | null;
  /** Why it does not: the mean or the spread is another (the formula is bent), or the ends alone are (the shape is not normal). */
  readonly because: "nonLinear" | "notNormal" | null;
  /** Fractions of the trials. */
  readonly outside: number;
  readonly notFinite: number;
}

/**
 * Mean and standard deviation as far as the distribution has them, whatever the trials came to: a t has a mean above 1 degree of freedom
 * and a standard deviation above 2 (JCGM 101:2008, 6.4.9.4, from memory); what it enters is taken to have no more.
 */
export function existingMoments(
  { fewestDegreesOfFreedom }: QuantityError,
  { mean, standardUncertainty }: OutputTrials,
): Pick<OutputTrials, "mean" | "standardUncertainty"> {
  return {
    mean: fewestDegreesOfFreedom > 1 ? mean : null,
    standardUncertainty: fewestDegreesOfFreedom > 2 ? standardUncertainty : null,
  };
}

/**
 * Sets the trials beside first order: at two significant digits where the adaptive procedure has made the trials stable to two, else at one;
 * left open where the trials are too few for that, or the uncertainty is none.
 *
 * Source: JCGM 101:2008, clause 8.
 */
export function judgementOf(
  value: number,
  error: QuantityError,
  interval: ValueInterval,
  output: OutputTrials,
  isStable: boolean,
): Judgement {
  const { trials, outside, notFinite } = output;
  const shares = {
    outside: (outside.below + outside.above) / trials,
    notFinite: (notFinite.infinite + notFinite.notNumbers) / trials,
  };
  const u = error.standardUncertainty;
  const digits = isStable ? 2 : 1;
  // Trials without a finite mean have no spread that first order could describe.
  if (shares.notFinite > 0 && u > 0) return { validates: false, because: "nonLinear", ...shares };
  if (trials < leastTrialsToJudge) return { validates: null, because: null, ...shares };
  const validation = validateFirstOrder(u, interval, output.symmetricInterval, digits, isStable ? 2 : null);
  if (validation === null || validation.validates)
    return { validates: validation?.validates ?? null, because: null, ...shares };
  const tolerance = numericalTolerance(u, digits) ?? 0;
  // A mean of trials with long tails (a t of few degrees of freedom) strays by itself, whatever the formula.
  const straying = (4 * (output.standardUncertainty ?? 0)) / Math.sqrt(trials);
  const isMoved = output.mean === null || Math.abs(output.mean - value) > Math.max(tolerance, straying);
  // A scaled t has a larger standard deviation than its first-order uncertainty, whatever the formula.
  const isKnown = error.degreesOfFreedom === Number.POSITIVE_INFINITY;
  const isWider =
    isKnown && (output.standardUncertainty === null || Math.abs(output.standardUncertainty - u) > tolerance);
  return { validates: false, because: isMoved || isWider ? "nonLinear" : "notNormal", ...shares };
}
