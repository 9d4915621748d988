import type { Comparison } from "../analysis/comparison.ts";
import { findingOf } from "../analysis/finding.ts";
import type { AnsweredQuestion, Question } from "../analysis/question.ts";
import type { MissingQuantity, RunResults } from "../analysis/run-results.ts";
import { studyErrors } from "../analysis/study-errors.ts";
import {
  compareIn,
  isFormulaOnly,
  type StudyResults,
  type VariantMean,
  variantMean,
} from "../analysis/study-results.ts";
import { type BesideWelch, besideWelch } from "../comparison/study-comparison.ts";
import { keyLabel, keyText, parseKey, type QuantityKey } from "../quantity/quantity-key.ts";
import type { QuantityName } from "../quantity/quantity-name.ts";
import { unitOf } from "../quantity/quantity-table.ts";
import { rateStudy } from "../rating/study-ratings.ts";
import type { PhaseName } from "../readings/phase.ts";
import { wordsFor } from "../words/index.ts";
import { adviceTexts } from "./combined-text.ts";
import type { StudyProvenance } from "./report-request.ts";
import { uncertaintyEntry, uncertaintyNotes, uncertaintyOf } from "./run-entries.ts";
import type { Simulation } from "./simulation.ts";
import { simulationNotes } from "./simulation-text.ts";

/** Version of the layout of results.json. */
export const resultsSchema = "boilbench-results/1";

/** A list of pairs as an object; a name that objects treat specially becomes an ordinary own property. */
function asObject<V>(pairs: Iterable<readonly [string, V]>): Record<string, V> {
  return Object.fromEntries(pairs);
}

/**
 * The content of results.json: every run's results, variants, comparisons with the baseline, ratings, questions and what was
 * left out. Plain data; numbers are whole doubles, never NaN or Infinity.
 *
 * @param simulation Monte Carlo of the runs; null where there was none
 */
export function resultsFile(
  results: StudyResults,
  provenance: StudyProvenance,
  baseline: string,
  simulation: Simulation | null = null,
) {
  const { study, locale } = results;
  const { ratings, notes } = rateStudy(results);
  const { quantities } = wordsFor(locale);
  const formulaOnly = results.keys.filter((key) => isFormulaOnly(results, key)).map((key) => keyText(key));
  const beside = new Map<QuantityKey, ReturnType<typeof besideWelch>>();
  const besideOf = (key: QuantityKey) => {
    const known = beside.get(key) ?? besideWelch(results, key, baseline);
    beside.set(key, known);
    return known;
  };
  return {
    schema: resultsSchema,
    program: provenance.program,
    inputs: provenance.inputs,
    method: study.settings.method,
    confidence: study.settings.confidence,
    baseline,
    runs: results.runs.map((one) => runEntry(one, results, simulation)),
    variants: results.variants.map(({ variant, runs, leftOut, quantities: summaries }) => ({
      variant,
      runs,
      leftOut,
      quantities: asObject(
        [...summaries.keys()].flatMap((text) => {
          const key = parseKey(text);
          const mean = key === null ? null : variantMean(results, { variant, key });
          return key === null || mean === null ? [] : [[text, meanEntry(key, mean, results)] as const];
        }),
      ),
    })),
    comparisons: results.variants
      .filter(({ variant }) => variant !== baseline)
      .flatMap(({ variant }) =>
        results.keys.flatMap((key) => {
          const comparison = compareIn(results, key, variant, baseline);
          return comparison === null ? [] : [comparisonEntry(comparison, results, besideOf(key).get(variant) ?? {})];
        }),
      ),
    ratings: ratings.map(({ variant, scheme, key, tier, tierAtUnfavourableLimit, probabilities }) => ({
      variant,
      framework: scheme.name,
      quantity: key,
      tier,
      tierAtUnfavourableLimit,
      probabilities,
    })),
    leftOutRows: provenance.leftOutRows,
    questions: results.questions.map((question) => ({
      variant: question.variant,
      column: question.column,
      message: question.message,
    })),
    ...answeredEntries(
      results.answered.filter(({ run }) => run === null),
      ({ variant, column, message }) => ({ variant, column, message }),
    ),
    notes: [
      ...provenance.readingNotes,
      ...simulationNotes(results, simulation),
      ...(formulaOnly.length === 0 ? [] : [quantities.formulaOnlyNote(formulaOnly.join(", "))]),
      ...notes,
    ],
  };
}

