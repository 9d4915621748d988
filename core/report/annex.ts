import type { Question } from "../analysis/question.ts";
import type { MissingQuantity, RunResults } from "../analysis/run-results.ts";
import { studyErrors } from "../analysis/study-errors.ts";
import { comparisonsIn, isFormulaOnly, type StudyResults } from "../analysis/study-results.ts";
import { formatFixed, formatSignificant } from "../format/number.ts";
import { formatMean, labelWithUnit } from "../format/quantity.ts";
import { keyLabel, parseKey, type QuantityKey } from "../quantity/quantity-key.ts";
import type { QuantityName } from "../quantity/quantity-name.ts";
import { quantityEntry } from "../quantity/quantity-table.ts";
import type { StudyRatings } from "../rating/study-ratings.ts";
import type { PhaseName } from "../readings/phase.ts";
import { wordsFor } from "../words/index.ts";
import { shorten } from "../words/shorten.ts";
import { heading, list, most, paragraph, table } from "./annex-parts.ts";
import { reportKeys } from "./chosen-keys.ts";
import { howSure } from "./how-sure.ts";
import { isLeftOut, isOnBench } from "./left-out.ts";
import { meanTextOf } from "./mean-text.ts";
import { method } from "./method-annex.ts";
import type { ReportBlock } from "./report-document.ts";
import type { ReportChoice, StudyProvenance } from "./report-request.ts";
import { runByRun } from "./run-by-run.ts";
import type { Simulation } from "./simulation.ts";

/** Everything after page one, in the order in which an expert asks for it. */
export function annex(
  results: StudyResults,
  provenance: StudyProvenance,
  choice: ReportChoice,
  ratings: StudyRatings,
  simulation: Simulation | null,
): ReportBlock[] {
  const words = wordsFor(results.locale).report;
  return [
    ...howSure(results, choice),
    heading(words.everything),
    ...everything(results),
    ...differences(results, choice),
    ...ratingBlocks(results, ratings),
    heading(words.runByRun),
    ...runByRun(results, provenance, choice, simulation),
    heading(words.leftOut),
    ...leftOut(results, provenance),
    ...missingBlocks(results, provenance),
    heading(words.questions),
    ...questionBlocks(results),
    heading(words.method),
    ...method(results, provenance, simulation),
  ];
}

function everything(results: StudyResults): ReportBlock[] {
  const { locale, variants } = results;
  const words = wordsFor(locale).report;
  const keys = reportKeys(results);
  if (keys.length === 0) return [paragraph(words.nothing)];
  const parts = Math.ceil(variants.length / most.variantsAcross);
  return Array.from({ length: parts }, (_, part) => {
    const shown = variants.slice(part * most.variantsAcross, (part + 1) * most.variantsAcross);
    return table({
      caption: words.everythingCaption(part + 1, parts),
      columns: [
        { label: words.quantityColumn, align: "text", weight: 2.2 },
        ...shown.map(({ variant }) => ({ label: shorten(variant, most.name), align: "number" as const })),
      ],
      rows: keys.map((key) => {
        return [markedLabel(results, key), ...shown.map((variant) => meanTextOf(results, variant, key))];
      }),
      note: null,
    });
  });
}

/** A quantity's label with its unit, and what must be said of it wherever a person sees it. */
export function markedLabel(results: StudyResults, key: QuantityKey): string {
  const words = wordsFor(results.locale).report;
  const label = labelWithUnit(keyLabel(key, results.locale), quantityEntry(key.quantity, results.locale));
  const marks = [
    ...(isFormulaOnly(results, key) ? [words.formulaOnlyMark] : []),
    ...(key.phase === "simmer" && key.quantity === "thermalEfficiency" ? [words.notForRankingMark] : []),
  ];
  return marks.length === 0 ? label : `${label} (${marks.join(", ")})`;
}

