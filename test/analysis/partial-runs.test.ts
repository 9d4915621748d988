import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { coreRun, editedRun } from "../../app/service/stored/index.ts";
import type { StoredRun } from "../../app/store/content.ts";
import { BesideOthers } from "../../core/analysis/beside-others.ts";
import type { RunFacts } from "../../core/analysis/run-facts.ts";
import { analyseRun } from "../../core/analysis/study-results.ts";
import { soFar } from "../../core/bench/so-far.ts";
import { UsualReadings } from "../../core/bench/usual-readings.ts";
import { defaultSettings, phaseNames, procedureSteps, type Run, studyQuestions } from "../../core/index.ts";
import { oneRun, type Written } from "../bench-run/one-run.ts";

const settings = defaultSettings();
const form = { pots: 1, charAtHotStart: true, emissions: false } as const;
const phases = phaseNames.slice(0, 3);

function runWith(id: number, cells: readonly Written[], leftOut: string | null): Run {
  const stored: StoredRun = {
    ...{ name: `R${id}`, position: id, variant: 1, method: "wbt", date: "2026-03-10", order: id, block: "1" },
    ...{ operator: "Ada", leftOut: "not finished", levels: new Map(), attachment: null },
    phases: phases.map((phase) => {
      return { phase, timing: "time", sourceRow: null, readings: new Map(), texts: new Map() };
    }),
  };
  const blank = coreRun(stored, id, { name: "plain", position: 0, levels: new Map() });
  const edits = cells.map(([phase, column, text]) => ({ phase, column, text }));
  const result = editedRun(blank, settings, edits, "en");
  return result.ok ? { ...result.run, leftOut } : expect.fail(result.problems.map(({ message }) => message).join(" "));
}

/** A whole run, in which what is read once stands in each phase, a little off from the others. */
const whole = (shift: number): Written[] => [
  ...oneRun.map(([phase, column, text]): Written => {
    const isMass = /fuel_end_g|pot1_end_g/.test(column);
    return [phase, column, isMass ? String(Number(text) - shift) : text];
  }),
  ...(["hot-start", "simmer"] as const).flatMap((phase): Written[] => [
    [phase, "moisture_wet_percent", "11.2"],
    [phase, "pot1_empty_g", "612"],
    [phase, "char_container_g", "212"],
    [phase, "boiling_C", "94.6"],
    [phase, "air_C", "18.5"],
  ]),
  ["hot-start", "char_with_container_g", "259"],
  ["simmer", "char_at_start_g", "47"],
];

const others = [1, 2, 3, 4, 5].map((id) => runWith(id, whole(id * 3), null));
const otherFacts = others.map((run) => analyseRun(run, settings, "en").facts);
const nonsense = /NaN|undefined|Infinity|null|\[object/;

describe("a run in which readings lack", () => {
  test("no question, result or usual value says nonsense, whatever there is by then", () => {
    const beside = new BesideOthers(otherFacts);
    let asked = 0;
    const slip = fc.constantFrom(1, 1, 1, 0.1, 10, 1.8);
    const anyCells = fc.tuple(fc.subarray(whole(8)), fc.nat(), slip);
    fc.assert(
      fc.property(anyCells, ([some, at, factor]) => {
        const cells = some.map((cell, index): Written => {
          const [phase, column, text] = cell;
          const value = Number(text) * factor;
          const isOdd = index === at % some.length && /_(g|C)$/.test(column) && value < 105;
          return isOdd ? [phase, column, String(Math.round(value * 10) / 10)] : cell;
        });
        let run: Run;
        try {
          run = runWith(9, cells, "not finished");
        } catch {
          // What cannot be is refused; that is told elsewhere.
          return;
        }
        const facts: RunFacts = { ...analyseRun(run, settings, "en").facts, onBench: true };
        const messages = [
          ...beside.questionsOf(facts, settings, [], "en"),
          ...(studyQuestions([...otherFacts, facts], settings, "en").runQuestions.get(run.id) ?? []),
          ...studyQuestions([...otherFacts, { ...facts, leftOut: "dropped" }], settings, "en").questions,
        ].map(({ message }) => message);
        asked += messages.length;
        const texts = new Map(
          phases.map((phase) => [
            phase,
            new Map(cells.filter(([one]) => one === phase).map(([, c, text]) => [c, text])),
          ]),
        );
        const cellsOf = (phase: (typeof phases)[number]) => texts.get(phase) ?? new Map<string, string>();
        const isRecorded = ({ phase, column }: { phase: (typeof phases)[number] | null; column: string }) =>
          phase !== null && cellsOf(phase).has(column);
        const results = soFar(run, settings, form, phases, isRecorded, "en").flatMap((one) => one.results);
        const usual = new UsualReadings(run, otherFacts, "en");
        const fields = procedureSteps("wbt", form).flatMap((step) => step.fields);
        const said = [
          ...messages,
          ...results.map(({ text, because }) => text ?? because ?? expect.fail("neither a result nor why not")),
          ...fields.flatMap((field) => usual.at(field, cellsOf, null) ?? []),
        ];
        for (const one of said) expect(one).not.toMatch(nonsense);
      }),
      { numRuns: 150 },
    );
    expect(asked).toBeGreaterThan(50);
  }, 120_000);

  test("one that was left out half-way is asked nothing about char that was never at issue", () => {
    const cells = whole(8).filter(([phase]) => phase !== "simmer");
    const run = runWith(9, cells, "rain");
    const { questions } = analyseRun(run, settings, "en").facts;
    expect(questions.map(({ rule }) => rule)).not.toContain("charAtStartEmpty");
  });
});
