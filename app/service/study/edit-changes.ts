import { type Locale, type Problem, type Run, wordsFor } from "../../../core/index.ts";
import type { Edit } from "../../contract/index.ts";
import type { Change, StoredHead, StoredRemark, StoredRun, StoredVariant, StudyDatabase } from "../../store/index.ts";
import { benchEdit, cellsWithLasting, countingOnBench, leavingBench } from "../bench/index.ts";
import { cellsOfRunsEdit } from "../grid/index.ts";
import { answerEdit } from "../questions/index.ts";
import { Refused, refuse } from "../refused.ts";
import { setUpEdit } from "../set-up/index.ts";
import { type CellEdit, cellText, changesOf, editedRun, isOrderKept, type RunEdited } from "../stored/index.ts";
import type { EditContext, Prepared } from "./prepared.ts";
import type { StudyContent } from "./study-content.ts";

/** What an edit of a person does to the file. Refused, with the reason, where it cannot be done. */
export function prepareEdit(edit: Edit, context: EditContext): Prepared {
  const { content, database, locale } = context;
  switch (edit.kind) {
    case "renameStudy": {
      const { name: before } = content.head;
      const { name: after } = edit;
      const changes: Change[] = before === after ? [] : [{ subject: "study", field: "name", after }];
      return { note: { what: "renameStudy", about: { before, after }, why: null }, changes };
    }
    case "cells":
      return cellsEdit(edit, content, database, locale);
    case "leaveOut":
    case "bringBack":
      return countingOnBench(edit, context) ?? countingEdit(edit, content, database, locale);
    case "cellsOfRuns":
      return cellsOfRunsEdit(edit, context);
    case "answer":
    case "reopen":
      return answerEdit(edit, context);
    case "beginRun":
    case "benchForm":
    case "stamp":
    case "specimens":
    case "finishRun":
    case "abandonRun":
    case "takeUpRun":
      return benchEdit(edit, context);
    case "setUp":
    case "removeSetUp":
      return setUpEdit(edit, context);
  }
}

/** Cells of one run: read the way a file's cells are read, all of them or none. */
function cellsEdit(
  edit: Extract<Edit, { kind: "cells" }>,
  content: StudyContent,
  database: StudyDatabase,
  locale: Locale,
): Prepared {
  const words = wordsFor(locale);
  const item = Number(edit.run);
  const { run } = content.run(item) ?? refuse(wordsFor(locale).record.runGone);
  const cells = edit.cells.map((cell) => {
    const before = textThere(run, cell);
    const phase = words.screens.reading(cell.column);
    if (before !== cell.was && before !== cell.text.trim()) {
      refuse(words.record.cellChanged(phase, cell.was, before));
    }
    return { ...cell, before };
  });
  const name = cells.find(({ phase, column }) => phase === null && column === "run")?.text.trim();
  if (name !== undefined && name !== run.name && content.lines().some((line) => line.name === name)) {
    refuse(words.record.runNameTaken(name));
  }
  const changes = runChanges(item, cellsWithLasting(item, run, cells, content), content, database, locale);
  const [first] = cells;
  if (cells.length > 1 || first === undefined) {
    return { note: { what: "cells", about: { run: run.name, count: cells.length }, why: edit.why }, changes };
  }
  const { phase, column, before } = first;
  const about = { run: run.name, phase, column, before, after: first.text.trim() };
  return { note: { what: "cell", about, why: edit.why }, changes };
}

/** What a cell shows now; "" where nothing stands there. */
function textThere(run: Run, { phase, column }: Pick<CellEdit, "phase" | "column">): string {
  const of = run.phases.find((one) => phase === null || one.phase === phase);
  return of === undefined ? "" : cellText(run, of, column);
}

/** Leaves a run out with a reason, or lets it count again. */
function countingEdit(
  { kind, run: id, reason }: Extract<Edit, { kind: "leaveOut" | "bringBack" }>,
  content: StudyContent,
  database: StudyDatabase,
  locale: Locale,
): Prepared {
  const words = wordsFor(locale).record;
  const { run } = content.run(Number(id)) ?? refuse(words.runGone);
  const leaves = kind === "leaveOut";
  if (leaves && run.leftOut !== null) refuse(words.alreadyLeftOut(run.name));
  if (!leaves && run.leftOut === null) refuse(words.notLeftOut(run.name));
  const cells = [{ phase: null, column: "excluded", text: leaves ? reason : "" }];
  return {
    note: { what: kind, about: { run: run.name }, why: reason },
    changes: runChanges(Number(id), cells, content, database, locale),
  };
}

