import type { Comparison } from "../analysis/comparison.ts";
import { formatFixed } from "../format/number.ts";
import { type Budget, combinedBudget } from "../uncertainty/budget.ts";
import type { Combined } from "../uncertainty/combined.ts";
import { type Locale, wordsFor } from "../words/index.ts";
import { Amounts, ownerName } from "./budget-text.ts";

/** From this share of the variance on, one part is all that matters. */
const dominant = 0.8;

/**
 * What would make a mean or a difference surer: more runs, or a better instrument; and what makes it look surer than it is. Empty
 * where nothing is stated of errors.
 *
 * @param combined scatter and shared errors of a mean or a difference
 */
export function adviceOn(combined: Combined, locale: Locale): string[] {
  const words = wordsFor(locale).uncertainty;
  if (combined.noReplicates) return [words.noReplicates];
  const tooLittle = combined.scatterUncertainty < combined.leastScatter ? [words.tooLittleScatter] : [];
  return [...surerBy(combined, locale), ...tooLittle];
}

function surerBy(combined: Combined, locale: Locale): string[] {
  const words = wordsFor(locale).uncertainty;
  const budget = combinedBudget(0, combined);
  const scatter = shareOf(budget, true);
  const shared = budget.rows.find(({ owner }) => owner.kind !== "scatter");
  if (shared === undefined || combined.standardUncertainty === 0) return [];
  const percent = (share: number) => formatFixed(share * 100, 0, locale);
  if (scatter >= dominant) return [words.moreRuns(percent(scatter))];
  const name = ownerName(shared.owner, locale);
  if (1 - scatter >= dominant) return [words.betterInstrument(percent(1 - scatter), name, percent(shared.share))];
  return [words.both(percent(scatter), percent(1 - scatter), name)];
}

/** Less than this of what separate errors would make, and it is said that shared ones cancel. */
const cancelsWorthSaying = 0.95;

/** What would make a comparison surer, and how far shared errors cancel in it. Empty where no errors are stated. */
export function adviceTexts(comparison: Comparison, locale: Locale): string[] {
  const { combined, entry } = comparison;
  if (combined === null) return [];
  const { standardUncertainty, interval } = combined.difference;
  // Expanded as the difference is: with its coverage factor.
  const factor = standardUncertainty === 0 ? 0 : (interval.upper - interval.lower) / 2 / standardUncertainty;
  const { apart = 0, together = 0 } = cancelled(comparison) ?? {};
  if (factor === 0) return [];
  const amounts = new Amounts(factor * apart, entry, locale);
  const { cancels } = wordsFor(locale).uncertainty;
  return [
    ...adviceOn(combined.difference, locale),
    ...(together < cancelsWorthSaying * apart
      ? [cancels(amounts.withUnit(factor * apart), amounts.withUnit(factor * together))]
      : []),
  ];
}

function shareOf({ rows }: Budget, isScatter: boolean): number {
  return rows.reduce((sum, row) => ((row.owner.kind === "scatter") === isScatter ? sum + row.share : sum), 0);
}

/** How far shared errors cancel between two variants: in the unit of the quantity, standard uncertainties. */
export function cancelled({ combined }: Comparison): { readonly apart: number; readonly together: number } | null {
  if (combined === null) return null;
  const { baseline, variant, difference } = combined;
  return {
    apart: Math.hypot(baseline.sharedUncertainty, variant.sharedUncertainty),
    together: difference.sharedUncertainty,
  };
}
