/** Questions and what was answered to them. */

export { answerEdit } from "./answer-edit.ts";
export { questionView } from "./question-view.ts";
export { questionsView } from "./questions-view.ts";
