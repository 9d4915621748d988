import { levelText } from "../analysis/finding.ts";
import { headlineKey, type StudyResults } from "../analysis/study-results.ts";
import { labelWithUnit } from "../format/quantity.ts";
import { keyLabel, keyText, type QuantityKey } from "../quantity/quantity-key.ts";
import { quantityEntry } from "../quantity/quantity-table.ts";
import { rateStudy } from "../rating/study-ratings.ts";
import { statesErrors } from "../readings/states-errors.ts";
import { wordsFor } from "../words/index.ts";
import { shorten } from "../words/shorten.ts";
import { annex } from "./annex.ts";
import { changeTextOf, changeUnitOf } from "./change-text.ts";
import { leadingKeys } from "./chosen-keys.ts";
import { comparisonChart } from "./comparison-chart.ts";
import { headlineOf } from "./headline.ts";
import { isLeftOut } from "./left-out.ts";
import { meanTextOf } from "./mean-text.ts";
import type { ReportBlock, ReportDocument, ReportTable } from "./report-document.ts";
import type { ReportChoice, StudyProvenance } from "./report-request.ts";
import type { Simulation } from "./simulation.ts";

/** Longest variant name that a table prints whole. */
export const longestNameInTable = 300;

/** The choice that a study suggests: its headline quantity, all variants against the first. */
export function firstChoice(results: StudyResults): ReportChoice {
  return { key: headlineKey(results), variant: null, baseline: results.variants[0]?.variant ?? "" };
}

/**
 * The whole report of a study as data: page one for the reader in a hurry, then what an expert needs to recompute it.
 *
 * @param simulation Monte Carlo of the runs; null where there was none
 */
export function buildReport(
  results: StudyResults,
  provenance: StudyProvenance,
  choice: ReportChoice,
  simulation: Simulation | null = null,
): ReportDocument {
  const { locale, study } = results;
  const { report: words, quantities } = wordsFor(locale);
  const headline = headlineOf(results, choice);
  const questions = [...results.runQuestions.values()].reduce((total, some) => total + some.length, 0);
  const open = questions + results.questions.length;
  const leftOutRuns = results.runs.filter(({ run }) => isLeftOut(run, provenance)).length;
  const annexed = words.leftOutAndOpen(leftOutRuns, provenance.leftOutRows.length, open);
  const warnings = [...headline.warnings, ...(annexed === null ? [] : [annexed])];
  const program = words.program(provenance.program.version);
  const digest = provenance.inputs[0]?.sha256;
  return {
    locale,
    kind: words.kind,
    title: shorten(study.name, longestNameInTable),
    banner: provenance.isExample ? words.example : null,
    question: headline.question,
    finding: headline.finding,
    lead: headline.lead,
    blocks: [
      ...(choice.key === null ? [] : pageOne(results, choice.key, choice)),
      ...(warnings.length === 0
        ? []
        : [{ kind: "aside", title: words.before, texts: warnings, tone: "attention" } as const]),
      { kind: "heading", level: 2, text: words.notShown },
      { kind: "paragraph", text: words.notShownText, tone: "plain" },
      { kind: "aside", title: words.cautions, texts: [words.cautionTexts.join(" ")], tone: "plain" },
      ...annex(results, provenance, choice, rateStudy(results), simulation),
    ],
    foot: words.foot(
      [...new Set(results.runs.map(({ run }) => quantities.methods[run.method]))].join(", "),
      program,
      digest === undefined ? null : `${digest.slice(0, 8)}…${digest.slice(-4)}`,
    ),
    pageOf: words.pageOf,
    properties: { program, subject: words.subject },
  };
}

function pageOne(results: StudyResults, key: QuantityKey, choice: ReportChoice): ReportBlock[] {
  const words = wordsFor(results.locale).report;
  const level = levelText(results.study.settings.confidence, results.locale);
  const chart = comparisonChart(results, key, choice.baseline);
  const anyLeftOut = chart.rows.some((row) => row.runs.some((run) => run.leftOut));
  return [
    { kind: "chart", chart, caption: words.chartCaption(level, anyLeftOut) },
    { kind: "table", table: variantsTable(results, key, choice.baseline) },
  ];
}

/** Variants with the leading quantity, its change, and up to two more quantities. */
function variantsTable(results: StudyResults, key: QuantityKey, baseline: string): ReportTable {
  const { locale, variants } = results;
  const words = wordsFor(locale).report;
  const keys = leadingKeys(results, key);
  const changeUnit = changeUnitOf(results, key, baseline);
  const changeColumn = changeUnit === null ? words.changeColumn : words.changeColumnIn(changeUnit);
  const title = (one: QuantityKey) => labelWithUnit(keyLabel(one, locale), quantityEntry(one.quantity, locale));
  return {
    caption: words.variantsTable,
    isCaptionHidden: true,
    columns: [
      { label: words.variantColumn, align: "text", weight: 2 },
      { label: words.runsColumn, align: "number", weight: 0.6 },
      { label: title(key), align: "number", weight: 1.3 },
      ...(variants.length > 1 ? [{ label: changeColumn, align: "number" as const, weight: 1.2 }] : []),
      ...keys.slice(1).map((one) => ({ label: title(one), align: "number" as const, weight: 1.3 })),
    ],
    rows: variants.map((one) => [
      shorten(one.variant, longestNameInTable),
      words.runsOf(one.quantities.get(keyText(key))?.n ?? 0, one.runs),
      meanTextOf(results, one, key),
      ...(variants.length > 1 ? [changeTextOf(results, key, one.variant, baseline, changeUnit !== null)] : []),
      ...keys.slice(1).map((companion) => meanTextOf(results, one, companion)),
    ]),
    note: words.variantsNote(
      levelText(results.study.settings.confidence, locale),
      statesErrors(results.study.settings),
      variants.some(({ quantities }) => keys.some((one) => quantities.get(keyText(one))?.n === 1)),
    ),
  };
}
