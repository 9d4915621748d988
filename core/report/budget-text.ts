import { levelText } from "../analysis/finding.ts";
import { decimalsFor, formatFixed, formatSignificant } from "../format/number.ts";
import { formatMean } from "../format/quantity.ts";
import { keyLabel, type QuantityKey } from "../quantity/quantity-key.ts";
import { type QuantityEntry, quantityEntry } from "../quantity/quantity-table.ts";
import { studentTCritical } from "../statistics/distribution/student-t.ts";
import type { Budget, BudgetComponent, BudgetOwner, BudgetRow } from "../uncertainty/budget.ts";
import { type Locale, wordsFor } from "../words/index.ts";
import type { BudgetChart } from "./chart-specification.ts";

/** One row of a budget, ready for a person. */
export interface BudgetRowText {
  /** "balance for fuel and char". */
  readonly name: string;
  /** Its components: "gain, shared by all runs; resolution, new at each reading". */
  readonly detail: string;
  /** "63 %". */
  readonly share: string;
  /** What this part alone makes, expanded, with the unit: "± 0.64 percentage points". */
  readonly alone: string;
  /** What the whole would become if this part were halved: "± 1.0 would become ± 0.8"; "± 1.0" where that makes no difference. */
  readonly whenHalved: string;
}

/** A budget, ready for a person. */
export interface BudgetText {
  readonly label: string;
  /** "20.3 ± 1.0", as shown, without unit; the value alone where nothing is uncertain. */
  readonly value: string;
  /** "%", "g"; "" for a ratio. */
  readonly unit: string;
  /** "at 95 %, coverage factor 1.96". */
  readonly coverage: string;
  readonly rows: readonly BudgetRowText[];
  /** Null where there is nothing to draw. */
  readonly chart: BudgetChart | null;
  /** What is not in it, what stands out. Sentences. */
  readonly notes: readonly string[];
}

/** Puts a budget into words, expanded at a confidence. */
export function budgetText(budget: Budget, key: QuantityKey, confidence: number, locale: Locale): BudgetText {
  const words = wordsFor(locale).uncertainty;
  const entry = quantityEntry(key.quantity, locale);
  const label = keyLabel(key, locale);
  const factor = studentTCritical(confidence, budget.degreesOfFreedom);
  const half = factor * budget.standardUncertainty;
  const { value } = budget;
  const interval = half === 0 ? null : { lower: value - half, upper: value + half };
  const amounts = new Amounts(half, entry, locale);
  const rows = budget.rows.map((row): BudgetRowText => {
    return {
      name: ownerName(row.owner, locale),
      detail: detailOf(row, locale),
      share: shareText(row.share, locale),
      alone: words.plusMinus(amounts.ofPart(factor * row.standardUncertainty)),
      whenHalved: amounts.isSame(half, factor * row.whenHalved)
        ? words.plusMinus(amounts.withUnit(half))
        : words.becomes(amounts.bare(half), amounts.withUnit(factor * row.whenHalved)),
    };
  });
  const notes = [
    ...(rows.length === 0 ? [words.none] : []),
    ...(budget.exactRoles.length === 0 ? [] : [exactText(budget, locale)]),
  ];
  return {
    label,
    value: formatMean(value, interval, entry, locale).plusMinus,
    unit: entry.shownUnit,
    coverage: words.coverage(levelText(confidence, locale), formatSignificant(factor, 3, locale)),
    rows,
    chart: rows.length === 0 ? null : chartOf(budget, rows, label, locale),
    notes,
  };
}

/** "24.0 ± 1.2": a value with its expanded uncertainty, both cut where the uncertainty has two digits (JCGM 100:2008, 7.2.6). */
export function formatExpanded(value: number, half: number, entry: QuantityEntry, locale: Locale): string {
  const interval = half > 0 ? { lower: value - half, upper: value + half } : null;
  return formatMean(value, interval, entry, locale).plusMinus;
}

