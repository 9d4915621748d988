import {
  formatFixed,
  type Locale,
  neutralText,
  type PhaseName,
  type Problem,
  type Run,
  wordsFor,
} from "../../../core/index.ts";
import { factorOf, isLayoutColumn, isOtherHeading, layoutColumns, longestCell } from "../../import/index.ts";

/** One cell that a person fills in. */
export interface CellEdit {
  /** Null for a column of the whole run: `run`, `variant`, `date`, `order`, `block`, `operator`, `excluded`, `factor:NAME`. */
  readonly phase: PhaseName | null;
  /** Column of the readings layout, or a heading that it does not know. */
  readonly column: string;
  /** In the layout's unit; "" empties the cell. */
  readonly text: string;
}

/** Why an edit is refused, at the cell where it shows. */
export interface CellProblem {
  /** Null for a column of the whole run. */
  readonly phase: PhaseName | null;
  readonly column: string;
  /** What is wrong and what to do about it, for a person. */
  readonly message: string;
}

const layout = new Map(layoutColumns.map((column) => [column.name, column]));

/** Whether a column belongs to the whole run. */
export function isRunColumn(column: string): boolean {
  return layout.get(column)?.ofRun ?? factorOf(column) !== null;
}

/** Whether a column is one that a row can have cells of: of the layout, a factor, or a heading that a file's would be kept under. */
export function isCellColumn(column: string): boolean {
  const factor = factorOf(column);
  if (factor !== null) return factor.trim() !== "";
  return column !== "phase" && (isLayoutColumn(column) || isOtherHeading(column));
}

/** The place of an edit, or of a problem, as one text. */
export function placeKey(phase: string | null, column: string): string {
  return isRunColumn(column) ? `/${column}` : `${phase}/${column}`;
}

/** A text as the row of a file has it. */
export function rowText({ column, text }: CellEdit): string {
  const trimmed = text.trim();
  const content = layout.get(column)?.content ?? "text";
  return content === "text" ? neutralText(trimmed) : trimmed;
}

/**
 * The edits by phase and column; of two at one place the later. Null as phase holds those of the whole run.
 *
 * @throws RangeError where the run has no such phase or no phase at all, or a row no such column: pages offer none of these
 */
export function editsByPhase(
  run: Run,
  edits: readonly CellEdit[],
): ReadonlyMap<PhaseName | null, ReadonlyMap<string, CellEdit>> {
  if (run.phases.length === 0) throw new RangeError("a run without phases has no cells");
  const byPhase = new Map<PhaseName | null, Map<string, CellEdit>>();
  for (const edit of edits) {
    const phase = isRunColumn(edit.column) ? null : edit.phase;
    const isThere = phase === null ? isRunColumn(edit.column) : run.phases.some((one) => one.phase === phase);
    if (!(isThere && isCellColumn(edit.column))) throw new RangeError(`no cell ${edit.phase ?? "run"} ${edit.column}`);
    const ofPhase = byPhase.get(phase);
    if (ofPhase === undefined) byPhase.set(phase, new Map([[edit.column, edit]]));
    else ofPhase.set(edit.column, edit);
  }
  return byPhase;
}

/** Texts that no file could hold. */
export function textProblems(edits: readonly CellEdit[], locale: Locale): CellProblem[] {
  const { entry } = wordsFor(locale).problems;
  return edits.flatMap(({ phase, column, text }) => {
    const at = (message: string) => [{ phase: isRunColumn(column) ? null : phase, column, message }];
    if (text.length > longestCell) return at(entry.cell.tooLong({ limit: formatFixed(longestCell, 0, locale) }));
    return text.includes("\0") || !text.isWellFormed() ? at(entry.unreadableText()) : [];
  });
}

/** Problems of reading as those of cells; what is wrong with a value of the run is said once. */
export function cellProblems(problems: readonly Problem[]): CellProblem[] {
  const found = new Map<string, CellProblem>();
  for (const { phase, column, message } of problems) {
    const at = column ?? "run";
    const problem = { phase: isRunColumn(at) ? null : (phase as PhaseName | null), column: at, message };
    found.set(`${placeKey(phase, at)} ${message}`, problem);
  }
  return [...found.values()];
}
