import { levelText } from "../analysis/finding.ts";
import { type RunResults, resultOf } from "../analysis/run-results.ts";
import { studyErrors } from "../analysis/study-errors.ts";
import type { StudyResults } from "../analysis/study-results.ts";
import { formatMean, formatValue, labelWithUnit } from "../format/quantity.ts";
import { keyLabel, type QuantityKey } from "../quantity/quantity-key.ts";
import { quantityEntry } from "../quantity/quantity-table.ts";
import type { Run } from "../readings/study.ts";
import { expandedUncertainty } from "../uncertainty/expanded.ts";
import { type Locale, wordsFor } from "../words/index.ts";
import { shorten } from "../words/shorten.ts";
import { most, paragraph, table } from "./annex-parts.ts";
import { formatExpanded } from "./budget-text.ts";
import { leadingKeys } from "./chosen-keys.ts";
import { isLeftOut } from "./left-out.ts";
import type { ReportBlock } from "./report-document.ts";
import type { ReportChoice, StudyProvenance } from "./report-request.ts";
import { uncertaintyOf } from "./run-entries.ts";
import type { Simulation } from "./simulation.ts";

/** Every run with the leading quantities, each with its own expanded uncertainty where errors are stated. */
export function runByRun(
  results: StudyResults,
  provenance: StudyProvenance,
  choice: ReportChoice,
  simulation: Simulation | null,
): ReportBlock[] {
  const { locale, runs } = results;
  const words = wordsFor(locale).report;
  if (choice.key === null || runs.length > most.runs) return [paragraph(words.runByRunElsewhere(runs.length))];
  const keys = leadingKeys(results, choice.key);
  const hasBlocks = runs.some(({ run }) => run.block !== null);
  const hasDates = runs.some(({ run }) => run.date !== null);
  return [
    table({
      caption: words.runByRunCaption,
      columns: [
        { label: words.runColumn, align: "text", weight: 0.8 },
        { label: words.variantColumn, align: "text", weight: 1.6 },
        ...(hasDates ? [{ label: words.dateColumn, align: "text" as const, weight: 0.9 }] : []),
        ...(hasBlocks ? [{ label: words.blockColumn, align: "text" as const, weight: 0.8 }] : []),
        { label: words.statusColumn, align: "text", weight: 0.7 },
        ...keys.map((key) => ({
          label: labelWithUnit(keyLabel(key, locale), quantityEntry(key.quantity, locale)),
          align: "number" as const,
        })),
      ],
      rows: runs.map((one) => [
        shorten(one.run.name, most.name),
        shorten(one.run.variant, most.name),
        ...(hasDates ? [one.run.date ?? words.none] : []),
        ...(hasBlocks ? [shorten(one.run.block ?? words.none, most.name)] : []),
        statusOf(one.run, provenance, locale),
        ...keys.map((key) => runText(one, key, results, simulation)),
      ]),
      note: noteOf(results, simulation),
    }),
  ];
}

function statusOf(run: Run, provenance: StudyProvenance, locale: Locale): string {
  const words = wordsFor(locale).report;
  if (isLeftOut(run, provenance)) return words.doesNotCount;
  return run.leftOut === null ? words.counts : words.notFinished;
}

/** "752 ± 11", the value alone, or the value with the interval of Monte Carlo where first order does not describe it. */
function runText(
  one: RunResults,
  key: QuantityKey,
  { study, locale }: StudyResults,
  simulation: Simulation | null,
): string {
  const words = wordsFor(locale).report;
  const entry = quantityEntry(key.quantity, locale);
  const value = resultOf(one, key);
  if (value === undefined) return words.none;
  const { confidence } = study.settings;
  const known = uncertaintyOf(one, key, confidence, studyErrors(study.settings), simulation);
  if (known === null || known.error.standardUncertainty === 0) return formatValue(value, entry, locale);
  const trials = known.simulated;
  if (trials?.judgement.validates !== false) {
    return formatExpanded(value, expandedUncertainty(known.error, confidence), entry, locale);
  }
  const interval = trials.symmetricInterval;
  if (interval === null || !Number.isFinite(interval.lower) || !Number.isFinite(interval.upper)) {
    return formatValue(value, entry, locale);
  }
  const { mean, lower, upper } = formatMean(value, interval, entry, locale);
  return words.runInterval(mean, lower ?? words.none, upper ?? words.none);
}

function noteOf({ study, locale }: StudyResults, simulation: Simulation | null): string | null {
  const words = wordsFor(locale).report;
  if (studyErrors(study.settings) === null) return null;
  const note = words.runsNote(levelText(study.settings.confidence, locale));
  return simulation === null ? note : `${note} ${words.runsNoteMonteCarlo}`;
}