function differences(results: StudyResults, choice: ReportChoice): ReportBlock[] {
  const { key, baseline } = choice;
  const { locale } = results;
  const words = wordsFor(locale).report;
  if (key === null) return [];
  const comparisons = comparisonsIn(results, key, baseline);
  if (comparisons.length === 0) return [];
  const entry = quantityEntry(key.quantity, locale);
  const columns = words.differenceColumns;
  const unit = entry.shownUnit === "" ? "" : `, ${entry.shownUnit}`;
  return [
    table({
      caption: words.differencesCaption(keyLabel(key, locale), baseline),
      columns: [
        { label: words.variantColumn, align: "text", weight: 1.6 },
        { label: `${columns.difference}${unit}`, align: "number", weight: 1.8 },
        { label: columns.ratio, align: "number", weight: 1.8 },
        { label: columns.t, align: "number", weight: 0.7 },
        { label: columns.degreesOfFreedom, align: "number" },
        { label: columns.p, align: "number", weight: 0.8 },
      ],
      rows: comparisons.map(({ variant, welch, ratio }) => {
        const difference =
          welch.difference === null ? null : formatMean(welch.difference, welch.interval, entry, locale);
        const ratioText = (value: number) => formatFixed(value, 3, locale);
        return [
          shorten(variant, most.name),
          difference === null
            ? words.none
            : difference.lower === null || difference.upper === null
              ? difference.mean
              : words.interval(difference.mean, difference.lower, difference.upper),
          ratio.ratio === null
            ? words.none
            : ratio.set === "bounded" && ratio.lower !== null && ratio.upper !== null
              ? words.interval(ratioText(ratio.ratio), ratioText(ratio.lower), ratioText(ratio.upper))
              : ratioText(ratio.ratio),
          welch.t === null ? words.none : formatFixed(welch.t, 2, locale),
          welch.degreesOfFreedom === null ? words.none : formatFixed(welch.degreesOfFreedom, 1, locale),
          welch.p === null ? words.none : pText(welch.p, results),
        ];
      }),
      note: studyErrors(results.study.settings) === null ? null : words.scatterAlone,
    }),
  ];
}

function pText(p: number, results: StudyResults): string {
  const smallest = 0.0001;
  if (p < smallest) return wordsFor(results.locale).report.smallP(formatFixed(smallest, 4, results.locale));
  return formatSignificant(p, 2, results.locale);
}

function ratingBlocks(results: StudyResults, { ratings, notes }: StudyRatings): ReportBlock[] {
  const { locale } = results;
  const words = wordsFor(locale).report;
  const columns = words.ratingColumns;
  const rows = ratings.map(({ variant, scheme, key, tier, tierAtUnfavourableLimit, probabilities }) => {
    const parsed = parseKey(key);
    const probability = formatFixed((probabilities[tier] ?? 0) * 100, 0, locale);
    return [
      shorten(variant, most.name),
      parsed === null ? key : keyLabel(parsed, locale),
      scheme.name,
      String(tier),
      String(tierAtUnfavourableLimit),
      words.probability(probability),
    ];
  });
  return [
    heading(words.ratings),
    ...(rows.length === 0
      ? []
      : [
          table({
            caption: words.ratingsCaption,
            columns: [
              { label: words.variantColumn, align: "text", weight: 1.6 },
              { label: words.quantityColumn, align: "text", weight: 2 },
              { label: columns.scheme, align: "text", weight: 1.4 },
              { label: columns.tier, align: "number", weight: 0.6 },
              { label: columns.atLimit, align: "number" },
              { label: columns.probability, align: "number" },
            ],
            rows,
            note: null,
          }),
        ]),
    ...notes.map((note) => paragraph(note, "soft")),
  ];
}

function leftOut(results: StudyResults, provenance: StudyProvenance): ReportBlock[] {
  const words = wordsFor(results.locale).report;
  const unfinished = results.runs.filter(({ run }) => isOnBench(run, provenance));
  const names = unfinished.slice(0, most.missingRuns).map(({ run }) => shorten(run.name, most.name));
  const items = [
    ...results.runs.flatMap(({ run }) =>
      isLeftOut(run, provenance)
        ? [words.leftOutRun(shorten(run.name, most.name), run.variant, shorten(run.leftOut ?? "", 500))]
        : [],
    ),
    ...(names.length === 0
      ? []
      : [words.notFinishedRuns(words.missingMore(names.join(", "), unfinished.length - names.length))]),
    ...provenance.leftOutRows.map(({ file, row, reasons }) =>
      words.leftOutRow(file, row, shorten(reasons.join(" "), 500)),
    ),
  ];
  return items.length === 0 ? [paragraph(words.nothingLeftOut)] : [list(items)];
}

