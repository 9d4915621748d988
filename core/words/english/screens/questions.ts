import { count } from "./count.ts";

/** What lists of questions and their answers say. */
export const questions = {
  itIsRight: "It is right, because …",
  /** Names the button among others: "It is right, because …: R07, simmer, end". */
  itIsRightAt: (where: string) => `It is right, because …: ${where}`,
  because: "It is right, because",
  keys: "Enter saves · Escape takes it back",
  save: "Save the answer",
  cancel: "Not now",
  reasonNeeded: "Say first why it is right.",

  noneOpen: "No question is open.",
  answered: (n: number) => count(n, "answered question", "answered questions"),
  answeredLead: "Closed and kept. When a reading is changed, what is asked about it is asked anew.",
  answer: (because: string) => `It is right, because: ${because}`,
  moreInRuns: (n: number) =>
    `${count(n, "more question is", "more questions are")} open: Runs marks each at its cell and steps through them.`,
  reopen: "Open again",
  reopenAt: (where: string) => `Open again: ${where}`,
  /** Where readings and settings are handed over as files. */
  notInFiles: "Answers to questions stay in the study file.",

  gone: "This question is not asked any more: the reading was changed meanwhile. Look at the questions again.",
  isOpen: "This question is open already.",
};
