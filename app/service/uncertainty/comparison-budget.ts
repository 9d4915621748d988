import {
  adviceOn,
  budgetText,
  type Combined,
  type Comparison,
  cancelled,
  combinedBudget,
  compareIn,
  expandedUncertainty,
  formatSignificant,
  type InstrumentRole,
  type Locale,
  quantityEntry,
  type StudyResults,
  statesErrors,
  studyErrors,
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
  if (comparison === null || comparison.combined === null) return { hasErrors, parts: [], cancels: null };
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
    return [{ of, title, budget, advice: adviceOn(combined, locale) }];
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
    cancels: cancelsText(comparison, locale),
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

/** From this ratio on shared errors do not cancel worth speaking of. */
const hardlyLess = 0.98;

/** How far the errors that both share cancel; null where they do not. */
export function cancelsText(comparison: Comparison, locale: Locale): string | null {
  const of = cancelled(comparison);
  const difference = comparison.combined?.difference;
  if (of === null || difference === undefined || !(of.together < hardlyLess * of.apart)) return null;
  const { findings, uncertainty } = wordsFor(locale);
  const { shownFactor, shownUnit } = quantityEntry(comparison.key.quantity, locale);
  const text = (standardUncertainty: number) => {
    const { degreesOfFreedom } = difference;
    const half = expandedUncertainty({ standardUncertainty, degreesOfFreedom }, comparison.confidence);
    const amount = formatSignificant(half * shownFactor, 2, locale);
    if (shownUnit === "%") return findings.percentagePoints(amount);
    return shownUnit === "" ? amount : findings.inUnit(amount, shownUnit);
  };
  return uncertainty.cancels(text(of.apart), text(of.together));
}
