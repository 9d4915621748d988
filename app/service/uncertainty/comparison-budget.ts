import {
  adviceOn,
  adviceTexts,
  type BudgetText,
  budgetText,
  type Combined,
  type Comparison,
  combinedBudget,
  compareIn,
  formatMean,
  type InstrumentRole,
  keepTogether,
  type StudyResults,
  statesErrors,
  studyErrors,
  variantMean,
  wordsFor,
} from "../../../core/index.ts";
import type { ComparisonBudgetPart, ComparisonBudgetView, ComparisonChoice } from "../../contract/index.ts";
import { chosenComparison } from "../view/compare-view.ts";

/** What the uncertainties of a comparison are made of: of the difference, and of both means. */
export function comparisonBudget(results: StudyResults, asked: ComparisonChoice): ComparisonBudgetView {
  const { locale, study } = results;
  const hasErrors = statesErrors(study.settings);
  const chosen = chosenComparison(results, asked);
  const comparison = chosen === null ? null : compareIn(results, chosen.key, chosen.variant, chosen.baseline);
  if (comparison === null || comparison.combined === null) return { hasErrors, parts: [] };
  const { baseline, variant, difference } = comparison.combined;
  const { screens, charts } = wordsFor(locale);
  const [first, second] = [comparison.groups.baseline.mean, comparison.groups.variant.mean];
  const exact = exactRolesOf(results, comparison);
  const part = (
    of: ComparisonBudgetPart["of"],
    title: string,
    value: number | null,
    combined: Combined,
  ): ComparisonBudgetPart[] => {
    if (value === null) return [];
    const text = budgetText(combinedBudget(value, combined, exact), comparison.key, comparison.confidence, locale);
    const isOfPoints = of === "difference" && text.unit === "%";
    const budget = isOfPoints ? { ...text, unit: charts.percentagePoints } : text;
    const advice = of === "difference" ? adviceTexts(comparison, locale) : adviceOn(combined, locale);
    return [{ of, title, budget: withWider(budget, of, comparison, results), advice: advice.map(keepTogether) }];
  };
  return {
    hasErrors,
    parts: [
      ...part(
        "difference",
        screens.uncertainty.difference,
        first === null || second === null ? null : second - first,
        difference,
      ),
      ...part("variant", comparison.variant, second, variant),
      ...part("baseline", comparison.baseline, first, baseline),
    ],
  };
}

/** Instruments that took readings of these runs, and of whose errors nothing is stated. */
function exactRolesOf({ runs, study }: StudyResults, { baseline, variant }: Comparison): InstrumentRole[] {
  const errors = studyErrors(study.settings);
  if (errors === null) return [];
  const compared = runs.filter(
    ({ run }) => run.leftOut === null && (run.variant === baseline || run.variant === variant),
  );
  return [...new Set(compared.flatMap(({ run }) => errors.ofRun(run).exactRoles))];
}

/** Says so where another interval stands beside a mean: none is shown that is narrower than scatter alone makes it. */
function withWider(
  budget: BudgetText,
  of: ComparisonBudgetPart["of"],
  { key, entry, baseline, variant, combined }: Comparison,
  results: StudyResults,
): BudgetText {
  if (of === "difference" || combined === null) return budget;
  const shown = variantMean(results, { variant: of === "variant" ? variant : baseline, key });
  if (shown === null || shown.interval === null || shown.summary.mean === null) return budget;
  const { half } = formatMean(shown.summary.mean, shown.interval, entry, results.locale);
  const own = formatMean(shown.summary.mean, combined[of].interval, entry, results.locale).half;
  if (half === null || own === null || half === own) return budget;
  const { uncertainty } = wordsFor(results.locale).screens;
  return { ...budget, notes: [...budget.notes, uncertainty.wider(half, own)] };
}
