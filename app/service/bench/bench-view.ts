import {
  fieldKind,
  type Locale,
  type PhaseName,
  type ProcedureField,
  type Run,
  type RunFacts,
  shorten,
  stepWords,
  wordsFor,
} from "../../../core/index.ts";
import type { BenchLineView, BenchRunView, BenchStepView, BenchView, FurtherEntry } from "../../contract/index.ts";
import { questionView } from "../questions/index.ts";
import type { StudyContent } from "../study/study-content.ts";
import type { StudySession } from "../study/study-session.ts";
import { beginView } from "./begin-run.ts";
import { clockOf } from "./bench-clock.ts";
import { type FieldSource, type FullStep, fieldView, fullSteps, isStepDone } from "./bench-fields.ts";
import { type BenchRecord, benchRecord, benchRecords, formOf } from "./bench-record.ts";
import { choicesIn } from "./choices.ts";
import { lackingIn, lacksOf } from "./lacks.ts";
import { cellsOf } from "./lasting-cells.ts";
import { runOfSameDay, setUpValues } from "./offered.ts";
import { soFarOf } from "./so-far-view.ts";
import { usualIn } from "./usual.ts";

/** The Bench: the runs that are not finished, and one of them, step by step. */
export function benchView(
  { content }: StudySession,
  item: number | null,
  locale: Locale,
  entries: readonly FurtherEntry[],
): BenchView {
  return {
    unfinished: unfinishedLines(content, locale),
    begin: beginView(content),
    bench: item === null ? null : runView(content, item, locale, entries),
  };
}

const cellReader = (run: Run) => {
  const known = new Map<PhaseName, ReadonlyMap<string, string>>();
  return (phase: PhaseName) => {
    const there = known.get(phase) ?? cellsOf(run, phase);
    known.set(phase, there);
    return there;
  };
};

function nextStep(steps: readonly FullStep[], run: Run, cells: FieldSource["cells"]): FullStep | null {
  return steps.find((step) => !isStepDone(step, cells, run.phases[0]?.phase ?? null)) ?? null;
}

function unfinishedLines(content: StudyContent, locale: Locale): BenchLineView[] {
  return [...benchRecords(content.head)].flatMap(([item, record]): BenchLineView[] => {
    const run = content.run(item)?.run;
    if (run === undefined) return [];
    const cells = cellReader(run);
    const next = nextStep(fullSteps(run, record, cells, []), run, cells);
    return [
      {
        id: run.id,
        run: run.name,
        variant: run.variant,
        date: run.date,
        state: record.state,
        reason: record.state === "abandoned" ? run.leftOut : null,
        next: next === null ? null : stepWords(next.id, locale).title,
      },
    ];
  });
}

/** A run that is no longer on the Bench is shown as its readings say. */
function stateOf(run: Run, content: StudyContent): { record: BenchRecord; state: BenchRunView["state"] } {
  const record = benchRecord(content.head, Number(run.id))?.record;
  if (record !== undefined) return { record, state: record.state };
  const state = run.leftOut === null ? "finished" : "abandoned";
  return { record: { ...formOf(run), state: "abandoned", anchors: {} }, state };
}

/** What was written down in a step, in a line. */
function summaryOf(step: FullStep, cells: FieldSource["cells"], first: PhaseName | null, pots: number, locale: Locale) {
  const words = wordsFor(locale).benchWork;
  const parts = step.fields.flatMap((field): string[] => {
    const where = field.phase ?? first;
    if (where === null) return [];
    const text = cells(where).get(field.column);
    if (text === undefined) {
      const other = field.otherBasis === null ? undefined : cells(where).get(field.otherBasis);
      return other === undefined ? [] : [words.summary(short(field, pots, locale), `${other} %, ${words.dry}`, null)];
    }
    if (field.begins?.stays || passedOver.test(field.column)) return [];
    const name = short(field, pots, locale);
    return [words.summary(name, shorten(text, 40), field.unit)];
  });
  return parts.join(" · ");
}

const passedOver = /^(run|variant|order|block|operator|altitude_m|humidity_percent|fuel_size_mm|wind|lid)$/;

