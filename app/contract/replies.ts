import type { BenchClockView, BenchView } from "./bench-views.ts";
import type { PlanView, TableCompared } from "./comparison-views.ts";
import type { GridView } from "./grid-views.ts";
import type { ExportKind, RequestKind } from "./requests.ts";
import type { SetUpView } from "./set-up-views.ts";
import type { ComparisonBudgetView, MonteCarloView, ResultBudgetView } from "./uncertainty-views.ts";
import type {
  BackupsView,
  CellHistoryView,
  CompareEmptyView,
  CompareView,
  EditedView,
  ExportedFile,
  FilesAnalysed,
  ImportView,
  QuestionsView,
  RecordView,
  ReportView,
  RunsView,
  ShelfView,
  StudyState,
  StudyView,
} from "./views.ts";

/** What each request is answered with when it succeeds. */
export interface ReplyValues {
  "study.show": StudyView;
  "study.state": StudyState;
  "shelf.show": ShelfView;
  "study.open": StudyView;
  "study.create": StudyView;
  "study.receive": StudyView;
  "study.openExample": StudyView;
  "study.saveCopy": { readonly fileName: string };
  "edit.make": EditedView;
  "edit.undo": EditedView;
  "edit.redo": EditedView;
  "cell.history": CellHistoryView;
  "record.show": RecordView;
  "backups.show": BackupsView;
  "backups.make": BackupsView;
  "backups.ofPlace": BackupsView;
  "backups.open": StudyView;
  "backups.goBack": StudyView;
  "runs.show": RunsView;
  "grid.show": GridView;
  "grid.find": { readonly row: number | null };
  "questions.show": QuestionsView;
  "bench.show": BenchView;
  "bench.clock": BenchClockView | null;
  "setup.show": SetUpView;
  "import.check": ImportView;
  "import.mend": ImportView;
  "import.accept": StudyView;
  "compare.show": { readonly comparison: CompareView } | { readonly nothing: CompareEmptyView };
  "budget.ofResult": ResultBudgetView;
  "budget.ofComparison": ComparisonBudgetView;
  "monteCarlo.show": MonteCarloView;
  "monteCarlo.start": MonteCarloView;
  "monteCarlo.cancel": MonteCarloView;
  "report.prepare": ReportView;
  "sheets.print": ExportedFile;
  "files.analyse": FilesAnalysed;
  "table.compare": TableCompared;
  "plan.runs": PlanView;
  export: ExportedFile;
}

/** Why a request was not done: `refused` is the asker's to mend, `failed` is ours. The message says what happened and what to do. */
export interface Refusal {
  readonly ok: false;
  readonly reason: "refused" | "failed";
  readonly message: string;
  /** Where it was refused for what cells hold: which, and why each. */
  readonly cells?: readonly RefusedCell[];
}

/** A cell that does not fit. */
export interface RefusedCell {
  readonly run: string;
  readonly phase: string | null;
  readonly column: string;
  readonly message: string;
}

export type Reply<K extends RequestKind = RequestKind> =
  | { readonly ok: true; readonly value: ReplyValues[K] }
  | Refusal;

/**
 * The one door. Every host (desktop, browser, command line) hands what it was sent to `ask`, as it came; the door checks it
 * against the schema and never throws.
 */
export interface Door {
  ask(message: unknown): Promise<Reply>;
  /** The report preview that `report.prepare` made, as a whole HTML document with its policy; null where there is none of that name. */
  preview(id: string): { readonly html: string; readonly contentSecurityPolicy: string } | null;
  /** For hosts alone, never for a page: opens the study file at a path of this machine. The reply names the open study. */
  openFile(path: string): Promise<{ readonly ok: true; readonly study: string } | Refusal>;
  /** Writes back, backs up and lets go of every open study. */
  close(): Promise<void>;
}

export type { ExportKind };
