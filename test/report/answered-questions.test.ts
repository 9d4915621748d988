import { describe, expect, it } from "vitest";
import { withAnswers } from "../../core/analysis/answered.ts";
import type { Question } from "../../core/analysis/question.ts";
import { analyseStudy, type StudyResults } from "../../core/analysis/study-results.ts";
import { buildReport, firstChoice } from "../../core/report/build-report.ts";
import type { ReportBlock } from "../../core/report/report-document.ts";
import { resultsFile } from "../../core/report/results-file.ts";
import { runsTable } from "../../core/report/runs-table.ts";
import { wordsFor } from "../../core/words/index.ts";
import { buildStudy } from "../build/readings.ts";
import { baselineA, longerB, provenance } from "./duration-study.ts";

/** Two questions that arose in reading: one of a run, one of the study. Their answers close them. */

const words = wordsFor("en").report;
const answer = { because: "the fan was on", who: "Ama <b>", at: "2026-11-25T14:07:00.000Z" };
const ofRun: Question = {
  ...{ rule: "odd", run: "A2", variant: "A", phase: "cold-start", column: "air_C" },
  message: "Was the air really 44 °C?",
};
const ofStudy: Question = {
  ...{ rule: "few", run: null, variant: "A", phase: null, column: null },
  message: "Are there no more runs?",
};

function results(answered: readonly Question[]): StudyResults {
  const open = analyseStudy(buildStudy([...baselineA, ...longerB]), "en", [ofRun, ofStudy]);
  const messages = answered.map(({ message }) => message);
  return { ...open, ...withAnswers(open, ({ message }) => (messages.includes(message) ? answer : null)) };
}

const fileOf = (answered: readonly Question[]) => resultsFile(results(answered), provenance, "A");
const runOf = (file: ReturnType<typeof fileOf>, name: string) => file.runs.find(({ run }) => run === name);

describe("answered questions in results.json", () => {
  it("stand beside the open ones, with why, who and when", () => {
    const file = fileOf([ofRun, ofStudy]);
    expect(runOf(file, "A2")).toMatchObject({
      questions: [],
      answeredQuestions: [{ phase: "cold-start", column: "air_C", message: ofRun.message, ...answer }],
    });
    expect(file.questions).toEqual([]);
    expect(file.answeredQuestions).toEqual([{ variant: "A", column: null, message: ofStudy.message, ...answer }]);
    expect(runOf(file, "A1")).not.toHaveProperty("answeredQuestions");
  });

  it("are not named where there are none: the file is as it ever was", () => {
    const file = fileOf([]);
    expect(JSON.stringify(file)).not.toContain("answeredQuestions");
    expect(runOf(file, "A2")?.questions).toEqual([{ phase: "cold-start", column: "air_C", message: ofRun.message }]);
    expect(file.questions.map(({ message }) => message)).toContain(ofStudy.message);
  });

  it("change no other result, and no line of the table of runs", () => {
    const { runs: _, questions, ...rest } = fileOf([]);
    const { runs: __, questions: after, answeredQuestions: ___, ...restAfter } = fileOf([ofRun, ofStudy]);
    expect(restAfter).toEqual(rest);
    expect(questions.length - after.length).toBe(1);
    expect(runsTable(results([ofRun, ofStudy]))).toEqual(runsTable(results([])));
  });
});

describe("answered questions in the report", () => {
  const blocksOf = (answered: readonly Question[]): readonly ReportBlock[] => {
    const one = results(answered);
    return buildReport(one, provenance, firstChoice(one)).blocks;
  };
  const questionsOf = (answered: readonly Question[]) => {
    const blocks = blocksOf(answered);
    const start = blocks.findIndex((block) => block.kind === "heading" && block.text === words.questions);
    const end = blocks.findIndex((block) => block.kind === "heading" && block.text === words.method);
    return blocks.slice(start + 1, end);
  };
  const warnings = (answered: readonly Question[]) =>
    JSON.stringify(blocksOf(answered).filter((block) => block.kind === "aside" && block.title === words.before));

  it("are listed in the annex with their reason and by whom, after those that are open", () => {
    const [open, heading, closed, ...more] = questionsOf([ofRun]);
    expect(open).toMatchObject({ kind: "list", items: [ofStudy.message] });
    expect(heading).toMatchObject({ kind: "heading", level: 3, text: "Answered questions" });
    const item = `A2, cold start: ${ofRun.message} It is right, because: the fan was on (Ama <b>, 2026-11-25)`;
    expect(closed).toMatchObject({ kind: "list", items: [item] });
    expect(more).toEqual([]);
  });

  it("are not counted among the open ones of page one", () => {
    expect(warnings([])).toMatch(/2 questions are open/);
    expect(warnings([ofRun])).toMatch(/One question is open/);
    expect(warnings([ofRun, ofStudy])).not.toMatch(/open/);
    expect(questionsOf([ofRun, ofStudy])[0]).toMatchObject({ kind: "paragraph", text: "No question is open." });
  });

  it("and without any there is no heading for them", () => {
    expect(questionsOf([])).toHaveLength(1);
  });
});
