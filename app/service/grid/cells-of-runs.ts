import { type Locale, type PhaseName, type Run, wordsFor } from "../../../core/index.ts";
import type { Edit, RefusedCell } from "../../contract/index.ts";
import { phaseCells } from "../../import/index.ts";
import type { Change, StoredHead, StoredRemark } from "../../store/index.ts";
import { cellsWithLasting } from "../bench/index.ts";
import { refuse } from "../refused.ts";
import { type CellEdit, editedRun, isCellColumn, isOrderKept, isRunColumn, type RunEdited } from "../stored/index.ts";
import { editedChanges, type RunBefore } from "../study/edit-changes.ts";
import type { EditContext, Prepared } from "../study/prepared.ts";
import type { StudyContent } from "../study/study-content.ts";
import type { StudySession } from "../study/study-session.ts";
import { isResultName } from "./grid-columns.ts";
import { Turn } from "./turn.ts";

export type CellsOfRunsEdit = Extract<Edit, { kind: "cellsOfRuns" }>;
type GivenCell = CellsOfRunsEdit["cells"][number];

/** A run's cells as they were read; `refused` says which could not be, and why. */
export interface ReadCells {
  readonly before: RunBefore | null;
  /** Cells that change what stands there. */
  readonly count: number;
  readonly edited: Extract<RunEdited, { ok: true }> | null;
  readonly refused: readonly RefusedCell[];
}

/** The cells of an edit, run by run. */
export function cellsByRun({ cells }: CellsOfRunsEdit): ReadonlyMap<number, readonly GivenCell[]> {
  return Map.groupBy(cells, ({ run }) => Number(run));
}

/** What stands in the cells of a run: by phase, and (null) in its first row. */
function textsThere(run: Run): (cell: Pick<GivenCell, "phase" | "column">) => string {
  const texts = new Map<PhaseName | null, ReadonlyMap<string, string>>();
  return ({ phase, column }) => {
    const known = texts.get(phase);
    if (known !== undefined) return known.get(column) ?? "";
    const of = run.phases.find((one) => phase === null || one.phase === phase);
    const found = new Map(of === undefined ? [] : phaseCells(run, of).map((cell) => [cell.column, cell.text]));
    texts.set(phase, found);
    return found.get(column) ?? "";
  };
}

/** Reads the cells of one run, by the rules by which a file's are read. */
export function readCells(
  item: number,
  given: readonly GivenCell[],
  content: Pick<StudyContent, "run" | "settings" | "head">,
  locale: Locale,
): ReadCells {
  const { record, screens, cellsOfRuns: words, quantities } = wordsFor(locale);
  const found = content.run(item);
  const all = (message: string) => given.map(({ phase, column }) => ({ run: String(item), phase, column, message }));
  if (found === null) return { before: null, count: 0, edited: null, refused: all(record.runGone) };
  const { run } = found;
  const before = { item, ...found };
  const there = textsThere(run);
  const refused: RefusedCell[] = [];
  const ofRun = new Map<string, string>();
  const changed: CellEdit[] = [];
  for (const cell of given) {
    const { phase, column, was } = cell;
    const text = cell.text.trim();
    const at = (message: string) => refused.push({ run: String(item), phase, column, message });
    const standsThere = there(cell);
    const isOfRun = isRunColumn(column);
    if (isResultName(column) && !run.phases.some((one) => there({ phase: one.phase, column }) !== "")) at(words.result);
    else if (!isCellColumn(column)) at(words.noColumn(column));
    else if (phase === null ? !isOfRun : !run.phases.some((one) => one.phase === phase)) {
      at(phase === null ? record.notACell(screens.reading(column)) : words.noPhase(run.name, quantities.phase[phase]));
    } else if (standsThere !== was && standsThere !== text) {
      at(record.cellChanged(screens.reading(column), was, standsThere));
    } else if (isOfRun && (ofRun.get(column) ?? text) !== text) at(words.twoTexts(screens.reading(column), run.name));
    else {
      const isAgain = isOfRun && ofRun.has(column);
      if (isOfRun) ofRun.set(column, text);
      if (standsThere !== text && !isAgain) changed.push({ phase: isOfRun ? null : phase, column, text });
    }
  }
  if (changed.length === 0) return { before, count: 0, edited: null, refused };
  const edited = editedRun(run, content.settings, cellsWithLasting(item, run, changed, content), locale);
  if (!edited.ok) {
    const problems = edited.problems.map((problem) => ({ run: String(item), ...problem }));
    return { before, count: 0, edited: null, refused: [...refused, ...problems] };
  }
  if (!isOrderKept(edited.run)) {
    const message = record.orderTooLarge(edited.run.name);
    const order = { run: String(item), phase: null, column: "order", message };
    return { before, count: 0, edited: null, refused: [...refused, order] };
  }
  return { before, count: changed.length, edited, refused };
}

