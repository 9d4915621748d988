import { keyText, type QuantityKey } from "../quantity/quantity-key.ts";
import type { Settings } from "../readings/settings.ts";
import { statesErrors } from "../readings/states-errors.ts";
import type { Run } from "../readings/study.ts";
import type { Combined } from "../uncertainty/combined.ts";
import { combinedMean, type GroupWithErrors } from "../uncertainty/combined-comparison.ts";
import { type QuantityError, type RunErrors, runErrors, weightedShared } from "../uncertainty/run-errors.ts";
import { type RunResults, resultOf } from "./run-results.ts";
import type { Summary } from "./summary.ts";

/** First-order errors of a study's runs, worked out for those that are asked for and kept as long as the run is. */
export interface StudyErrors {
  ofRun(run: Run): RunErrors;
  /** The errors of a mean over these runs, kept as long as the first of them; null where a run has none of it. */
  ofMean(runs: readonly Run[], key: string): QuantityError | null;
}

const kept = new WeakMap<Settings, StudyErrors>();

/** The errors under these settings; null where they state no error of anything. */
export function studyErrors(settings: Settings): StudyErrors | null {
  const known = kept.get(settings);
  if (known !== undefined) return known;
  if (!statesErrors(settings)) return null;
  const ofRuns = new WeakMap<Run, RunErrors>();
  const ofMeans = new WeakMap<
    Run,
    Map<string, { readonly runs: readonly Run[]; readonly error: QuantityError | null }>
  >();
  const errors: StudyErrors = {
    ofRun(run) {
      const found = ofRuns.get(run) ?? runErrors(run, settings);
      ofRuns.set(run, found);
      return found;
    },
    ofMean(runs, key) {
      const [first] = runs;
      if (first === undefined) return null;
      const byKey = ofMeans.get(first) ?? new Map();
      ofMeans.set(first, byKey);
      const knownMean = byKey.get(key);
      if (knownMean !== undefined && isSame(knownMean.runs, runs)) return knownMean.error;
      const error = meanError(runs.map((run) => errors.ofRun(run).of(key)));
      byKey.set(key, { runs, error });
      return error;
    },
  };
  kept.set(settings, errors);
  return errors;
}

function isSame(some: readonly Run[], others: readonly Run[]): boolean {
  return some.length === others.length && some.every((run, index) => run === others[index]);
}

/** Of several runs: what they share, and their independent errors as they are on average. */
function meanError(errors: readonly (QuantityError | null)[]): QuantityError | null {
  const [first] = errors;
  if (first === undefined || first === null || errors.length === 1) return first ?? null;
  const known = errors.filter((error) => error !== null);
  if (known.length < errors.length) return null;
  const variance = known.reduce((sum, { independent }) => sum + independent.variance, 0) / known.length;
  return {
    ...first,
    independent: { ...first.independent, variance },
    shared: weightedShared(known.map(({ shared }) => ({ weight: 1 / known.length, shared }))),
  };
}

/** Scatter and errors of those runs in one quantity; null where no errors are stated, or a run has none of it. */
export function groupWithErrors(
  errors: StudyErrors | null,
  runs: readonly RunResults[],
  key: QuantityKey,
  { n, mean, standardDeviation }: Pick<Summary, "n" | "mean" | "standardDeviation">,
): GroupWithErrors | null {
  if (errors === null || mean === null) return null;
  const counted = runs.filter((results) => results.run.leftOut === null && resultOf(results, key) !== undefined);
  if (counted.length !== n) return null;
  const error = errors.ofMean(
    counted.map(({ run }) => run),
    keyText(key),
  );
  return error === null ? null : { n, mean, standardDeviation, errors: [error] };
}

/** A variant's mean of a quantity with scatter and shared errors together; null where no errors are stated. */
export function combinedMeanOf(
  settings: Settings,
  runs: readonly RunResults[],
  key: QuantityKey,
  summary: Summary,
): Combined | null {
  const group = groupWithErrors(studyErrors(settings), runs, key, summary);
  return group === null ? null : combinedMean(group, settings.confidence);
}
