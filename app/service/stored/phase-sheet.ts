import { neutralText, type Phase, type Reading, type Run } from "../../../core/index.ts";
import { fuelColumnNames, phaseCells } from "../../import/index.ts";
import { type CellEdit, rowText } from "./cell-edit.ts";
import { eachReading, textsOf } from "./read-off-phase.ts";

/** One phase while cells of it are edited: its row, and what stood in it, by column. */
export interface PhaseSheet {
  readonly before: Phase;
  readonly cells: ReadonlyMap<string, string>;
  /** Columns of the phase whose cells were edited. */
  readonly edited: ReadonlySet<string>;
  readonly isEdited: boolean;
  readonly readings: ReadonlyMap<string, Reading>;
  readonly texts: ReadonlyMap<string, string>;
}

const noEdits: ReadonlyMap<string, CellEdit> = new Map();

/** A map with some of its keys put in place of others. */
function renamed<T>(map: ReadonlyMap<string, T>, names: ReadonlyMap<string, string>): Map<string, T> {
  return new Map([...map].map(([key, value]) => [names.get(key) ?? key, value]));
}

/** New names of the fuel entries' columns where one between others was emptied: entries have no gaps between them. */
function movedFuels(cells: ReadonlyMap<string, string>): ReadonlyMap<string, string> | null {
  const moved = new Map<string, string>();
  let next = 1;
  fuelColumnNames.forEach((names, index) => {
    if (index === 0 || !Object.values(names).some((name) => cells.has(name))) return;
    const place = fuelColumnNames[next];
    next += 1;
    if (place === undefined || place === names) return;
    for (const part of Object.keys(names) as (keyof typeof names)[]) moved.set(names[part], place[part]);
  });
  return moved.size === 0 ? null : moved;
}

function setCell(cells: Map<string, string>, edit: CellEdit): void {
  const text = rowText(edit);
  if (text === "") cells.delete(edit.column);
  else cells.set(edit.column, text);
}

/**
 * The row of a phase with cells edited: `written` gives the row, `before` what stood there. An edit of the phase that leaves a
 * cell as it is shown is none; those of the run are given without such.
 */
export function phaseSheet(
  written: Run,
  before: Phase,
  ofRun: ReadonlyMap<string, CellEdit> = noEdits,
  ofPhase: ReadonlyMap<string, CellEdit> = noEdits,
): PhaseSheet {
  const cells = new Map<string, string>();
  const shown = new Map<string, string>();
  for (const { column, text, cell } of phaseCells(written, before)) {
    cells.set(column, typeof cell === "string" ? neutralText(text) : text);
    shown.set(column, text);
  }
  for (const edit of ofRun.values()) setCell(cells, edit);
  const edited = new Set<string>();
  for (const edit of ofPhase.values()) {
    if (edit.text === (shown.get(edit.column) ?? "")) continue;
    edited.add(edit.column);
    setCell(cells, edit);
  }
  const readings = new Map<string, Reading>();
  eachReading(before, (column, reading) => readings.set(column, reading));
  const texts = textsOf(before);
  const moved = movedFuels(cells);
  if (moved === null) return { before, cells, edited, isEdited: edited.size > 0, readings, texts };
  // What was emptied is gone before others take its place.
  for (const column of edited) {
    if (cells.has(column)) continue;
    readings.delete(column);
    texts.delete(column);
  }
  return {
    before,
    cells: renamed(cells, moved),
    isEdited: true,
    edited: new Set([...edited].filter((column) => cells.has(column)).map((column) => moved.get(column) ?? column)),
    readings: renamed(readings, moved),
    texts: renamed(texts, moved),
  };
}