/** Runs that would have the name of another: refused at the cells that name them so. */
function sameNames(read: ReadonlyMap<number, ReadCells>, { content, locale }: EditContext): RefusedCell[] {
  const names = new Map<number, string>();
  for (const { before, edited } of read.values()) {
    if (before !== null && edited !== null && edited.run.name !== before.run.name) {
      names.set(before.item, edited.run.name);
    }
  }
  if (names.size === 0) return [];
  const counts = new Map<string, number>();
  const kept = new Set<string>();
  for (const { run, name } of content.lines()) {
    const now = names.get(run) ?? name;
    counts.set(now, (counts.get(now) ?? 0) + 1);
    if (!names.has(run)) kept.add(name);
  }
  const { record, cellsOfRuns } = wordsFor(locale);
  return [...names].flatMap(([run, name]) => {
    if ((counts.get(name) ?? 0) < 2) return [];
    const message = kept.has(name) ? record.runNameTaken(name) : cellsOfRuns.sameName(name);
    return [{ run: String(run), phase: null, column: "run", message }];
  });
}

/** The head as it is once the variants are there that earlier runs of the edit are the first of; questions of one run alone. */
class GrowingHead {
  readonly #head: StoredHead;
  readonly #variants: Map<number, StoredHead["variants"] extends ReadonlyMap<number, infer V> ? V : never>;
  readonly #remarks: ReadonlyMap<number | null, readonly (readonly [number, StoredRemark])[]>;

  constructor(head: StoredHead) {
    this.#head = head;
    this.#variants = new Map(head.variants);
    this.#remarks = Map.groupBy(head.remarks, ([, { run }]) => run);
  }

  for(run: number): { readonly head: StoredHead } {
    const remarks = new Map(this.#remarks.get(run) ?? []);
    return { head: { ...this.#head, variants: this.#variants, remarks } };
  }

  follow(changes: readonly Change[]): void {
    for (const change of changes) {
      if (change.subject === "variant" && change.after !== null) this.#variants.set(change.item, change.after);
    }
  }
}

/** What was read of an edit before it is made, as far as it still holds. */
const aheadOf = new WeakMap<CellsOfRunsEdit, (content: StudyContent) => ReadonlyMap<number, ReadCells>>();

/** Reads the cells of an edit in slices, so that others do not wait for it; making the edit then takes what was read here. */
export async function readCellsAhead(session: StudySession, edit: CellsOfRunsEdit, locale: Locale): Promise<void> {
  const { content } = session;
  const { head, settings } = content;
  const seals = sealsOf(content);
  const read = new Map<number, ReadCells>();
  const turn = new Turn(session);
  for (const [run, cells] of cellsByRun(edit)) {
    if (seals.has(run)) read.set(run, readCells(run, cells, content, locale));
    if (turn.isOver) await turn.pause();
    if (content.head !== head || content.settings !== settings) return;
  }
  aheadOf.set(edit, (now) => {
    if (now.head !== head || now.settings !== settings) return new Map();
    const sealsNow = sealsOf(now);
    return new Map([...read].filter(([run]) => sealsNow.get(run) === seals.get(run)));
  });
}

const sealsOf = (content: StudyContent): ReadonlyMap<number, string> =>
  new Map(content.lines().map(({ run, seal }) => [run, seal]));

/** Cells of many runs, read by the rules by which a file's are read: all of them or none, each that does not fit named. */
export function cellsOfRunsEdit(edit: CellsOfRunsEdit, context: EditContext): Prepared {
  const { content, database, locale } = context;
  const ahead = aheadOf.get(edit)?.(content) ?? null;
  const read = new Map<number, ReadCells>();
  for (const [run, cells] of cellsByRun(edit)) {
    read.set(run, ahead?.get(run) ?? readCells(run, cells, content, locale));
  }
  const refused = [...[...read.values()].flatMap((one) => one.refused), ...sameNames(read, context)];
  if (refused.length > 0) {
    refuse(wordsFor(locale).cellsOfRuns.refused(edit.way, refused.length, edit.cells.length), refused);
  }
  const growing = new GrowingHead(content.head);
  const changes: Change[] = [];
  let [count, runs] = [0, 0];
  for (const { before, edited, count: ofRun } of read.values()) {
    if (before === null || edited === null) continue;
    const some = editedChanges(before, edited, growing.for(before.item), database);
    if (some.length === 0) continue;
    growing.follow(some);
    // Not spread: there may be very many.
    for (const change of some) changes.push(change);
    count += ofRun;
    runs += 1;
  }
  return { note: { what: "cellsOfRuns", about: { way: edit.way, count, runs }, why: null }, changes };
}
