import { describe, expect, it } from "vitest";
import { runFacts } from "../../core/analysis/run-facts.ts";
import * as asked from "../../core/analysis/study-questions.ts";
import type { Method } from "../../core/readings/phase.ts";
import { defaultSettings, type Settings } from "../../core/readings/settings.ts";
import type { Run } from "../../core/readings/study.ts";
import { buildRun, buildSettings, plainRun } from "../build/readings.ts";

const factsOf = (runs: readonly Run[], settings: Settings) => runs.map((run) => runFacts(run, settings));
const calorificQuestions = (runs: readonly Run[], settings: Settings, locale: "en") =>
  asked.calorificQuestions(factsOf(runs, settings), settings, locale);
const methodQuestions = (runs: readonly Run[], method: Method, locale: "en") =>
  asked.methodQuestions(factsOf(runs, defaultSettings()), method, locale);

describe("questions about the whole study", () => {
  const run = buildRun(plainRun("R01", "A"));
  const [phase] = run.phases;
  if (phase === undefined) throw new Error("the built run has no phase");
  const [entry] = phase.fuels;
  if (entry === undefined) throw new Error("the built phase has no fuel");
  const withFuel = (fuel: string | null) => ({
    ...run,
    phases: [{ ...phase, fuels: [{ ...entry, fuel, calorific: null }] }],
  });

  it("a fuel without any calorific value is asked about once, with the number of runs", () => {
    const questions = calorificQuestions(
      [withFuel("bark"), withFuel("bark"), withFuel("reed")],
      defaultSettings(),
      "en",
    );
    expect(questions.map(({ rule }) => rule)).toEqual(["noCalorific", "noCalorific"]);
    expect(questions[0]?.message).toMatch(/“bark”.*2 runs/);
    expect(questions[1]?.message).toMatch(/“reed”.*1 run\)/);
  });

  it("a value in the row or under the fuel's name answers it", () => {
    const settings = buildSettings({ bark: { gross: 19_300 } });
    expect(calorificQuestions([withFuel("bark")], settings, "en")).toEqual([]);
    expect(calorificQuestions([run], defaultSettings(), "en")).toEqual([]);
    expect(calorificQuestions([withFuel(null)], settings, "en")).toHaveLength(1);
  });

  it("runs of another method than the study's are asked about; left-out ones are not", () => {
    expect(methodQuestions([run], "wbt", "en")).toEqual([]);
    expect(methodQuestions([run], "iso", "en")).toMatchObject([{ rule: "otherMethod", run: null }]);
    expect(methodQuestions([{ ...run, leftOut: "gust" }], "iso", "en")).toEqual([]);
  });
});
