import { emptySettingsFile, readReadings, readTable } from "../../../app/import/index.ts";
import type { Question } from "../../../core/analysis/question.ts";
import { analyseStudy } from "../../../core/analysis/study-results.ts";
import { phaseNames } from "../../../core/readings/phase.ts";
import type { Row } from "./good-study.ts";

/** What is said of a run: an error of the file, or a question. */
export interface Said {
  readonly rule: string;
  readonly run: string | null;
  readonly phase: string | null;
  readonly column: string | null;
  readonly message: string;
  readonly isError: boolean;
}

function csvOf(rows: readonly Row[]): string {
  const headings = [...new Set(rows.flatMap((row) => Object.keys(row)))];
  return [headings, ...rows.map((row) => headings.map((heading) => row[heading] ?? ""))]
    .map((cells) => cells.join(","))
    .join("\n");
}

/** Reads rows as a readings file and analyses them, as the command line does: all errors, or all questions. */
export function ask(rows: readonly Row[]): Said[] {
  const table = readTable(new TextEncoder().encode(csvOf(rows)), "readings.csv");
  const { study, problems } = readReadings({ table, settings: emptySettingsFile() });
  if (study === null) {
    return problems.map(({ rule, run, phase, column, message, severity }) => {
      return { rule, run, phase, column, message, isError: severity === "error" };
    });
  }
  const asked = problems.map(({ rule, run, phase, column, message }): Question => {
    return { rule, run, variant: null, phase: phaseNames.find((name) => name === phase) ?? null, column, message };
  });
  const { questions, runQuestions } = analyseStudy(study, "en", asked);
  return [...questions, ...[...runQuestions.values()].flat()].map((question) => ({ ...question, isError: false }));
}
