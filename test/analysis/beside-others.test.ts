import { describe, expect, test } from "vitest";
import { emptySettingsFile, readReadings, readTable } from "../../app/import/index.ts";
import { BesideOthers } from "../../core/analysis/beside-others.ts";
import type { RunFacts } from "../../core/analysis/run-facts.ts";
import { studyQuestions } from "../../core/analysis/study-questions.ts";
import { analyseRun } from "../../core/analysis/study-results.ts";
import { csvText, defaultSettings } from "../../core/index.ts";
import { drawFrom, goodStudy, type Row } from "./slips/good-study.ts";
import { slipKinds } from "./slips/slip-kinds.ts";

const settings = defaultSettings();

function factsOf(rows: readonly Row[]): readonly RunFacts[] {
  const headings = [...new Set(rows.flatMap((row) => Object.keys(row)))];
  const text = csvText([headings, ...rows.map((row) => headings.map((heading) => row[heading] ?? ""))]);
  const table = readTable(new TextEncoder().encode(text), "x.csv");
  const runs = readReadings({ table, settings: emptySettingsFile() }).study?.runs ?? [];
  return runs.map((run) => analyseRun(run, settings, "en").facts);
}

/** The facts with one run still being made. */
const making = (facts: readonly RunFacts[], name: string): readonly RunFacts[] =>
  facts.map((one): RunFacts => (one.name === name ? { ...one, leftOut: "not finished", onBench: true } : one));

const rulesOf = (
  questions: readonly {
    readonly rule: string;
    readonly phase: string | null;
    readonly column: string | null;
    readonly message: string;
  }[],
) => questions.map(({ rule, phase, column, message }) => [rule, phase, column, message]);

describe("questions about a run that is being made", () => {
  let asked = 0;
  test.for(slipKinds.map((kind, index) => [kind.name, kind, index] as const))(
    "%s: beside the others alone they are those of the whole study",
    { timeout: 120_000 },
    ([, kind, index]) => {
      for (let seed = 300_000 + index * 1000; seed < 300_003 + index * 1000; seed += 1) {
        const study = goodStudy(seed);
        const rows = study.rows.map((row) => ({ ...row }));
        const name = kind.make(rows, drawFrom(seed), study);
        if (name === null) continue;
        const facts = making(factsOf(rows), name);
        const run = facts.find((one) => one.name === name);
        // What no run can be is refused by the reading.
        if (run === undefined) continue;
        const whole = studyQuestions(facts, settings, "en").runQuestions.get(run.id) ?? [];
        const others = new BesideOthers(facts.filter((one) => one !== run));
        const alone = others.questionsOf(run, settings, [], "en");
        expect(rulesOf(alone)).toEqual(rulesOf(whole));
        asked += alone.length;
      }
    },
  );
  test("and there are many of them", () => {
    expect(asked).toBeGreaterThan(40);
  });

  test("a run that is being made changes nothing that is asked about others", () => {
    for (let seed = 1; seed < 6; seed += 1) {
      const study = goodStudy(seed);
      const all = factsOf(study.rows);
      const odd = all.at(-1)?.name ?? "";
      const facts = making(all, odd);
      const without = studyQuestions(
        all.filter(({ name }) => name !== odd),
        settings,
        "en",
      );
      const { runQuestions } = studyQuestions(facts, settings, "en");
      for (const { id, name } of all) {
        if (name !== odd)
          expect(rulesOf(runQuestions.get(id) ?? [])).toEqual(rulesOf(without.runQuestions.get(id) ?? []));
      }
    }
  });
});
