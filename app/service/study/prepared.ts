import type { Locale } from "../../../core/index.ts";
import type { Change, EditNote, StudyDatabase } from "../../store/index.ts";
import type { StudyContent } from "./study-content.ts";

/** What an edit is prepared from. */
export interface EditContext {
  readonly content: StudyContent;
  readonly database: StudyDatabase;
  readonly who: string;
  readonly locale: Locale;
}

/** An edit as the file takes it. */
export interface Prepared {
  readonly note: Omit<EditNote, "who">;
  readonly changes: readonly Change[];
  /** The run that it begins, where it begins one. */
  readonly run?: string;
}