/**
 * Cells of a run as changes of the file, with the questions that they raise.
 *
 * @param from the run that the cells are edited of, where that is another than stands in the file: with phases more or less
 */
export function runChanges(
  item: number,
  cells: readonly CellEdit[],
  content: StudyContent,
  database: StudyDatabase,
  locale: Locale,
  from?: Run,
): Change[] {
  const { stored, run: there } = content.run(item) ?? refuse(wordsFor(locale).record.runGone);
  const run = from ?? there;
  const edited = readEdited(run, content, cells, locale);
  if (!edited.ok) throw new Refused([...new Set(edited.problems.map(({ message }) => message))].join(" "));
  if (!isOrderKept(edited.run)) refuse(wordsFor(locale).record.orderTooLarge(edited.run.name));
  return editedChanges({ item, stored, run }, edited, content, database);
}

/** A run of the file, and its cells as the core has them. */
export interface RunBefore {
  readonly item: number;
  readonly stored: StoredRun;
  readonly run: Run;
}

/** A run whose cells were edited as changes of the file, with the questions that they raise; its order must be one that is kept. */
export function editedChanges(
  { item, stored, run }: RunBefore,
  { run: after, questions }: Extract<RunEdited, { ok: true }>,
  content: Pick<StudyContent, "head">,
  database: StudyDatabase,
): Change[] {
  const { head } = content;
  const known = [...head.variants].find(([, { name }]) => name === after.variant);
  const [variant, { levels }] = known ?? newVariant(after, head, database);
  const changes = changesOf(stored, movedRun(stored, run, after, levels), {
    item,
    variant,
    variantLevels: levels,
    act: () => database.nextItem("act"),
  });
  if (changes.length === 0) return [];
  return [
    ...(known === undefined ? [{ subject: "variant", item: variant, after: newVariantOf(after, head) } as const] : []),
    ...changes,
    ...questionChanges(item, questions, content, database),
    ...leavingBench(item, after, content, database),
  ];
}

/** Cells that a run cannot have are refused like what cannot be read. */
function readEdited(run: Run, { settings }: StudyContent, cells: readonly CellEdit[], locale: Locale) {
  try {
    return editedRun(run, settings, cells, locale);
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    refuse(wordsFor(locale).record.notACell(cells[0]?.column ?? ""));
  }
}

/** A variant that a run is the first of: the run's levels are its levels. */
function newVariantOf({ variant: name, factors }: Run, head: StoredHead): StoredVariant {
  const position = Math.max(-1, ...[...head.variants.values()].map((variant) => variant.position)) + 1;
  return { name, position, levels: factors };
}

function newVariant(run: Run, head: StoredHead, database: StudyDatabase): [number, StoredVariant] {
  return [database.nextItem("variant"), newVariantOf(run, head)];
}

/** A run that was moved to another variant has that one's levels, but for those in which it differed from its own. */
function movedRun(stored: StoredRun, before: Run, after: Run, levels: ReadonlyMap<string, string>): Run {
  if (after.variant === before.variant) return after;
  const factors = new Map(levels);
  for (const [factor, level] of after.factors) {
    if (stored.levels.has(factor) || before.factors.get(factor) !== level) factors.set(factor, level);
  }
  return { ...after, factors };
}

/** The questions of the run's cells that the file keeps become those that its cells raise now. */
function questionChanges(
  run: number,
  questions: readonly Problem[],
  { head }: Pick<StudyContent, "head">,
  database: StudyDatabase,
): Change[] {
  const wanted = questions.map(
    ({ rule, phase, column, message }): StoredRemark => ({
      kind: "question",
      run,
      value: { rule, phase, column, message },
    }),
  );
  const isSame = (left: StoredRemark, right: StoredRemark) =>
    JSON.stringify(left.value) === JSON.stringify(right.value);
  const there = [...head.remarks].filter(([, remark]) => remark.kind === "question" && remark.run === run);
  const gone = there.filter(([, remark]) => !wanted.some((one) => isSame(one, remark)));
  const added = wanted.filter((one) => !there.some(([, remark]) => isSame(one, remark)));
  return [
    ...gone.map(([item]): Change => ({ subject: "remark", item, after: null })),
    ...added.map((after): Change => ({ subject: "remark", item: database.nextItem("remark"), after })),
  ];
}
