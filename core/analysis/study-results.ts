import { allQuantityKeys, keyText, type QuantityKey } from "../quantity/quantity-key.ts";
import { quantityEntry } from "../quantity/quantity-table.ts";
import type { PhaseName } from "../readings/phase.ts";
import type { Settings } from "../readings/settings.ts";
import type { Run, Study } from "../readings/study.ts";
import type { Interval } from "../statistics/reason.ts";
import type { Combined } from "../uncertainty/combined.ts";
import type { Locale } from "../words/index.ts";
import { type Comparison, compareVariants, hullOf } from "./comparison.ts";
import type { AnsweredQuestion, Question } from "./question.ts";
import { questionsOfRun } from "./questions.ts";
import { type RunFacts, runFacts } from "./run-facts.ts";
import { type RunResults, resultOf, runResults } from "./run-results.ts";
import { combinedMeanOf, studyErrors } from "./study-errors.ts";
import { type StudyQuestions, studyQuestions } from "./study-questions.ts";
import { countedValues, type Summary, summarise } from "./summary.ts";

export interface VariantResults {
  readonly variant: string;
  /** Position in the study, from 0. */
  readonly index: number;
  /** Its runs, those that were left out among them. */
  readonly all: readonly RunResults[];
  /** How many of them count. */
  readonly runs: number;
  readonly leftOut: number;
  /** By the text of the quantity's key; only what at least one counted run has. */
  readonly quantities: ReadonlyMap<string, Summary>;
}

/** Everything that a study's readings give. */
export interface StudyResults {
  readonly study: Study;
  readonly locale: Locale;
  readonly runs: readonly RunResults[];
  /** In the order of the runs. */
  readonly facts: readonly RunFacts[];
  readonly variants: readonly VariantResults[];
  /** Quantities that at least one run has, left-out runs counted too, in the order in which they are shown. */
  readonly keys: readonly QuantityKey[];
  /** By the run's id: open questions about it and its phases. */
  readonly runQuestions: ReadonlyMap<string, readonly Question[]>;
  /** Open questions about variants and the whole study. */
  readonly questions: readonly Question[];
  /** Questions that were answered, about the whole first. */
  readonly answered: readonly AnsweredQuestion[];
}

/** What follows from one run and the settings alone. */
export interface AnalysedRun {
  readonly results: RunResults;
  readonly facts: RunFacts;
}

/** Analyses one run. Pure: the same run under the same settings gives the same. */
export function analyseRun(run: Run, settings: Settings, locale: Locale): AnalysedRun {
  const results = runResults(run, settings, locale);
  return { results, facts: runFacts(run, settings, questionsOfRun(results, settings, locale), results) };
}

/**
 * Analyses a study. Pure: the same readings give the same results.
 *
 * @param readingQuestions questions that arose in reading the file; each is kept with its run, or with the study
 */
export function analyseStudy(study: Study, locale: Locale, readingQuestions: readonly Question[] = []): StudyResults {
  const { settings } = study;
  const runs = study.runs.map((run) => analyseRun(run, settings, locale));
  const facts = runs.map((one) => one.facts);
  return studyResults(study, locale, runs, studyQuestions(facts, settings, locale, readingQuestions));
}

/**
 * What follows for the whole study from its analysed runs and its questions: for whoever keeps what is known of runs that did not
 * change.
 *
 * @param analysed one for each run of the study, in their order
 */
export function studyResults(
  study: Study,
  locale: Locale,
  analysed: readonly AnalysedRun[],
  { runQuestions, questions, answered }: StudyQuestions,
): StudyResults {
  const { confidence } = study.settings;
  const runs = analysed.map(({ results }) => results);
  const keys = keysOf(runs);
  const byVariant = Map.groupBy(runs, ({ run }) => run.variant);
  const variants = [...byVariant].map(([variant, ofVariant], index): VariantResults => {
    const counted = ofVariant.filter((results) => results.run.leftOut === null);
    const quantities = new Map<string, Summary>();
    for (const key of keys) {
      const values = countedValues(counted, key);
      if (values.length > 0) quantities.set(keyText(key), summarise(values, confidence));
    }
    const leftOut = ofVariant.length - counted.length;
    return { variant, index, all: ofVariant, runs: counted.length, leftOut, quantities };
  });
  const facts = analysed.map((one) => one.facts);
  return { study, locale, runs, facts, variants, keys, runQuestions, questions, answered };
}