function runEntry(one: RunResults, results: StudyResults, simulation: Simulation | null) {
  const { confidence } = results.study.settings;
  const errors = studyErrors(results.study.settings);
  const known: Parameters<typeof uncertaintyNotes>[0][number][] = [];
  const values = (given: ReadonlyMap<QuantityName, number>, phase: PhaseName | null) =>
    asObject(
      [...given].map(([quantity, value]) => {
        const key = { phase, quantity } as QuantityKey;
        const uncertainty = uncertaintyOf(one, key, confidence, errors, simulation);
        if (uncertainty === null) return [quantity, { value, unit: unitOf(quantity) }] as const;
        known.push({ key, uncertainty });
        return [quantity, { value, unit: unitOf(quantity), ...uncertaintyEntry(uncertainty, confidence) }] as const;
      }),
    );
  const missing = (some: readonly MissingQuantity[], phase: PhaseName | null) =>
    some.map(({ quantity, reason, reasonPhase }) => ({
      quantity: phase === null ? quantity : `${phase}.${quantity}`,
      because: wordsFor(results.locale).missing.because(reason, reasonPhase),
    }));
  const questions = results.runQuestions.get(one.run.id) ?? [];
  const phases = one.phases.map(({ phase, values: ofPhase }) => ({ phase, values: values(ofPhase, phase) }));
  const ofRun = values(one.values, null);
  const exactRoles = errors?.ofRun(one.run).exactRoles ?? [];
  return {
    run: one.run.name,
    variant: one.run.variant,
    method: one.run.method,
    leftOut: one.run.leftOut,
    phases,
    values: ofRun,
    missing: [...missing(one.missing, null), ...one.phases.flatMap((phase) => missing(phase.missing, phase.phase))],
    questions: questions.map(({ phase, column, message }: Question) => ({ phase, column, message })),
    ...answeredEntries(
      results.answered.filter(({ run }) => run === one.run.name),
      ({ phase, column, message }) => ({ phase, column, message }),
    ),
    notes: [...one.notes, ...uncertaintyNotes(known, exactRoles, results.locale)],
  };
}

/** `answeredQuestions`, beside `questions`, which are the open ones; only where there are any. */
function answeredEntries<T extends object>(
  answered: readonly AnsweredQuestion[],
  entryOf: (question: AnsweredQuestion) => T,
): { readonly answeredQuestions?: readonly (T & AnsweredQuestion["answer"])[] } {
  if (answered.length === 0) return {};
  return { answeredQuestions: answered.map((question) => ({ ...entryOf(question), ...question.answer })) };
}

function meanEntry(key: QuantityKey, { summary, combined }: VariantMean, { locale }: StudyResults) {
  const { uncertainty: words } = wordsFor(locale);
  return {
    unit: unitOf(key.quantity),
    n: summary.n,
    mean: summary.mean,
    standardDeviation: summary.standardDeviation,
    coefficientOfVariation: summary.coefficientOfVariation,
    interval: summary.interval,
    ...(combined !== null && {
      sharedUncertainty: combined.sharedUncertainty,
      combinedInterval: combined.interval,
      combinedUncertainty: combined.standardUncertainty,
      combinedDegreesOfFreedom: finite(combined.degreesOfFreedom),
      ...(combined.noReplicates && { notes: [words.noReplicates] }),
    }),
  };
}

function finite(value: number): number | null {
  return Number.isFinite(value) ? value : null;
}

/** Scatter and shared errors together, where the settings state errors. */
function combinedEntries({ combined, welch }: Comparison) {
  if (combined === null) return {};
  const { difference, ratio, baseline, variant } = combined;
  const bounded = ratio.set === "bounded" || ratio.set === "half-line";
  return {
    combinedDifference: {
      value: welch.difference,
      lower: difference.interval.lower,
      upper: difference.interval.upper,
      standardUncertainty: difference.standardUncertainty,
      degreesOfFreedom: finite(difference.degreesOfFreedom),
      scatterUncertainty: difference.scatterUncertainty,
      independentUncertainty: difference.independentUncertainty,
      sharedUncertainty: difference.sharedUncertainty,
      /** As if nothing cancelled. */
      sharedUncertaintyIfSeparate: Math.hypot(baseline.sharedUncertainty, variant.sharedUncertainty),
    },
    combinedRatio: {
      value: ratio.ratio,
      lower: bounded ? ratio.lower : null,
      upper: bounded ? ratio.upper : null,
      standardUncertainty: ratio.standardUncertainty,
      degreesOfFreedom: ratio.degreesOfFreedom === null ? null : finite(ratio.degreesOfFreedom),
      sharedUncertainty: ratio.sharedUncertainty,
    },
  };
}

function comparisonEntry(comparison: Comparison, results: StudyResults, beside: BesideWelch) {
  const { locale } = results;
  const { welch, ratio, logRatio, key } = comparison;
  const finding = findingOf(comparison, locale);
  const bounded = ratio.set === "bounded" || ratio.set === "half-line";
  const { findings, quantities } = wordsFor(locale);
  const unboundedNotes =
    ratio.ratio !== null && welch.interval !== null && ratio.set !== "bounded"
      ? [findings.ratioIntervalUnbounded(keyLabel(key, locale))]
      : [];
  return {
    quantity: keyText(key),
    baseline: comparison.baseline,
    variant: comparison.variant,
    difference: {
      value: welch.difference,
      lower: welch.interval?.lower ?? null,
      upper: welch.interval?.upper ?? null,
    },
    ratio: {
      value: ratio.ratio,
      lower: bounded ? ratio.lower : null,
      upper: bounded ? ratio.upper : null,
    },
    logRatio: {
      value: logRatio.ratio,
      lower: logRatio.interval?.lower ?? null,
      upper: logRatio.interval?.upper ?? null,
    },
    ...combinedEntries(comparison),
    welch: { t: welch.t, degreesOfFreedom: welch.degreesOfFreedom, p: welch.p },
    ...beside,
    sentence: finding.sentence,
    warnings: [...finding.warnings, ...(isFormulaOnly(results, key) ? [quantities.formulaOnly] : [])],
    notes: [...unboundedNotes, ...adviceTexts(comparison, locale)],
  };
}
