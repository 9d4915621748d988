/** The only entry to the core for everything outside it. */
export { withAnswers } from "./analysis/answered.ts";
export { BesideOthers } from "./analysis/beside-others.ts";
export type { Comparison } from "./analysis/comparison.ts";
export { type Finding, findingOf, intervalsHold, levelText, whatMakesItSurer } from "./analysis/finding.ts";
export type { Answer, AnsweredQuestion, Question } from "./analysis/question.ts";
export { type RunFacts, runFacts } from "./analysis/run-facts.ts";
export { type MissingQuantity, type RunResults, runResults } from "./analysis/run-results.ts";
export { type StudyErrors, studyErrors } from "./analysis/study-errors.ts";
export {
  calorificQuestions,
  type StudyQuestions,
  studyQuestions,
  studyQuestionsInSteps,
} from "./analysis/study-questions.ts";
export {
  type AnalysedRun,
  analyseRun,
  analyseStudy,
  compareIn,
  headlineKey,
  isFormulaOnly,
  meanInterval,
  runValues,
  type StudyResults,
  studyResults,
  type VariantMean,
  type VariantResults,
  variantMean,
} from "./analysis/study-results.ts";
export { type SoFarPhase, type SoFarResult, soFar } from "./bench/so-far.ts";
export { UsualReadings, usualRange } from "./bench/usual-readings.ts";
export { compareTable } from "./comparison/compare-table.ts";
export type { ComparedRow, ComparedTable } from "./comparison/compared-table.ts";
export type * from "./comparison/comparison-entry.ts";
export { type Plan, type PlanNumbers, type PlanRequest, planRuns } from "./comparison/plan.ts";
export type { ComparisonSettings } from "./comparison/table-analysis.ts";
export type { CsvCell } from "./format/csv.ts";
export { csvText, neutralText } from "./format/csv.ts";
export { keepTogether } from "./format/keep-together.ts";
export { decimalsFor, formatFixed, formatSignificant } from "./format/number.ts";
export { formatMean, formatValue } from "./format/quantity.ts";
export { type CatalogueFuel, type CatalogueFuelName, fuelCatalogue } from "./fuel/fuel-catalogue.ts";
export { type DriedSpecimen, dryMoistureFromOven, wetMoistureFromOven } from "./fuel/specimens.ts";
export { plainNumbers } from "./numeric/arithmetic.ts";
export { atOnce, type InSteps } from "./numeric/in-steps.ts";
export { seededGenerator } from "./numeric/seeded-generator.ts";
export { fieldFeeds } from "./procedure/field-feeds.ts";
export { type FieldHelp, fieldHelp, fieldName, stepWords } from "./procedure/field-help.ts";
export { type FieldKind, fieldKind } from "./procedure/field-kind.ts";
export type * from "./procedure/procedure-field.ts";
export { fieldKey } from "./procedure/procedure-field.ts";
export type * from "./procedure/procedure-step.ts";
export { furtherFuelFields, procedureSteps } from "./procedure/procedure-steps.ts";
export { physicalRange } from "./quantity/physical-range.ts";
export { keyLabel, keyText, parseKey, type QuantityKey } from "./quantity/quantity-key.ts";
export type { QuantityName } from "./quantity/quantity-name.ts";
export { phaseQuantityNames, runQuantityNames } from "./quantity/quantity-name.ts";
export { type QuantityEntry, quantityEntry, quantityTable } from "./quantity/quantity-table.ts";
export { combinedUncertainty, componentUncertainty } from "./readings/component-uncertainty.ts";
export type * from "./readings/phase.ts";
export { isoPhases, methodOfPhase, phaseNames } from "./readings/phase.ts";
export type { Problem } from "./readings/problem.ts";
export type { InstrumentRole, Reading } from "./readings/reading.ts";
export { localBoilingPoint } from "./readings/rules/local-boiling-point.ts";
export { massUnitDoubt } from "./readings/rules/mass-unit.ts";
export type * from "./readings/rules/phase-rule.ts";
export { phaseFaults } from "./readings/rules/phase-rules.ts";
export type * from "./readings/rules/reading-domain.ts";
export { readingDomainFault } from "./readings/rules/reading-domain.ts";
export { readingText } from "./readings/rules/reading-text.ts";
export type * from "./readings/settings.ts";
export { defaultCharNetCalorific, defaultSettings } from "./readings/settings.ts";
export type * from "./readings/starting-values.ts";
export { assumedCharComponents, startingValues } from "./readings/starting-values.ts";
export { statesErrors } from "./readings/states-errors.ts";
export type { Run, Study } from "./readings/study.ts";
export { variantNames } from "./readings/study.ts";
export { markedLabel } from "./report/annex.ts";
export { type BudgetRowText, type BudgetText, budgetText, formatExpanded, shareText } from "./report/budget-text.ts";
export { buildReport, firstChoice } from "./report/build-report.ts";
export { changeTextOf } from "./report/change-text.ts";
export type * from "./report/chart-specification.ts";
export { adviceOn, adviceTexts, cancelled } from "./report/combined-text.ts";
export { changeStrip, comparisonChart, stripExtent } from "./report/comparison-chart.ts";
export { meanTextOf } from "./report/mean-text.ts";
export type * from "./report/report-document.ts";
export type * from "./report/report-request.ts";
export { resultsFile } from "./report/results-file.ts";
export { runsTable } from "./report/runs-table.ts";
export { componentsText, componentTexts, fuelTexts, settingTexts } from "./report/settings-text.ts";
export { fieldsInRow, sheetDocument } from "./report/sheet-build.ts";
export type * from "./report/sheet-document.ts";
export type * from "./report/sheet-request.ts";
export { nothingKnown } from "./report/sheet-request.ts";
export {
  existingMoments,
  judgementOf,
  outsideWorthSaying,
  type SimulatedRun,
  type Simulation,
} from "./report/simulation.ts";
export { type Budget, combinedBudget, runBudget } from "./uncertainty/budget.ts";
export type { Combined } from "./uncertainty/combined.ts";
export { expandedUncertainty } from "./uncertainty/expanded.ts";
export { blockSize } from "./uncertainty/monte-carlo/block-size.ts";
export type { ValueInterval } from "./uncertainty/monte-carlo/interval.ts";
export {
  type AdaptiveResults,
  adaptiveMonteCarlo,
  allOf,
  type MonteCarloResults,
  monteCarlo,
} from "./uncertainty/monte-carlo/monte-carlo.ts";
export type { SignificantDigits } from "./uncertainty/monte-carlo/numerical-tolerance.ts";
export { numericalTolerance } from "./uncertainty/monte-carlo/numerical-tolerance.ts";
export { ofOutputs, outputGroups } from "./uncertainty/monte-carlo/output-groups.ts";
export type { PhysicalRange, TalliedOutput } from "./uncertainty/monte-carlo/output-tally.ts";
export {
  runTrials,
  type TrialsPart,
  type TrialsRequest,
  type TrialsStretch,
  usualMargin,
} from "./uncertainty/monte-carlo/run-trials.ts";
export {
  type OutputPart,
  type OutputTrials,
  partsOf,
  spreadOutputs,
  summariseOutput,
} from "./uncertainty/monte-carlo/summarise.ts";
export { outputPlaces } from "./uncertainty/monte-carlo/used-steps.ts";
export { type Validation, validateFirstOrder } from "./uncertainty/monte-carlo/validation.ts";
export { type RunErrors, runErrors } from "./uncertainty/run-errors.ts";
export { type RunModel, runModel } from "./uncertainty/run-model.ts";
export { type WaterProperties, waterAtAltitude, waterAtPressure } from "./water/water-properties.ts";
export { visibleText } from "./words/english/readings-quoted.ts";
export type { Locale, Words } from "./words/index.ts";
export { defaultLocale, wordsFor } from "./words/index.ts";
export { shorten } from "./words/shorten.ts";