/** The keys that any of the runs has a value of, in the order in which they are shown. */
function keysOf(runs: readonly RunResults[]): QuantityKey[] {
  const ofRuns = new Set<string>();
  const ofPhases = new Map<PhaseName, Set<string>>();
  for (const { values, phases } of runs) {
    for (const name of values.keys()) ofRuns.add(name);
    for (const { phase, values: ofPhase } of phases) {
      const known = ofPhases.get(phase) ?? new Set();
      for (const name of ofPhase.keys()) known.add(name);
      ofPhases.set(phase, known);
    }
  }
  return allQuantityKeys.filter(({ phase, quantity }) =>
    phase === null ? ofRuns.has(quantity) : ofPhases.get(phase)?.has(quantity) === true,
  );
}

/** A variant's mean of a quantity, and what makes it uncertain. */
export interface VariantMean {
  readonly summary: Summary;
  /** Scatter and shared errors together; null where the settings state no errors. */
  readonly combined: Combined | null;
  /** What stands beside the mean: the combined interval, never narrower than the one from scatter alone. */
  readonly interval: Interval | null;
}

/** The mean of one variant in one quantity; null where no counted run has it. */
export function variantMean(
  { study, variants }: StudyResults,
  { variant, key }: { readonly variant: string; readonly key: QuantityKey },
): VariantMean | null {
  const found = variants.find((one) => one.variant === variant);
  const summary = found?.quantities.get(keyText(key));
  if (found === undefined || summary === undefined) return null;
  const combined = combinedMeanOf(study.settings, found.all, key, summary);
  return { summary, combined, interval: meanInterval(summary, combined) };
}

/** What stands beside a mean: the combined interval, never narrower than the one from scatter alone. */
export function meanInterval({ interval }: Summary, combined: Combined | null): Interval | null {
  if (combined === null) return interval;
  // Several runs without any scatter tell nothing of how they would scatter.
  if (interval === null) return combined.noReplicates ? combined.interval : null;
  return hullOf(interval, combined.interval);
}

/** One variant against a baseline in one quantity of an analysed study; null where either has no value. */
export function compareIn(
  results: StudyResults,
  key: QuantityKey,
  variant: string,
  baseline: string,
): Comparison | null {
  const { confidence } = results.study.settings;
  const runs = results.variants.flatMap((one) => (one.variant === variant || one.variant === baseline ? one.all : []));
  const errors = studyErrors(results.study.settings);
  return compareVariants(runs, { key, baseline, variant, confidence, locale: results.locale, errors });
}

/** Every other variant against a baseline in one quantity, in the study's order: those that can be compared. */
export function comparisonsIn(results: StudyResults, key: QuantityKey, baseline: string): Comparison[] {
  return results.variants.flatMap(({ variant }) =>
    variant === baseline ? [] : (compareIn(results, key, variant, baseline) ?? []),
  );
}

/** A variant's runs that have a quantity, those that were left out among them: name and value, in the unit it is computed in. */
export function runValues(
  results: StudyResults,
  variant: string,
  key: QuantityKey,
): { readonly name: string; readonly value: number; readonly leftOut: boolean }[] {
  const ofVariant = results.variants.find((one) => one.variant === variant)?.all ?? [];
  return ofVariant.flatMap((one) => {
    const value = resultOf(one, key);
    return value === undefined ? [] : [{ name: one.run.name, value, leftOut: one.run.leftOut !== null }];
  });
}

/** What a study is looked at first for: wood for the task where there is one, then efficiency, then whatever there is. */
const firstChoices = [
  "taskFuel5L",
  "meanIsoEfficiencyWithoutChar",
  "highPowerThermalEfficiency",
  "cold-start.specificFuelConsumptionCorrected",
  "hot-start.specificFuelConsumptionCorrected",
  "simmer.specificFuelConsumption",
  "high-power.isoEfficiencyWithoutChar",
];

/** The quantity that leads the report: the first choice that most variants have. Null where nothing was computed. */
export function headlineKey(results: StudyResults): QuantityKey | null {
  const present = new Map(results.keys.map((key) => [keyText(key), key]));
  const rank = (text: string) => {
    const place = firstChoices.indexOf(text);
    return place === -1 ? firstChoices.length : place;
  };
  const having = (text: string) => results.variants.filter(({ quantities }) => quantities.has(text)).length;
  const ordered = [...present].sort(([one], [other]) => having(other) - having(one) || rank(one) - rank(other));
  return ordered[0]?.[1] ?? null;
}

/** True where a quantity is the other method's formula for all runs that have it: shown, never ranked. */
export function isFormulaOnly(results: StudyResults, key: QuantityKey): boolean {
  const { method } = quantityEntry(key.quantity, results.locale);
  if (method === "both") return false;
  return !results.runs.some((one) => one.run.method === method && resultOf(one, key) !== undefined);
}
