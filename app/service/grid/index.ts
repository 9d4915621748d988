import type { Locale, PhaseName } from "../../../core/index.ts";
import type { GridChoice, GridView } from "../../contract/index.ts";
import type { StudySession } from "../study/study-session.ts";
import { GridDesk } from "./grid-desk.ts";

export { cellsOfRunsEdit, readCellsAhead } from "./cells-of-runs.ts";

const desks = new WeakMap<StudySession, GridDesk>();

function deskOf(session: StudySession, locale: Locale): GridDesk {
  const desk = desks.get(session) ?? new GridDesk(session, locale);
  desks.set(session, desk);
  return desk;
}

/** A part of the grid of readings and results: `count` rows from `from` on, in the order of the choice. */
export function gridView(
  session: StudySession,
  choice: GridChoice,
  from: number,
  count: number,
  locale: Locale,
): Promise<GridView> {
  return deskOf(session, locale).view(choice, from, count);
}

/** Place of a run's phase in that order, null phase: of its first row; null where it is not among the rows. */
export function gridRow(
  session: StudySession,
  choice: GridChoice,
  run: number,
  phase: PhaseName | null,
  locale: Locale,
): Promise<number | null> {
  return deskOf(session, locale).row(choice, run, phase);
}
