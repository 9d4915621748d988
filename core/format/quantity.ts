import type { QuantityEntry } from "../quantity/quantity-table.ts";
import { type Locale, wordsFor } from "../words/index.ts";
import { decimalsFor, formatFixed } from "./number.ts";

/** A single value of a quantity as shown, without its unit: 0.2401 of an efficiency is "24.0". */
export function formatValue(value: number, entry: QuantityEntry, locale: Locale): string {
  return formatFixed(value * entry.shownFactor, entry.decimals, locale);
}

/** "24.0 %", "752 g"; a ratio stands alone. */
export function formatValueWithUnit(value: number, entry: QuantityEntry, locale: Locale): string {
  const text = formatValue(value, entry, locale);
  return entry.shownUnit === "" ? text : wordsFor(locale).findings.inUnit(text, entry.shownUnit);
}

/** A mean and its interval, both cut where the interval's half-width has two digits (JCGM 100:2008, 7.2.6). */
export interface MeanTexts {
  readonly mean: string;
  /** Half-width; null without an interval. */
  readonly half: string | null;
  readonly lower: string | null;
  readonly upper: string | null;
  /** "752 ± 17", or the mean alone. */
  readonly plusMinus: string;
}

/** Writes a mean with its interval, as shown and without unit. */
export function formatMean(
  mean: number,
  interval: { readonly lower: number; readonly upper: number } | null,
  entry: QuantityEntry,
  locale: Locale,
): MeanTexts {
  if (interval === null) {
    const text = formatValue(mean, entry, locale);
    return { mean: text, half: null, lower: null, upper: null, plusMinus: text };
  }
  const half = ((interval.upper - interval.lower) / 2) * entry.shownFactor;
  const decimals = decimalsFor(half, 2);
  const write = (value: number) => formatFixed(value * entry.shownFactor, decimals, locale);
  const texts = { mean: write(mean), half: formatFixed(half, decimals, locale) };
  const plusMinus = wordsFor(locale).findings.plusMinus(texts.mean, texts.half);
  return { ...texts, lower: write(interval.lower), upper: write(interval.upper), plusMinus };
}

/** "wood for 5 litres, g", "thermal efficiency, cold start, %". */
export function labelWithUnit(label: string, entry: QuantityEntry): string {
  return entry.shownUnit === "" ? label : `${label}, ${entry.shownUnit}`;
}
