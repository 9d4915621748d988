import { budgetText, type Locale, runBudget, statesErrors, wordsFor } from "../../../core/index.ts";
import type { ResultBudgetView } from "../../contract/index.ts";
import { refuse } from "../refused.ts";
import type { StudySession } from "../study/study-session.ts";
import { type AskedResult, resultOfRun } from "./result-of-run.ts";

/** What the uncertainty of one result of a run is made of. Refused where the run has no such result. */
export function resultBudget(session: StudySession, asked: AskedResult, locale: Locale): ResultBudgetView {
  const { run, key, keyText } = resultOfRun(session, asked, locale);
  const { settings } = session.content;
  const budget = runBudget(run, settings, keyText);
  if (budget === null) refuse(wordsFor(locale).screens.uncertainty.noResult(run.name));
  return { budget: budgetText(budget, key, settings.confidence, locale), hasErrors: statesErrors(settings) };
}
