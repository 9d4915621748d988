import { bracketedRoot } from "../numeric/bracketed-root.ts";
import { requireProbability } from "./argument.ts";
import { LARGEST_NONCENTRALITY } from "./distribution/noncentral-t.ts";
import { type TwoSampleDesign, twoSamplePower } from "./two-sample-power.ts";

/** Runs that are made or planned, and what they are asked. */
export interface DetectableQuestion extends Omit<TwoSampleDesign, "difference"> {
  /** Wanted probability of finding the difference, such as 0.8. */
  readonly power: number;
}

export type DetectableDifference =
  | { readonly value: number; readonly because: null }
  | {
      readonly value: null;
      /**
       * `too-few-runs`: fewer than three runs in all leave no degree of freedom. `too-large`: beyond a thousand standard errors,
       * or beyond the range of numbers.
       */
      readonly because: "too-few-runs" | "no-scatter" | "too-large";
    };

/**
 * The smallest true difference of two means, in the unit of the standard deviation, that a two-sided two-sample t-test with these
 * runs finds with the wanted power: what a given number of runs can detect.
 *
 * Missing for fewer than three runs in all and for a standard deviation of zero. A power that is not above the significance
 * level is reached by any difference: zero is answered. A RangeError for arguments outside their domain.
 *
 * Source: `twoSamplePower`, solved for the difference.
 */
export function detectableDifference(question: DetectableQuestion): DetectableDifference {
  const { standardDeviation, baselineRuns, variantRuns, power, confidence } = question;
  requireProbability("Power", power);
  requireProbability("Confidence", confidence);
  if (!(standardDeviation >= 0 && Number.isFinite(standardDeviation))) {
    throw new RangeError(`Standard deviation is ${standardDeviation}: it must be finite and not negative.`);
  }
  if (!(baselineRuns > 0 && variantRuns > 0)) throw new RangeError("The numbers of runs must be above 0.");
  if (baselineRuns + variantRuns <= 2) return { value: null, because: "too-few-runs" };
  if (standardDeviation === 0) return { value: null, because: "no-scatter" };
  if (power <= 1 - confidence) return { value: 0, because: null };
  // In standard errors of the difference, so that the search does not depend on the unit.
  const standardError = Math.sqrt(1 / baselineRuns + 1 / variantRuns);
  const shortfall = (noncentrality: number) =>
    twoSamplePower({ ...question, standardDeviation: 1, difference: noncentrality * standardError }) - power;
  let upper = 4;
  while (shortfall(upper) < 0) {
    if (upper >= LARGEST_NONCENTRALITY) return { value: null, because: "too-large" };
    upper = Math.min(LARGEST_NONCENTRALITY, upper * 2);
  }
  const value = bracketedRoot(shortfall, 0, upper, 1e-12) * standardError * standardDeviation;
  return Number.isFinite(value) ? { value, because: null } : { value: null, because: "too-large" };
}