/** Missing results of one run, told by reason: "time to boil, wood per litre and 3 more (no char was weighed)". */
export function missingTexts(one: RunResults, results: StudyResults): string[] {
  const { locale } = results;
  const words = wordsFor(locale);
  const byReason = new Map<string, string[]>();
  const add = (missing: readonly MissingQuantity[], phase: PhaseName | null) => {
    for (const { quantity, reason, reasonPhase } of missing) {
      const because = words.missing.because(reason, reasonPhase ?? phase);
      const label = quantityEntry(quantity as QuantityName, locale).label;
      const labels = byReason.get(because) ?? [];
      if (!labels.includes(label)) byReason.set(because, [...labels, label]);
    }
  };
  add(one.missing, null);
  for (const { phase, missing } of one.phases) add(missing, phase);
  return [...byReason].map(([because, labels]) => {
    // One too many is not worth its "1 more".
    const shown = labels.length <= most.missingLabels + 1 ? labels : labels.slice(0, most.missingLabels);
    const told = words.report.missingMore(shown.join(", "), labels.length - shown.length);
    return words.report.missingItem(told, because);
  });
}

function missingBlocks(results: StudyResults, provenance: StudyProvenance): ReportBlock[] {
  const words = wordsFor(results.locale).report;
  // Runs that lack the same for the same reason are told together.
  const runsByText = new Map<string, string[]>();
  for (const one of results.runs) {
    // What a run that is being made lacks is still to be read.
    if (isOnBench(one.run, provenance)) continue;
    const text = missingTexts(one, results).join("; ");
    if (text === "") continue;
    runsByText.set(text, [...(runsByText.get(text) ?? []), shorten(one.run.name, most.name)]);
  }
  const items = [...runsByText].map(([text, names]) => {
    const shown = names.slice(0, most.missingRuns);
    return words.missingOf(
      words.missingMore(shown.join(", "), names.length - shown.length),
      shorten(text, most.missingLength),
    );
  });
  return items.length === 0 ? [] : [heading(words.missing), limited(items, most.missing, results)];
}

function limited(items: readonly string[], count: number, results: StudyResults): ReportBlock {
  const words = wordsFor(results.locale).report;
  const shown = items.slice(0, count);
  return list(items.length > count ? [...shown, words.more(items.length - count)] : shown);
}

/** Where a question lies, in words: "R07, cold start". */
function questionPlace({ run, phase }: Question, results: StudyResults): string {
  const phases = wordsFor(results.locale).quantities.phase;
  return [...(run === null ? [] : [shorten(run, most.name)]), ...(phase === null ? [] : [phases[phase]])].join(", ");
}

function questionBlocks(results: StudyResults): ReportBlock[] {
  const words = wordsFor(results.locale).report;
  const all = [...results.questions, ...[...results.runQuestions.values()].flat()];
  const { answered } = results;
  const open = all.map((question) => words.questionOf(questionPlace(question, results), question.message));
  const closed = answered.map((question) => {
    const { because, who, at } = question.answer;
    const asked = words.questionOf(questionPlace(question, results), question.message);
    return words.answeredQuestion(asked, because, shorten(who, most.name), at.slice(0, "2026-01-31".length));
  });
  return [
    ...(open.length > 0
      ? [limited(open, most.questions, results)]
      : [paragraph(closed.length === 0 ? words.noQuestions : words.noOpenQuestions)]),
    ...(closed.length === 0
      ? []
      : [
          { kind: "heading", level: 3, text: words.answeredQuestions } as const,
          limited(closed, most.questions, results),
        ]),
  ];
}
