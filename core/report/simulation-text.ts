import type { StudyResults } from "../analysis/study-results.ts";
import { formatFixed } from "../format/number.ts";
import { statesErrors } from "../readings/states-errors.ts";
import { wordsFor } from "../words/index.ts";
import { leastTrialsToJudge, type Simulation } from "./simulation.ts";

/** What results.json says of how its intervals came about, with and without stated errors. */
export function simulationNotes(results: StudyResults, simulation: Simulation | null): string[] {
  const { study, locale, variants } = results;
  const { findings, uncertainty } = wordsFor(locale);
  if (!statesErrors(study.settings)) return variants.length > 1 ? [findings.sharedErrors] : [];
  return [...trialsNotes(simulation, locale), uncertainty.file.combined];
}

function trialsNotes(simulation: Simulation | null, locale: StudyResults["locale"]): string[] {
  const { file, fewerTrials } = wordsFor(locale).uncertainty;
  if (simulation === null) return [file.notSimulated];
  const { trials, wanted, seed, isAdaptive } = simulation;
  const count = formatFixed(trials, 0, locale);
  return [
    isAdaptive ? file.adaptive(count, seed) : file.simulated(count, seed),
    ...(trials < wanted ? [fewerTrials(count, formatFixed(wanted, 0, locale))] : []),
    ...(trials < leastTrialsToJudge ? [file.tooFewToJudge(formatFixed(leastTrialsToJudge, 0, locale))] : []),
  ];
}
