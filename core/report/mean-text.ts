import type { StudyResults, VariantResults } from "../analysis/study-results.ts";
import { formatMean } from "../format/quantity.ts";
import { keyText, type QuantityKey } from "../quantity/quantity-key.ts";
import { quantityEntry } from "../quantity/quantity-table.ts";
import { wordsFor } from "../words/index.ts";

/** A variant's mean of a quantity for a cell: "752 ± 17", the mean alone without an interval, or a dash where no run has it. */
export function meanTextOf({ locale }: StudyResults, variant: VariantResults, key: QuantityKey): string {
  const summary = variant.quantities.get(keyText(key));
  if (summary?.mean == null) return wordsFor(locale).report.none;
  return formatMean(summary.mean, summary.interval, quantityEntry(key.quantity, locale), locale).plusMinus;
}
