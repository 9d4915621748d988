import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { questionsOfRun } from "../../core/analysis/questions.ts";
import { questionRules } from "../../core/analysis/rule-set.ts";
import { resultsOf } from "../build/expect-quantities.ts";
import { buildSettings, type PhaseSheet, plainPhase } from "../build/readings.ts";

/** Limits: common practice; they are those of stove-questions.ts, worked out by hand for 5 L, 25 min and 600 g of wood. */
const asked = (phase: PhaseSheet) =>
  questionsOfRun(resultsOf({ run: "R", variant: "A", phases: [phase] }), buildSettings(), "en");
const rulesOf = (phase: PhaseSheet) => asked(phase).map(({ rule }) => rule);
const pot = { empty: 600, start: 5600, from: 25, to: 98 };
const wood = (before: number) => plainPhase("cold-start", { fuels: [{ wet: 10, net: 18_500, before, after: 900 }] });
const weighed = (withContainer: number) => plainPhase("cold-start", { char: { container: 250, withContainer } });

describe("what no stove for a pot does", () => {
  it.each([
    // 40 % of 5000 g, and 80 g/min for 25 min.
    [
      "muchWaterLost",
      plainPhase("cold-start", { pots: [{ ...pot, end: 3600 }] }),
      plainPhase("cold-start", { pots: [{ ...pot, end: 3599 }] }),
    ],
    // 90 g/min for 25 min is 2250 g; 1 g/min is 25 g.
    ["muchWood", wood(3150), wood(3151)],
    ["littleWood", wood(925), wood(924)],
    ["longBoil", plainPhase("hot-start", { minutes: 150 }), plainPhase("hot-start", { minutes: 150.1 })],
    // 0.4 % of 600 g of wood.
    ["noChar", weighed(252.4), weighed(252.3)],
  ] as const)("%s: within its limit no, beyond it yes", (rule, within, beyond) => {
    expect(rulesOf(within)).not.toContain(rule);
    expect(rulesOf(beyond)).toContain(rule);
  });

  it("a balance in steps of 10 g may show no char of a small fire", () => {
    // 3 % of 330 g is less than a step, of 340 g more.
    const coarse = (before: number) =>
      plainPhase("cold-start", {
        fuels: [{ wet: 10, net: 18_500, before, after: 900 }],
        char: { container: 250, withContainer: 250 },
      });
    expect(rulesOf(coarse(1230))).not.toContain("noChar");
    expect(rulesOf(coarse(1240))).toContain("noChar");
  });

  it("says it with the arithmetic", () => {
    const [question] = asked(plainPhase("hot-start", { minutes: 20, pots: [{ ...pot, end: 700 }] })).filter(
      ({ rule }) => rule === "muchWaterLost",
    );
    expect(question).toMatchObject({ phase: "hot-start", column: "pot1_end_g" });
    expect(question?.message).toContain("4.9 kg of water lost of 5.0 kg in 20 minutes");
  });
});

describe("the set of rules", () => {
  it("has each rule once, with where its limit comes from", () => {
    const names = questionRules.map(({ name }) => name);
    expect(new Set(names).size).toBe(names.length);
    for (const { source } of questionRules) expect(source).toMatch(/no source|from memory/);
  });

  it("has every rule that a defective file sets off", () => {
    const text = readFileSync(new URL("../service/computed-questions.test.ts", import.meta.url), "utf8");
    const shown = [...text.matchAll(/"question-[a-z-]+\.csv": "(\w+)"/g)].map(([, rule]) => rule);
    const names = new Set(questionRules.map(({ name }) => name));
    expect(shown.length).toBeGreaterThan(40);
    expect(shown.filter((rule) => rule === undefined || !names.has(rule))).toEqual([]);
  });
});
