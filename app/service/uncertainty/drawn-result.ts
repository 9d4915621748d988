import {
  decimalsFor,
  existingMoments,
  expandedUncertainty,
  formatFixed,
  formatSignificant,
  judgementOf,
  keepTogether,
  keyLabel,
  type Locale,
  levelText,
  outsideWorthSaying,
  quantityEntry,
  runBudget,
  runErrors,
  type Settings,
  wordsFor,
} from "../../../core/index.ts";
import type { MonteCarloResult } from "../../contract/index.ts";
import { refuse } from "../refused.ts";
import type { FoundResult } from "./result-of-run.ts";
import type { RunTrials } from "./worker-messages.ts";

/** What the trials of a run say of one of its results, beside first order. Refused where the run has no such result. */
export function drawnResult(
  { run, key, keyText }: FoundResult,
  settings: Settings,
  trials: RunTrials,
  locale: Locale,
): MonteCarloResult {
  const { uncertainty, screens } = wordsFor(locale);
  const words = screens.uncertainty;
  const output = trials.outputs.get(keyText);
  const first = firstOrderOf(run, settings, keyText);
  if (output === undefined || first === null) refuse(words.noResult(run.name));
  const entry = quantityEntry(key.quantity, locale);
  const { shownFactor } = entry;
  const level = levelText(settings.confidence, locale);
  const half = expandedUncertainty(first.error, settings.confidence);
  const interval = { lower: first.value - half, upper: first.value + half };
  // All figures are cut where the half-width of the interval has two digits.
  const ofTrials = output.symmetricInterval;
  const width = half > 0 ? half : ofTrials === null ? 0 : (ofTrials.upper - ofTrials.lower) / 2;
  const decimals = decimalsFor(width * shownFactor, 2);
  const number = (value: number | null) =>
    value === null ? words.none : formatFixed(value * shownFactor, decimals, locale);
  const spread = (value: number | null) =>
    value === null ? words.none : formatSignificant(value * shownFactor, 2, locale);
  const range = (of: { readonly lower: number; readonly upper: number } | null) =>
    of === null || !Number.isFinite(of.lower) || !Number.isFinite(of.upper)
      ? words.none
      : words.range(number(of.lower), number(of.upper));
  const isStable = trials.stable?.has(keyText) === true;
  const { mean, standardUncertainty } = existingMoments(first.error, output);
  const judgement = judgementOf(first.value, first.error, interval, output, isStable);
  const label = keyLabel(key, locale);
  const percent = (share: number) => formatSignificant(share * 100, 2, locale);
  const verdict = [
    ...(judgement.notFinite > 0 ? [uncertainty.notFinite(label, percent(judgement.notFinite))] : []),
    ...(judgement.outside > outsideWorthSaying ? [uncertainty.leavesRange(label, percent(judgement.outside))] : []),
    ...(judgement.validates === true ? [uncertainty.validated(label)] : []),
    ...(judgement.because === "nonLinear" && judgement.notFinite === 0 ? [uncertainty.notValidated(label)] : []),
    ...(judgement.because === "notNormal" ? [words.notNormal(label)] : []),
    ...(judgement.validates === null ? [words.leftOpen] : []),
    ...(Number.isFinite(first.error.degreesOfFreedom) && judgement.notFinite === 0 ? [words.scaledT] : []),
    ...(first.error.fewestDegreesOfFreedom <= 2 ? [words.noSpread(first.error.fewestDegreesOfFreedom > 1)] : []),
  ];
  const isPlain = judgement.outside <= outsideWorthSaying && judgement.notFinite === 0;
  return {
    trials: uncertainty.trials(formatFixed(output.trials, 0, locale), trials.seed),
    unit: entry.shownUnit,
    rows: [
      { name: words.mean, monteCarlo: number(mean), firstOrder: number(first.value) },
      {
        name: words.standardUncertainty,
        monteCarlo: spread(standardUncertainty),
        firstOrder: spread(first.error.standardUncertainty),
      },
      { name: words.symmetric(level), monteCarlo: range(ofTrials), firstOrder: range(interval) },
      { name: words.shortest(level), monteCarlo: range(output.shortestInterval), firstOrder: "" },
    ],
    verdict: verdict.map(keepTogether),
    tone: judgement.validates === null ? "open" : judgement.validates && isPlain ? "agrees" : "differs",
  };
}

function firstOrderOf(run: FoundResult["run"], settings: Settings, keyText: string) {
  const error = runErrors(run, settings).of(keyText);
  const value = runBudget(run, settings, keyText)?.value;
  return error === null || value === undefined ? null : { value, error };
}
