import { fuelTexts, type Question, type StudyResults, settingTexts, type VariantResults } from "../../../core/index.ts";
import type { QuestionView, StudyView, VariantView } from "../../contract/index.ts";
import type { OpenStudy } from "../open-study.ts";

/** A question without its rule's name. */
export function questionView({ run, phase, column, message }: Question): QuestionView {
  return { run, phase, column, message };
}

/** A variant with its counts and the levels of its design factors. */
export function variantView(results: StudyResults, { variant, index, runs, leftOut }: VariantResults): VariantView {
  const levels = new Map<string, Set<string>>();
  for (const { run } of results.runs) {
    if (run.variant !== variant) continue;
    for (const [factor, level] of run.factors) levels.set(factor, (levels.get(factor) ?? new Set()).add(level));
  }
  const factors = [...levels].map(([factor, found]) => ({ factor, level: [...found].join(", ") }));
  return { name: variant, index, runs: runs + leftOut, leftOut, factors };
}

function distinct(texts: readonly (string | null)[]): string[] {
  return [...new Set(texts.filter((text) => text !== null))];
}

/** What the Study screen shows. */
export function studyView({ results, provenance }: OpenStudy): StudyView {
  const { study, locale } = results;
  const runs = results.runs.map(({ run }) => run);
  const leftOut = runs.filter((run) => run.leftOut !== null);
  return {
    locale,
    name: study.name,
    isExample: provenance.isExample,
    method: study.settings.method,
    confidence: study.settings.confidence,
    runs: runs.length,
    leftOut: leftOut.length,
    variants: results.variants.map((variant) => variantView(results, variant)),
    blocks: distinct(runs.map((run) => run.block)),
    operators: distinct(runs.map((run) => run.operator)),
    fuels: fuelTexts(study.settings, study.runs, locale),
    settings: settingTexts(study.settings, locale),
    questions: [...results.questions, ...[...results.runQuestions.values()].flat()].map(questionView),
    notes: provenance.readingNotes,
    inputs: provenance.inputs,
    leftOutRuns: leftOut.map((run) => ({ run: run.name, reason: run.leftOut ?? "" })),
    leftOutRows: provenance.leftOutRows,
  };
}
