import { changeTexts } from "../analysis/change.ts";
import { compareIn, type StudyResults } from "../analysis/study-results.ts";
import type { QuantityKey } from "../quantity/quantity-key.ts";
import { wordsFor } from "../words/index.ts";

/** A variant's change from the baseline for a cell: "21 % less", "cannot tell: between …", or a dash. */
export function changeTextOf(results: StudyResults, key: QuantityKey, variant: string, baseline: string): string {
  const { report: words, findings } = wordsFor(results.locale);
  if (variant === baseline) return words.none;
  const comparison = compareIn(results, key, variant, baseline);
  if (comparison === null) return words.none;
  const { directed, range } = changeTexts(comparison.change, comparison.entry, results.locale);
  if (range === null) return directed;
  return comparison.change.sure ? `${directed} (${range})` : findings.cannotTellVerdict(range);
}
