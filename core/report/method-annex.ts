import { intervalsHold, levelText } from "../analysis/finding.ts";
import { studyErrors } from "../analysis/study-errors.ts";
import type { StudyResults } from "../analysis/study-results.ts";
import { formatFixed } from "../format/number.ts";
import { methodSources } from "../quantity/method-sources.ts";
import { quantityEntry } from "../quantity/quantity-table.ts";
import { statesErrors } from "../readings/states-errors.ts";
import { wordsFor } from "../words/index.ts";
import { shorten } from "../words/shorten.ts";
import { list, most, paragraph, table } from "./annex-parts.ts";
import { reportKeys } from "./chosen-keys.ts";
import type { ReportBlock } from "./report-document.ts";
import type { StudyProvenance } from "./report-request.ts";
import { uncertaintyOf } from "./run-entries.ts";
import { constantRows, fuelTexts, settingTexts } from "./settings-text.ts";
import type { Simulation } from "./simulation.ts";

/** How everything was worked out: procedure, statistics, uncertainty, inputs, settings, constants and formulas. */
export function method(
  results: StudyResults,
  provenance: StudyProvenance,
  simulation: Simulation | null,
): ReportBlock[] {
  const { locale, study } = results;
  const { report: words } = wordsFor(locale);
  const methods = [...new Set(results.runs.map(({ run }) => run.method))];
  const notes = new Set([...provenance.readingNotes, ...results.runs.flatMap((one) => one.notes)]);
  const fuels = results.facts.flatMap((run) => run.fuels);
  const settings = [...fuelTexts(study.settings, fuels, locale), ...settingTexts(study.settings, locale)];
  const columns = words.formulaColumns;
  const usualSource = methodSources[methods[0] ?? study.settings.method];
  const formulas = new Map(reportKeys(results).map((key) => [key.quantity, quantityEntry(key.quantity, locale)]));
  return [
    ...methods.map((one) => paragraph(words.methodTexts[one])),
    paragraph(words.boilingPoint),
    paragraph(words.statistics(levelText(study.settings.confidence, locale))),
    ...uncertaintyTexts(results, simulation).map((text) => paragraph(text)),
    ...(notes.size === 0 ? [] : [{ kind: "heading", level: 3, text: words.notes } as const, list([...notes])]),
    table({
      caption: words.inputsCaption,
      columns: [
        { label: words.inputColumns.file, align: "text" },
        { label: words.inputColumns.digest, align: "text", weight: 3 },
      ],
      rows: provenance.inputs.map(({ file, sha256 }) => [file, sha256]),
      note: null,
    }),
    table({
      caption: words.settings,
      columns: [
        { label: words.settingColumns.what, align: "text", weight: 1 },
        { label: words.settingColumns.detail, align: "text", weight: 3 },
      ],
      rows: settings.map(({ name, detail }) => [shorten(name, most.name), detail]),
      note: null,
    }),
    table({
      caption: words.constantsCaption,
      columns: [
        { label: words.constantColumns.constant, align: "text", weight: 1.6 },
        { label: words.constantColumns.value, align: "text", weight: 0.9 },
        { label: words.constantColumns.source, align: "text", weight: 2.2 },
      ],
      rows: constantRows(study, locale),
      note: null,
    }),
    ...(formulas.size === 0
      ? []
      : [
          table({
            caption: words.formulasCaption(usualSource),
            columns: [
              { label: columns.quantity, align: "text", weight: 1.3 },
              { label: columns.formula, align: "text", weight: 2 },
            ],
            rows: [...formulas.values()].map(({ label, formula, source }) => [
              label,
              source === usualSource ? formula : words.formulaWithSource(formula, source),
            ]),
            note: words.formulaSymbols,
          }),
        ]),
  ];
}

/** How uncertainties came about, and what validates them; without stated errors, how to state them. */
function uncertaintyTexts(results: StudyResults, simulation: Simulation | null): string[] {
  const { study, locale } = results;
  const { report: words } = wordsFor(locale);
  if (!statesErrors(study.settings)) return [intervalsHold(study.settings, locale), words.errorsNotStated];
  const general = [words.uncertaintyOfRuns, words.uncertaintyOfMeans];
  if (simulation === null) return [...general, words.notSimulated];
  const { trials, seed, isAdaptive } = simulation;
  const count = (number: number) => formatFixed(number, 0, locale);
  const drawn = isAdaptive ? words.monteCarloAdaptive(count(trials), seed) : words.monteCarlo(count(trials), seed);
  const { agree, differ, open } = validated(results, simulation);
  return [...general, `${drawn} ${words.validation(count(agree), count(differ), count(open))}`];
}

function validated({ runs, keys, study }: StudyResults, simulation: Simulation) {
  const errors = studyErrors(study.settings);
  const found = { agree: 0, differ: 0, open: 0 };
  for (const one of runs) {
    for (const key of keys) {
      const known = uncertaintyOf(one, key, study.settings.confidence, errors, simulation);
      const validates = known?.simulated?.judgement.validates;
      if (validates === undefined) continue;
      found[validates === null ? "open" : validates ? "agree" : "differ"] += 1;
    }
  }
  return found;
}
