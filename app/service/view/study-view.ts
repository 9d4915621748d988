import {
  fuelTexts,
  type Locale,
  type Question,
  type StudyResults,
  settingTexts,
  type VariantResults,
} from "../../../core/index.ts";
import type { QuestionView, StudyState, StudyView, VariantView } from "../../contract/index.ts";
import { provenanceOf } from "../study/stored-study.ts";
import type { StudySession } from "../study/study-session.ts";

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

/** What the Study screen shows, and the cover of every screen. Of a study that is still being looked at, what is known by then. */
export function studyView(session: StudySession, namesHere: readonly string[], locale: Locale): StudyView {
  const state = session.state();
  const { head } = session.content;
  const names = distinct([...session.file.database.record(200).map(({ who }) => who), ...namesHere]);
  const shared = {
    ...state,
    file: session.file.path,
    names,
    locale,
    name: head.name,
    isExample: head.isExample,
    method: head.method,
    confidence: head.confidence,
  };
  return { ...shared, ...(state.looking === null ? wholeStudy(session) : countedStudy(session, locale)) };
}

type Recorded = Omit<
  StudyView,
  keyof StudyState | "file" | "names" | "locale" | "name" | "isExample" | "method" | "confidence"
>;

function wholeStudy(session: StudySession): Recorded {
  const { results, provenance } = session.content.open();
  const { study, locale } = results;
  const runs = results.runs.map(({ run }) => run);
  const leftOut = runs.filter((run) => run.leftOut !== null);
  return {
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

/** What can be told without reading a single run. */
function countedStudy(session: StudySession, locale: Locale): Recorded {
  const { content } = session;
  const lines = content.lines();
  const { inputs, leftOutRows, readingNotes } = provenanceOf(content.head);
  const leftOut = lines.filter((line) => line.leftOut !== null);
  const byVariant = Map.groupBy(lines, (line) => line.variant);
  const variants = [...content.head.variants].flatMap(([item, { name, levels }]) => {
    const ofVariant = byVariant.get(item) ?? [];
    if (ofVariant.length === 0) return [];
    const factors = [...levels].map(([factor, level]) => ({ factor, level }));
    return [
      { name, runs: ofVariant.length, leftOut: ofVariant.filter((line) => line.leftOut !== null).length, factors },
    ];
  });
  return {
    runs: lines.length,
    leftOut: leftOut.length,
    variants: variants.map((variant, index) => ({ ...variant, index })),
    blocks: distinct(lines.map((line) => line.block)),
    operators: distinct(lines.map((line) => line.operator)),
    fuels: fuelTexts(content.settings, [], locale),
    settings: settingTexts(content.settings, locale),
    questions: [],
    notes: readingNotes,
    inputs,
    leftOutRows,
    leftOutRuns: leftOut.map((line) => ({ run: line.name, reason: line.leftOut ?? "" })),
  };
}