/** What is smaller yet is nothing beside the whole. */
const mostFurtherDecimals = 3;

/** Amounts of one uncertainty, all cut at the same decimal. */
export class Amounts {
  readonly #decimals: number;
  readonly #entry: QuantityEntry;
  readonly #locale: Locale;

  constructor(half: number, entry: QuantityEntry, locale: Locale) {
    this.#entry = entry;
    this.#locale = locale;
    this.#decimals = decimalsFor(half * entry.shownFactor, 2);
  }

  bare(amount: number): string {
    return formatFixed(amount * this.#entry.shownFactor, this.#decimals, this.#locale);
  }

  /** Both are written alike. */
  isSame(one: number, other: number): boolean {
    return this.bare(one) === this.bare(other);
  }

  withUnit(amount: number): string {
    return this.#withUnit(this.bare(amount));
  }

  /** The same, but with one digit of its own at least, so that little is not taken for nothing. */
  ofPart(amount: number): string {
    const shown = amount * this.#entry.shownFactor;
    const decimals = Math.min(this.#decimals + mostFurtherDecimals, Math.max(this.#decimals, decimalsFor(shown, 1)));
    return this.#withUnit(formatFixed(shown, decimals, this.#locale));
  }

  #withUnit(text: string): string {
    const { findings } = wordsFor(this.#locale);
    const { shownUnit } = this.#entry;
    if (shownUnit === "%") return findings.percentagePoints(text);
    return shownUnit === "" ? text : findings.inUnit(text, shownUnit);
  }
}

function exactText({ exactRoles }: Budget, locale: Locale): string {
  const { settings, uncertainty } = wordsFor(locale);
  return uncertainty.exact(exactRoles.map((role) => settings.roles[role]));
}

/** What a budget's row is called. */
export function ownerName(owner: BudgetOwner, locale: Locale): string {
  const { settings, uncertainty } = wordsFor(locale);
  const { owners } = uncertainty;
  if (owner.kind === "instrument") return settings.roles[owner.role];
  if (owner.kind !== "setting") return owners[owner.kind];
  const { setting } = owner;
  if (setting === "char") return owners.char;
  const colon = setting.indexOf(":");
  const [kind, name] = [setting.slice(0, colon), setting.slice(colon + 1)];
  return owners[kind === "gross" || kind === "hydrogen" ? kind : "fuel"](name);
}

function detailOf({ owner, components }: BudgetRow, locale: Locale): string {
  const words = wordsFor(locale).uncertainty;
  if (owner.kind === "scatter") return words.scatterDetail;
  if (owner.kind === "readings") return words.readingsDetail;
  const text = ({ name, isShared, share }: BudgetComponent) => {
    const component = isShared ? words.shared(name) : words.independent(name);
    return components.length === 1 ? component : words.chartPart(component, shareText(share, locale));
  };
  return components.map(text).join("; ");
}

/** A share in per cent, whole numbers; never "0 %" of something that is there. */
export function shareText(share: number, locale: Locale): string {
  const { uncertainty } = wordsFor(locale);
  const percent = share * 100;
  return percent < 0.5
    ? uncertainty.shareUnder(formatFixed(1, 0, locale))
    : uncertainty.share(formatFixed(percent, 0, locale));
}

function chartOf(budget: Budget, rows: readonly BudgetRowText[], label: string, locale: Locale): BudgetChart {
  const words = wordsFor(locale).uncertainty;
  return {
    kind: "budget",
    shareTitle: words.shareTitle,
    rows: budget.rows.map(({ share, owner }, index) => {
      const row = rows[index] as BudgetRowText;
      return { name: row.name, share: share * 100, text: row.share, isScatter: owner.kind === "scatter" };
    }),
    textAlternative: words.chartText(
      label,
      rows.map(({ name, share }) => words.chartPart(name, share)),
    ),
  };
}
