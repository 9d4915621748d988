import { fuelTexts, type Locale, type RunFacts, settingTexts, wordsFor } from "../../../core/index.ts";
import type { StudyState, StudyView, VariantView } from "../../contract/index.ts";
import type { StoredHead, StoredVariant } from "../../store/index.ts";
import { runsOnBench } from "../bench/bench-record.ts";
import { questionView } from "../questions/index.ts";
import { provenanceOf } from "../study/stored-study.ts";
import type { StudySession } from "../study/study-session.ts";

/** How many open questions the page is told at once: more than anybody reads through. */
const questionsTold = 500;

/** How many edits back it is looked who made them. */
const recordLookedAt = 200;

/** A run that is being made is not left out: it does not count yet. */
function isLeftOut({ leftOut, onBench }: Pick<RunFacts, "leftOut" | "onBench">): boolean {
  return leftOut !== null && onBench !== true;
}

/** A variant with its counts and the levels of its design factors. */
export function variantView(
  name: string,
  index: number,
  runs: readonly Pick<RunFacts, "leftOut" | "factors" | "onBench">[],
): VariantView {
  const levels = new Map<string, Set<string>>();
  for (const { factors } of runs) {
    for (const [factor, level] of factors) levels.set(factor, (levels.get(factor) ?? new Set()).add(level));
  }
  const factors = [...levels].map(([factor, found]) => ({ factor, level: [...found].join(", ") }));
  const onBench = runs.filter((run) => run.onBench === true).length;
  const leftOut = runs.filter(isLeftOut).length;
  return { name, index, runs: runs.length, leftOut, onBench, factors };
}

function levelsOf({ levels }: StoredVariant): VariantView["factors"] {
  return [...levels].map(([factor, level]) => ({ factor, level }));
}

/** Variants that were set up and not run yet: behind those that were, whose colours and shapes stay what they are. */
function plannedVariants(head: StoredHead, run: ReadonlySet<string>): VariantView[] {
  return [...head.variants.values()]
    .filter(({ name }) => !run.has(name))
    .map((variant, place) => ({
      name: variant.name,
      index: run.size + place,
      runs: 0,
      leftOut: 0,
      onBench: 0,
      factors: levelsOf(variant),
    }));
}

function distinct(texts: readonly (string | null)[]): string[] {
  return [...new Set(texts.filter((text) => text !== null))];
}

/** What the Study screen shows, and the cover of every screen. Of a study that is still being looked at, what is known by then. */
export function studyView(session: StudySession, namesHere: readonly string[], locale: Locale): StudyView {
  const state = session.state();
  const { head } = session.content;
  const { exampleAuthor, nobody } = wordsFor(locale).studyFile;
  const writers = session.file.database.record(recordLookedAt).map(({ who }) => who);
  const names = distinct([...writers, ...namesHere]).filter((name) => name !== exampleAuthor && name !== nobody);
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
  return { ...shared, ...(state.looking === null ? wholeStudy(session, locale) : countedStudy(session, locale)) };
}

type Recorded = Omit<
  StudyView,
  keyof StudyState | "file" | "names" | "locale" | "name" | "isExample" | "method" | "confidence"
>;

function wholeStudy(session: StudySession, locale: Locale): Recorded {
  const { content } = session;
  const { facts, questions, runQuestions, answered } = content.overview();
  const open = [...questions, ...[...runQuestions.values()].flat()];
  const { inputs, leftOutRows, readingNotes } = provenanceOf(content.head);
  const leftOut = facts.filter(isLeftOut);
  const variants = [...Map.groupBy(facts, ({ variant }) => variant)];
  const planned = plannedVariants(content.head, new Set(variants.map(([name]) => name)));
  return {
    runs: facts.length,
    leftOut: leftOut.length,
    onBench: facts.filter(({ onBench }) => onBench === true).map(({ id, name }) => ({ id, run: name })),
    variants: [...variants.map(([name, runs], index) => variantView(name, index, runs)), ...planned],
    blocks: distinct(facts.map(({ block }) => block)),
    operators: distinct(facts.map(({ operator }) => operator)),
    fuels: fuelTexts(
      content.settings,
      facts.flatMap(({ fuels }) => fuels),
      locale,
    ),
    settings: settingTexts(content.settings, locale),
    openQuestions: open.length,
    questions: open.slice(0, questionsTold).map(questionView),
    answeredQuestions: answered.map(questionView),
    notes: readingNotes,
    inputs,
    leftOutRuns: leftOut.map((run) => ({ run: run.name, reason: run.leftOut ?? "" })),
    leftOutRows,
  };
}

/** What can be told without reading a single run. */
function countedStudy(session: StudySession, locale: Locale): Recorded {
  const { content } = session;
  const lines = content.lines();
  const { inputs, leftOutRows, readingNotes } = provenanceOf(content.head);
  const unfinished = runsOnBench(content.head);
  const isOut = ({ run, leftOut }: (typeof lines)[number]) => leftOut !== null && !unfinished.has(run);
  const leftOut = lines.filter(isOut);
  const byVariant = Map.groupBy(lines, (line) => line.variant);
  // In the order in which they were first run, as everywhere.
  const variants = [...byVariant].flatMap(([item, ofVariant], index): VariantView[] => {
    const variant = content.head.variants.get(item);
    const leftOutRuns = ofVariant.filter(isOut).length;
    const onBench = ofVariant.filter(({ run }) => unfinished.has(run)).length;
    const counts = { index, runs: ofVariant.length, leftOut: leftOutRuns, onBench };
    return variant === undefined ? [] : [{ name: variant.name, ...counts, factors: levelsOf(variant) }];
  });
  return {
    runs: lines.length,
    leftOut: leftOut.length,
    onBench: lines.filter(({ run }) => unfinished.has(run)).map(({ run, name }) => ({ id: String(run), run: name })),
    variants: [...variants, ...plannedVariants(content.head, new Set(variants.map(({ name }) => name)))],
    blocks: distinct(lines.map((line) => line.block)),
    operators: distinct(lines.map((line) => line.operator)),
    fuels: fuelTexts(content.settings, [], locale),
    settings: settingTexts(content.settings, locale),
    openQuestions: 0,
    questions: [],
    answeredQuestions: [],
    notes: readingNotes,
    inputs,
    leftOutRows,
    leftOutRuns: leftOut.map((line) => ({ run: line.name, reason: line.leftOut ?? "" })),
  };
}
