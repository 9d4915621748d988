import { decimalsFor, formatFixed } from "../format/number.ts";
import type { QuantityEntry } from "../quantity/quantity-table.ts";
import type { FiellerRatio } from "../statistics/fieller-ratio.ts";
import { hasScatter } from "../statistics/moments.ts";
import type { Welch } from "../statistics/welch.ts";
import { type Locale, wordsFor } from "../words/index.ts";

/**
 * How far a variant is from the baseline, in the unit in which the finding is said: per cent of the baseline's mean, or where
 * a percentage would mislead (shares, means not clearly above zero), in the quantity's own shown unit.
 */
export interface Change {
  readonly unit: "percent" | "percentagePoints" | "own";
  readonly value: number;
  readonly lower: number | null;
  readonly upper: number | null;
  /** True where the interval does not hold "no change". */
  readonly sure: boolean;
}

/** The unit in which a quantity is said. */
export type ShownUnit = Pick<QuantityEntry, "shownUnit" | "shownFactor">;

/**
 * The change from Welch's difference and Fieller's ratio; null where a group has no run.
 *
 * @param means of the two groups, by which rounding noise is told from a difference where no scatter tells it
 */
export function changeOf(
  welch: Welch,
  ratio: FiellerRatio,
  entry: ShownUnit,
  means: readonly [number | null, number | null],
): Change | null {
  if (welch.difference === null) return null;
  const isShare = entry.shownUnit === "%";
  const equal = welch.interval === null && !hasScatter(Math.abs(welch.difference), means[0] ?? 0, means[1] ?? 0);
  if (equal) return withSureness(isShare ? "percentagePoints" : "percent", 0, null, null);
  if (!isShare && ratio.ratio !== null && canBePercent(welch, ratio, ratio.ratio)) {
    const percent = (value: number | null) => (value === null ? null : (value - 1) * 100);
    const [lower, upper] = reachingZeroWith(welch, percent(ratio.lower), percent(ratio.upper));
    return withSureness("percent", (ratio.ratio - 1) * 100, lower, upper);
  }
  const shown = (value: number) => value * entry.shownFactor;
  return withSureness(
    isShare ? "percentagePoints" : "own",
    shown(welch.difference),
    welch.interval && shown(welch.interval.lower),
    welch.interval && shown(welch.interval.upper),
  );
}

/**
 * Fieller's and Welch's degrees of freedom differ, so that now and then one interval just holds "no change" and the other just
 * does not. The finding is then said to be open, by the cautious one: the percentage's nearer end is drawn to zero.
 */
function reachingZeroWith(
  welch: Welch,
  lower: number | null,
  upper: number | null,
): readonly [number | null, number | null] {
  const { interval } = welch;
  if (interval === null || interval.lower > 0 || interval.upper < 0) return [lower, upper];
  return [lower === null ? null : Math.min(lower, 0), upper === null ? null : Math.max(upper, 0)];
}

/** A percentage needs limits, and nothing is more than 100 % less: there a mean is not clearly above zero. */
function canBePercent(welch: Welch, ratio: FiellerRatio, estimate: number): boolean {
  const lowest = ratio.lower ?? estimate;
  return lowest >= 0 && (ratio.set === "bounded" || welch.interval === null);
}

/** A change, sure where its interval does not hold "no change". */
export function withSureness(unit: Change["unit"], value: number, lower: number | null, upper: number | null): Change {
  const sure = lower !== null && upper !== null && (lower > 0 || upper < 0);
  return { unit, value, lower, upper, sure };
}

/** How many decimals may be added to keep an end away from zero; where they do not, words do. */
const decimalsAdded = 2;

function isZeroAt(decimals: number, value: number): boolean {
  return Number(Math.abs(value).toFixed(decimals)) === 0;
}

/** Decimals at which an amount, its interval and their distance from zero can still be read. */
function decimalsOf(change: Change): number {
  const { value, lower, upper } = change;
  if (lower === null || upper === null) return decimalsFor(value, 2);
  const half = (upper - lower) / 2;
  // Two digits of the half-width would be too fine for a sentence: one, and as many more as keep an end away from zero.
  const fewest = change.unit === "percent" && half >= 2 ? 0 : decimalsFor(half, 1);
  if (!change.sure) return fewest;
  const decimals = Math.max(fewest, isZeroAt(fewest, value) ? decimalsFor(value, 1) : 0);
  const nearEnd = lower > 0 ? lower : upper;
  let enough = decimals;
  while (enough < decimals + decimalsAdded && isZeroAt(enough, nearEnd)) enough += 1;
  return isZeroAt(enough, nearEnd) ? decimals : enough;
}

/** A change in words and numbers. */
export interface ChangeTexts {
  /** "21 %", "3.0 percentage points", without direction. */
  readonly amount: string;
  /** "21 % less". */
  readonly directed: string;
  /** "15 to 27 % less", "between 9 % less and 6 % more"; null without an interval. */
  readonly range: string | null;
}

/** Writes a change for a person. */
export function changeTexts(change: Change, entry: ShownUnit, locale: Locale): ChangeTexts {
  const { findings } = wordsFor(locale);
  const decimals = decimalsOf(change);
  const number = (value: number) => formatFixed(Math.abs(value), decimals, locale);
  const withUnit = (text: string) => {
    if (change.unit === "percent") return findings.percent(text);
    if (change.unit === "percentagePoints") return findings.percentagePoints(text);
    return entry.shownUnit === "" ? text : findings.inUnit(text, entry.shownUnit);
  };
  const amount = withUnit(number(change.value));
  const directed = change.value < 0 ? findings.lower(amount) : findings.higher(amount);
  return { amount, directed: isZeroAt(decimals, change.value) ? findings.noChange : directed, range: rangeText() };

  function rangeText(): string | null {
    const { lower, upper } = change;
    if (lower === null || upper === null) return null;
    const nearEnd = (end: number) => (isZeroAt(decimals, end) ? findings.justOverZero : number(end));
    if (upper < 0) return findings.bothLower(nearEnd(upper), withUnit(number(lower)));
    if (lower > 0) return findings.bothHigher(nearEnd(lower), withUnit(number(upper)));
    if (isZeroAt(decimals, lower)) return findings.acrossFromZero(withUnit(number(upper)));
    if (isZeroAt(decimals, upper)) return findings.acrossToZero(withUnit(number(lower)));
    return findings.across(withUnit(number(lower)), withUnit(number(upper)));
  }
}
