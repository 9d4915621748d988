import type { Locale, PhaseName } from "../../../core/index.ts";
import type { Edit, GridChoice, GridView } from "../../contract/index.ts";
import { refuse } from "../refused.ts";
import type { EditContext, Prepared } from "../study/prepared.ts";
import type { StudySession } from "../study/study-session.ts";

export function cellsOfRunsEdit(_edit: Extract<Edit, { kind: "cellsOfRuns" }>, _context: EditContext): Prepared {
  refuse("");
}
export async function gridView(
  _session: StudySession,
  _choice: GridChoice,
  _from: number,
  _count: number,
  _locale: Locale,
): Promise<GridView> {
  refuse("");
}
export async function gridRow(
  _session: StudySession,
  _choice: GridChoice,
  _run: number,
  _phase: PhaseName | null,
  _locale: Locale,
): Promise<number | null> {
  refuse("");
}
