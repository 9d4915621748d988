import type { Change } from "../analysis/change.ts";
import { type ShownUnit, withSureness } from "../analysis/change.ts";
import { levelText, type Phrase, phraseOf } from "../analysis/finding.ts";
import { decimalsFor, formatFixed, formatSignificant } from "../format/number.ts";
import { keyLabel, parseKey } from "../quantity/quantity-key.ts";
import { quantityEntry } from "../quantity/quantity-table.ts";
import { type Locale, wordsFor } from "../words/index.ts";
import type { Limits } from "./pair-analysis.ts";
import { shortNumber } from "./short-number.ts";

/** Numbers outside these are written as so much times a power of ten. */
const [smallest, greatest] = [1e-6, 1e15];

function unitOf(largest: number, locale: Locale): ShownUnit {
  if (largest === 0 || (largest >= smallest && largest < greatest)) return { shownUnit: "", shownFactor: 1 };
  const exponent = Math.floor(Math.log10(largest));
  return { shownUnit: wordsFor(locale).comparison.powerOfTen(exponent), shownFactor: 10 ** -exponent };
}

/** How the compared column is written for a person: one of the program's own quantities by its words, any other by its heading. */
export class Shown {
  readonly locale: Locale;
  readonly entry: ShownUnit;
  readonly label: string;
  readonly phrase: Phrase;
  /** Confidence in per cent. */
  readonly level: string;

  /** `largest`: the size of the largest value that is compared. */
  constructor(column: string, confidence: number, largest: number, locale: Locale) {
    const key = parseKey(column);
    const words = wordsFor(locale).comparison;
    this.locale = locale;
    this.level = levelText(confidence, locale);
    this.entry = key === null ? unitOf(largest, locale) : quantityEntry(key.quantity, locale);
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
    return this.withUnit(shortNumber(value * this.entry.shownFactor, digits, this.locale));
  }

  /** The size of a difference: of shares in percentage points, which per cent could be mistaken for parts of. */
  size(value: number, digits: number): string {
    if (this.entry.shownUnit !== "%") return this.value(value, digits);
    const text = shortNumber(value * this.entry.shownFactor, digits, this.locale);
    return wordsFor(this.locale).findings.percentagePoints(text);
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
    const { shownUnit, shownFactor } = unitOf(Math.abs(value), this.locale);
    if (shownUnit !== "")
      return wordsFor(this.locale).findings.inUnit(formatSignificant(value * shownFactor, 3, this.locale), shownUnit);
    return formatSignificant(value, 3, this.locale);
  }

  /** "p = 0.013", "p < 0.0001". */
  p(p: number): string {
    const words = wordsFor(this.locale).comparison;
    if (p < 0.0001) return words.pBelow(formatFixed(0.0001, 4, this.locale));
    return words.pIs(formatSignificant(p, 2, this.locale));
  }
}
