import type { Change } from "../analysis/change.ts";
import { type ShownUnit, withSureness } from "../analysis/change.ts";
import { levelText, type Phrase, phraseOf } from "../analysis/finding.ts";
import { decimalsFor, formatFixed, formatSignificant } from "../format/number.ts";
import { keyLabel, parseKey } from "../quantity/quantity-key.ts";
import { quantityEntry } from "../quantity/quantity-table.ts";
import { type Locale, wordsFor } from "../words/index.ts";
import type { Limits } from "./pair-analysis.ts";

/** How the compared column is written for a person: one of the program's own quantities by its words, any other by its heading. */
export class Shown {
  readonly locale: Locale;
  readonly entry: ShownUnit;
  readonly label: string;
  readonly phrase: Phrase;
  /** Confidence in per cent. */
  readonly level: string;

  constructor(column: string, confidence: number, locale: Locale) {
    const key = parseKey(column);
    const words = wordsFor(locale).comparison;
    this.locale = locale;
    this.level = levelText(confidence, locale);
    this.entry = key === null ? { shownUnit: "", shownFactor: 1 } : quantityEntry(key.quantity, locale);
    this.label = key === null ? words.label(column) : keyLabel(key, locale);
    this.phrase =
      key === null
        ? (isLess, amount) => (isLess ? words.lower(column, amount) : words.higher(column, amount))
        : phraseOf(key, locale);
  }

  /** A difference in the unit of the column. */
  change({ value, lower, upper }: Limits & { readonly value: number }): Change {
    const shown = (one: number | null) => (one === null ? null : one * this.entry.shownFactor);
    const unit = this.entry.shownUnit === "%" ? "percentagePoints" : "own";
    return withSureness(unit, value * this.entry.shownFactor, shown(lower), shown(upper));
  }

  withUnit(text: string): string {
    return this.entry.shownUnit === "" ? text : wordsFor(this.locale).findings.inUnit(text, this.entry.shownUnit);
  }

  /** A value of the column, with its unit: at most so many digits, and no zeros behind the last one. */
  value(value: number, digits = 4): string {
    const shown = value * this.entry.shownFactor;
    const most = shown === 0 ? 0 : decimalsFor(shown, digits);
    const needed = Array.from({ length: most }, (_, decimals) => decimals).find(
      (decimals) => Number(shown.toFixed(decimals)) === Number(shown.toFixed(most)),
    );
    return this.withUnit(formatFixed(shown, needed ?? most, this.locale));
  }

  /** A mean with its limits, cut where the half-width has two digits. */
  mean(mean: number, lower: number, upper: number): { readonly mean: string; readonly range: string } {
    const factor = this.entry.shownFactor;
    const decimals = decimalsFor(((upper - lower) / 2) * factor, 2);
    const write = (value: number) => formatFixed(value * factor, decimals, this.locale);
    const range = wordsFor(this.locale).comparison.range(write(lower), this.withUnit(write(upper)));
    return { mean: this.withUnit(write(mean)), range };
  }

  /** Two limits without unit. */
  limits(lower: number, upper: number): string {
    return wordsFor(this.locale).comparison.range(this.plain(lower), this.plain(upper));
  }

  /** A number without unit. */
  plain(value: number): string {
    return formatSignificant(value, 3, this.locale);
  }

  /** "p = 0.013", "p < 0.0001". */
  p(p: number): string {
    const words = wordsFor(this.locale).comparison;
    if (p < 0.0001) return words.pBelow(formatFixed(0.0001, 4, this.locale));
    return words.pIs(formatSignificant(p, 2, this.locale));
  }
}
