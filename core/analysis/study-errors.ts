import { keyText, type QuantityKey } from "../quantity/quantity-key.ts";
import type { Settings } from "../readings/settings.ts";
import { statesErrors } from "../readings/states-errors.ts";
import type { Run } from "../readings/study.ts";
import type { Combined } from "../uncertainty/combined.ts";
import { combinedMean, type GroupWithErrors } from "../uncertainty/combined-comparison.ts";
import { type QuantityError, type RunErrors, runErrors } from "../uncertainty/run-errors.ts";
import { type RunResults, resultOf } from "./run-results.ts";
import type { Summary } from "./summary.ts";

/** First-order errors of a study's runs, worked out for those that are asked for and kept as long as the run is. */
export interface StudyErrors {
  ofRun(run: Run): RunErrors;
}

const kept = new WeakMap<Settings, StudyErrors>();

/** The errors under these settings; null where they state no error of anything. */
export function studyErrors(settings: Settings): StudyErrors | null {
  const known = kept.get(settings);
  if (known !== undefined) return known;
  if (!statesErrors(settings)) return null;
  const ofRuns = new WeakMap<Run, RunErrors>();
  const errors: StudyErrors = {
    ofRun(run) {
      const found = ofRuns.get(run) ?? runErrors(run, settings);
      ofRuns.set(run, found);
      return found;
    },
  };
  kept.set(settings, errors);
  return errors;
}

/** Scatter and errors of those runs in one quantity; null where no errors are stated, or a run has none of it. */
export function groupWithErrors(
  errors: StudyErrors | null,
  runs: readonly RunResults[],
  key: QuantityKey,
  { n, mean, standardDeviation }: Pick<Summary, "n" | "mean" | "standardDeviation">,
): GroupWithErrors | null {
  if (errors === null || mean === null) return null;
  const ofRuns: QuantityError[] = [];
  for (const results of runs) {
    if (results.run.leftOut !== null || resultOf(results, key) === undefined) continue;
    const error = errors.ofRun(results.run).of(keyText(key));
    if (error === null) return null;
    ofRuns.push(error);
  }
  return ofRuns.length === n ? { n, mean, standardDeviation, errors: ofRuns } : null;
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
