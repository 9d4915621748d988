import type { Locale } from "../../../core/index.ts";
import type { BenchClockView, BenchView, Edit, FurtherEntry } from "../../contract/index.ts";
import { refuse } from "../refused.ts";
import type { EditContext, Prepared } from "../study/prepared.ts";
import type { StudySession } from "../study/study-session.ts";

export type BenchEdit = Extract<
  Edit,
  { kind: "beginRun" | "benchForm" | "stamp" | "specimens" | "finishRun" | "abandonRun" | "takeUpRun" }
>;

export function benchEdit(_edit: BenchEdit, _context: EditContext): Prepared {
  refuse("");
}
export function benchView(
  _session: StudySession,
  _run: number | null,
  _locale: Locale,
  _entries: readonly FurtherEntry[],
): BenchView {
  refuse("");
}
export function benchClock(_session: StudySession, _run: number, _locale: Locale): BenchClockView | null {
  refuse("");
}
