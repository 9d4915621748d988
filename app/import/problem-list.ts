import { type Locale, type Problem, type Words, wordsFor } from "../../core/index.ts";

import { mostProblems } from "./limits.ts";

/** Where something is wrong; what is not given is the whole file, row or column. */
export interface Place {
  readonly row?: number;
  readonly column?: string;
  readonly cell?: string;
  readonly run?: string;
  readonly phase?: string;
}

/** Longest text of a cell that a problem carries along. */
const longestCell = 10_000;

/** Gathers the problems of one file, in the order in which they are found. */
export interface ProblemList {
  readonly locale: Locale;
  readonly words: Words["problems"];
  readonly problems: Problem[];
  /** More were found than are listed. */
  readonly isFull: boolean;
  error(rule: string, place: Place, message: string): void;
  question(rule: string, place: Place, message: string): void;
}

export function problemList(
  file: string,
  locale: Locale,
  words: Words["problems"] = wordsFor(locale).problems,
): ProblemList {
  const problems: Problem[] = [];
  let isFull = false;
  const add = (severity: Problem["severity"], rule: string, place: Place, message: string) => {
    if (problems.length >= mostProblems) {
      isFull = true;
      return;
    }
    const cell = place.cell ?? null;
    problems.push({
      severity,
      rule,
      file,
      row: place.row ?? null,
      column: place.column ?? null,
      cell: cell !== null && cell.length > longestCell ? `${cell.slice(0, longestCell)}…` : cell,
      run: place.run ?? null,
      phase: place.phase ?? null,
      message,
    });
  };
  return {
    locale,
    words,
    problems,
    get isFull() {
      return isFull;
    },
    error: (rule, place, message) => add("error", rule, place, message),
    question: (rule, place, message) => add("question", rule, place, message),
  };
}
