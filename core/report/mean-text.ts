import { type StudyResults, type VariantResults, variantMean } from "../analysis/study-results.ts";
import { formatMean } from "../format/quantity.ts";
import type { QuantityKey } from "../quantity/quantity-key.ts";
import { quantityEntry } from "../quantity/quantity-table.ts";
import { wordsFor } from "../words/index.ts";

/** A variant's mean of a quantity for a cell: "752 ± 17", the mean alone without an interval, or a dash where no run has it. */
export function meanTextOf(results: StudyResults, { variant }: VariantResults, key: QuantityKey): string {
  const { locale } = results;
  const mean = variantMean(results, { variant, key });
  if (mean?.summary.mean == null) return wordsFor(locale).report.none;
  // Of a single run whose readings count as exact nothing is uncertain.
  const interval = mean.interval !== null && mean.interval.upper > mean.interval.lower ? mean.interval : null;
  return formatMean(mean.summary.mean, interval, quantityEntry(key.quantity, locale), locale).plusMinus;
}
