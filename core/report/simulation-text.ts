import type { StudyResults } from "../analysis/study-results.ts";
import { formatFixed } from "../format/number.ts";
import { statesErrors } from "../readings/states-errors.ts";
import { spannedTrials } from "../uncertainty/monte-carlo/interval.ts";
import { wordsFor } from "../words/index.ts";
import { leastTrialsToJudge, type Simulation } from "./simulation.ts";

/** What results.json says of how its intervals came about, with and without stated errors. */
export function simulationNotes(results: StudyResults, simulation: Simulation | null): string[] {
  const { study, locale, variants } = results;
  const { findings, uncertainty } = wordsFor(locale);
  if (!statesErrors(study.settings)) return variants.length > 1 ? [findings.sharedErrors] : [];
  return [...trialsNotes(simulation, study.settings.confidence, locale), uncertainty.file.combined];
}

/** The trials that are drawn for an interval of a confidence p: 10^4/(1 - p) (JCGM 101:2008, 7.2.2), up to the most that can be. */
function soundTrials(confidence: number): number {
  return Math.min(10_000_000, Math.ceil(Math.round(1e4 / (1 - confidence)) / 1000) * 1000);
}

function trialsNotes(simulation: Simulation | null, confidence: number, locale: StudyResults["locale"]): string[] {
  const { file, fewerTrials } = wordsFor(locale).uncertainty;
  if (simulation === null) return [file.notSimulated];
  const { trials, wanted, seed, isAdaptive } = simulation;
  const count = formatFixed(trials, 0, locale);
  const hasIntervals = spannedTrials(trials, confidence) < trials;
  return [
    isAdaptive ? file.adaptive(count, seed) : file.simulated(count, seed),
    ...(trials < wanted ? [fewerTrials(count, formatFixed(wanted, 0, locale))] : []),
    ...(trials < leastTrialsToJudge ? [file.tooFewToJudge(formatFixed(leastTrialsToJudge, 0, locale))] : []),
    ...(hasIntervals ? [] : [file.tooFewForInterval(formatFixed(soundTrials(confidence), 0, locale))]),
  ];
}
