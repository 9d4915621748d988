import { wordsFor } from "../../../core/index.ts";
import type { Edit } from "../../contract/index.ts";
import type { Change } from "../../store/index.ts";
import { refuse } from "../refused.ts";
import type { EditContext, Prepared } from "../study/prepared.ts";
import { answerRemark, answersOf } from "./answers.ts";

/** Answers a question, or takes an answer back. An answer to a question that has one stands in its place. */
export function answerEdit(
  edit: Extract<Edit, { kind: "answer" | "reopen" }>,
  { content, database, who, locale }: EditContext,
): Prepared {
  const words = wordsFor(locale).screens.questions;
  const found = content.overview().asked.find(({ question }) => question.id === edit.question);
  if (found === undefined) refuse(words.gone);
  const { question, runId } = found;
  const about = { run: runId === null ? null : question.run };
  const kept = answersOf(content.head).get(edit.question);
  if (edit.kind === "reopen") {
    if (kept === undefined) refuse(words.isOpen);
    return {
      note: { what: "reopen", about, why: null },
      changes: [{ subject: "remark", item: kept.item, after: null }],
    };
  }
  const { because } = edit;
  const { rule, phase, column, message } = question;
  const at = new Date().toISOString();
  const after = answerRemark(runId === null ? null : Number(runId), {
    ...{ question: edit.question, rule, phase, column, message },
    ...{ because, who, at },
  });
  const isSame = kept?.answer.because === because && kept.answer.who === who;
  const item = kept?.item ?? database.nextItem("remark");
  const changes: Change[] = isSame ? [] : [{ subject: "remark", item, after }];
  return { note: { what: "answer", about, why: because }, changes };
}
