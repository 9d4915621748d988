import { changeTexts } from "../analysis/change.ts";
import { compareIn, comparisonsIn, type StudyResults } from "../analysis/study-results.ts";
import type { QuantityKey } from "../quantity/quantity-key.ts";
import { wordsFor } from "../words/index.ts";

/** The unit that all changes of a quantity share, for the head of their column; null for per cent, or where they differ. */
export function changeUnitOf(results: StudyResults, key: QuantityKey, baseline: string): string | null {
  const { charts } = wordsFor(results.locale);
  const changes = comparisonsIn(results, key, baseline);
  const [first] = changes;
  if (first === undefined || changes.some(({ change }) => change.unit !== first.change.unit)) return null;
  if (first.change.unit === "percent") return null;
  return (first.change.unit === "percentagePoints" ? charts.percentagePoints : first.entry.shownUnit) || null;
}

/**
 * A variant's change from the baseline for a cell: "21 % less", "cannot tell: between …", or a dash.
 * `isUnitSaid`: the head of the column tells the unit.
 */
export function changeTextOf(
  results: StudyResults,
  key: QuantityKey,
  variant: string,
  baseline: string,
  isUnitSaid = false,
): string {
  const { report: words, findings } = wordsFor(results.locale);
  if (variant === baseline) return words.none;
  const comparison = compareIn(results, key, variant, baseline);
  if (comparison === null) return words.none;
  const { change, entry } = comparison;
  const { directed, range } = isUnitSaid
    ? changeTexts({ ...change, unit: "own" }, { ...entry, shownUnit: "" }, results.locale)
    : changeTexts(change, entry, results.locale);
  if (range === null) return directed;
  return change.sure ? `${directed} (${range})` : findings.cannotTellVerdict(range);
}
