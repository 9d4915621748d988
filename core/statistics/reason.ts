/**
 * Why a statistic is missing or its interval is not an ordinary one. The sentences a person reads are chosen by these codes.
 *
 * - `no-values`: a group is empty.
 * - `one-value`: a group has a single value, so it shows no scatter.
 * - `one-group`: only one group has values, so there is nothing to compare it with.
 * - `too-few-values`, `too-many-values`: outside the numbers of values that the method is made for.
 * - `no-scatter`: the values differ by no more than rounding, so a t interval has no meaning.
 * - `mean-not-positive`, `baseline-mean-not-positive`: a relative figure needs a mean above zero.
 * - `value-not-positive`: a logarithm needs every value above zero.
 * - `baseline-indistinct-from-zero`: at this confidence the baseline's mean may be zero, so the ratio is not bounded.
 * - `both-means-indistinct-from-zero`: the same for both means: every ratio is compatible with the runs.
 * - `unbounded-above`, `unbounded-below`: the limiting case between a bounded and an unbounded ratio.
 * - `too-large`: the result is beyond the range of numbers that a computer holds.
 * - `no-difference`: nothing to detect.
 * - `more-than-maximum`: not reachable with the largest number of runs allowed.
 * - `baseline-too-few`: not reachable with the baseline's fixed number of runs, however many the variant has.
 * - `too-few-runs`: too few runs in all for a degree of freedom.
 * - `too-few-values`: too few values in a group, or in all, for this method.
 * - `others-equal`: all values but one are equal, so nothing shows how far the one may be.
 * - `margin-not-positive`: sameness needs a margin above zero.
 * - `too-few-resamples`: no resample came out below the mean.
 * - `no-degrees-of-freedom`: as many unknowns as runs: none is left to show scatter.
 * - `never-together`: no block joins the two variants, not even by way of a third.
 * - `not-separable`: the design cannot tell this effect from others.
 * - `one-level`: a factor that never changes.
 * - `orders-equal`: the run order does not vary within any variant.
 */
export type StatisticReason =
  | "no-values"
  | "one-value"
  | "one-group"
  | "too-few-values"
  | "too-many-values"
  | "no-scatter"
  | "mean-not-positive"
  | "baseline-mean-not-positive"
  | "value-not-positive"
  | "baseline-indistinct-from-zero"
  | "both-means-indistinct-from-zero"
  | "unbounded-above"
  | "unbounded-below"
  | "too-large"
  | "no-difference"
  | "more-than-maximum"
  | "baseline-too-few"
  | "too-few-runs"
  | "too-few-values"
  | "others-equal"
  | "margin-not-positive"
  | "too-few-resamples"
  | "no-degrees-of-freedom"
  | "never-together"
  | "not-separable"
  | "one-level"
  | "orders-equal";

/** A single figure, or the reason why there is none. */
export type Flagged<Because extends StatisticReason = StatisticReason> =
  | { readonly value: number; readonly because: null }
  | { readonly value: null; readonly because: Because };

/** An interval at a level of confidence (coverage probability, such as 0.95), both limits finite. */
export interface Interval {
  readonly level: number;
  readonly lower: number;
  readonly upper: number;
}
