import type { Locale } from "../../../core/index.ts";
import type { Edit, SetUpView } from "../../contract/index.ts";
import { refuse } from "../refused.ts";
import type { EditContext, Prepared } from "../study/prepared.ts";
import type { StudySession } from "../study/study-session.ts";

export function setUpEdit(_edit: Extract<Edit, { kind: "setUp" | "removeSetUp" }>, _context: EditContext): Prepared {
  refuse("");
}
export function setUpView(_session: StudySession, _locale: Locale): SetUpView {
  refuse("");
}