function short(field: ProcedureField, pots: number, locale: Locale): string {
  const words = wordsFor(locale).benchWork;
  const { kind, pot, entry } = fieldKind(field);
  const name = words.shortName[kind] ?? "";
  if (pot !== null && pots > 1) return words.shortOfPot(name, pot);
  return entry === null || name === "" ? name : words.shortOfEntry(name, entry);
}

function runView(
  content: StudyContent,
  item: number,
  locale: Locale,
  asked: readonly FurtherEntry[],
): BenchRunView | null {
  const run = content.run(item)?.run;
  if (run === undefined) return null;
  const words = wordsFor(locale).benchWork;
  const { record, state } = stateOf(run, content);
  const cells = cellReader(run);
  const first = run.phases[0]?.phase ?? null;
  const facts = content.facts();
  const steps = fullSteps(run, record, cells, asked).filter(
    ({ phase }) => phase === null || run.phases.some((one) => one.phase === phase),
  );
  const questions = content.questionsOf(run).map(questionView);
  const places = new Set(steps.flatMap(({ fields }) => fields.flatMap((field) => placesOf(field, first))));
  const known = { cells, sameDay: runOfSameDay(content, run, facts), setUp: setUpValues(content) };
  const source: FieldSource = {
    run,
    record,
    cells,
    known,
    usual: usualIn(run, facts, { cells, known }, locale),
    choices: choicesIn(content, facts, locale),
    questionsAt: (field) => {
      const at = placesOf(field, first);
      return questions.filter((one) => at.includes(placeOf(one)));
    },
    locale,
  };
  const next = nextStep(steps, run, cells);
  const stepView = (step: FullStep): BenchStepView => ({
    id: step.id,
    ...stepWords(step.id, locale),
    phase: step.phase,
    fields: step.fields.flatMap((field) =>
      field.phase !== null && !run.phases.some(({ phase }) => phase === field.phase)
        ? []
        : [fieldView(field, step.entries.get(field.column) ?? null, source)],
    ),
    clock:
      step.clock === null || step.phase === null
        ? null
        : { act: step.clock.act, column: step.clock.column, press: pressText(step, words.press) },
    isDone: isStepDone(step, cells, first),
    summary: summaryOf(step, cells, first, record.pots, locale),
    nextEntry: step.nextEntry,
  });
  return {
    id: run.id,
    run: run.name,
    variant: run.variant,
    variantIndex: variantIndex(run.variant, facts),
    date: run.date,
    state,
    reason: state === "abandoned" ? run.leftOut : null,
    pots: record.pots,
    charAtHotStart: record.charAtHotStart,
    emissions: record.emissions,
    steps: steps.map(stepView),
    nextStep: next?.id ?? null,
    soFar: soFarOf(run, record, content.settings, cells, locale),
    questions: questions.filter((one) => !places.has(placeOf(one))),
    clock: state === "open" ? clockOf(run, record, locale) : null,
    lacks: lacksOf(run, record, locale),
    lacking: lackingIn(run, record).map(({ phase, column }) => ({ phase, column })),
  };
}

function pressText(
  { phase, clock }: FullStep,
  press: { readonly lit: string; readonly begun: string; readonly boils: string; readonly ends: string },
): string {
  if (clock?.act === "boils") return press.boils;
  if (clock?.act === "ends") return press.ends;
  return phase !== null && fieldKind({ phase, column: "start" }).kind === "lit" ? press.lit : press.begun;
}

const placeOf = ({ phase, column }: { readonly phase: string | null; readonly column: string | null }) =>
  `${phase ?? ""} ${column ?? ""}`;

/** Where questions about a field stand: in its cell, the other basis's, and for the run's own in its first row too. */
function placesOf(field: ProcedureField, first: PhaseName | null): string[] {
  const { phase, column, otherBasis } = field;
  // Water that was noted without its pot has no field of its own.
  const net = column.replace(/^(pot[1-4])_(start|end)_g$/, "$1_water_$2_g");
  return [
    placeOf(field),
    ...(net === column ? [] : [placeOf({ phase, column: net })]),
    ...(otherBasis === null ? [] : [placeOf({ phase, column: otherBasis })]),
    ...(phase === null ? [placeOf({ phase: first, column })] : []),
  ];
}

function variantIndex(variant: string, facts: readonly RunFacts[]): number {
  return Math.max(0, [...new Set(facts.map((one) => one.variant))].indexOf(variant));
}
