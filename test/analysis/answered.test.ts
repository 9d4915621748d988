import { describe, expect, it } from "vitest";
import { withAnswers } from "../../core/analysis/answered.ts";
import type { Answer, Question } from "../../core/analysis/question.ts";

const question = (id: string, run: string | null): Question => ({
  id,
  ...{ rule: "odd", run, variant: null, phase: null, column: null, message: `${id}?` },
});
const answer: Answer = { because: "so it was", who: "Ama", at: "2026-11-25T14:07:00.000Z" };

const all = {
  questions: [question("s1", null), question("s2", null)],
  runQuestions: new Map([
    ["1", [question("a", "R1"), question("b", "R1")]],
    ["2", [question("c", "R2")]],
    ["3", []],
  ]),
  answered: [],
};
const answering = (...ids: readonly string[]) =>
  withAnswers(all, ({ id }) => (id !== undefined && ids.includes(id) ? answer : null));
const idsOf = (some: readonly Question[]) => some.map(({ id }) => id);

describe("questions that were answered", () => {
  it("are taken out of the open ones, wherever they are, and kept with their answers: the whole study's first", () => {
    const { questions, runQuestions, answered } = answering("b", "s2", "c");
    expect(idsOf(questions)).toEqual(["s1"]);
    expect([...runQuestions].map(([run, some]) => [run, idsOf(some)])).toEqual([
      ["1", ["a"]],
      ["2", []],
      ["3", []],
    ]);
    expect(answered).toEqual([
      { ...question("s2", null), answer },
      { ...question("b", "R1"), answer },
      { ...question("c", "R2"), answer },
    ]);
  });

  it("without answers nothing is closed; what was closed before stays so", () => {
    expect(answering()).toEqual(all);
    const again = withAnswers(answering("a"), ({ id }) => (id === "c" ? answer : null));
    expect(idsOf(again.answered)).toEqual(["a", "c"]);
  });
});
