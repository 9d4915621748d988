import { describe, expect, it } from "vitest";
import type { Question } from "../../core/analysis/question.ts";
import { questionsOfRun } from "../../core/analysis/questions.ts";
import { runFacts } from "../../core/analysis/run-facts.ts";
import { questionsOfStudy, sameReadingsQuestions } from "../../core/analysis/study-questions.ts";
import { analyseStudy } from "../../core/analysis/study-results.ts";
import type { Run } from "../../core/readings/study.ts";
import { resultsOf } from "../build/expect-quantities.ts";
import { buildRun, buildSettings, buildStudy, type PhaseSheet, plainPhase, plainRun } from "../build/readings.ts";

/** The limits are those of the readings layout's list of questions; the simmer's 45 min and the volumes are the protocol's. */
function asked(...phases: PhaseSheet[]): Question[] {
  return questionsOfRun(resultsOf({ run: "R", variant: "A", phases }), buildSettings(), "en");
}

const rulesOf = (...phases: PhaseSheet[]) => asked(...phases).map(({ rule }) => rule);
const pot = { empty: 600, start: 5600, end: 5400, from: 25, to: 98 };
const simmerPot = { empty: 600, start: 5600, end: 4800, from: 97, to: 96 };
const fuel = { fuel: "pine", wet: 10, net: 18_500, before: 1500, after: 900 };

describe("questions about a run", () => {
  it("are not asked of a plain run", () => {
    expect(asked(...plainRun("R", "A").phases)).toEqual([]);
    expect(asked(plainPhase("high-power"), plainPhase("medium-power"), plainPhase("low-power"))).toEqual([]);
  });

  it("name run, variant, phase and column", () => {
    const [question] = asked(plainPhase("cold-start", { pots: [{ ...pot, to: 95.9 }] }));
    expect(question).toEqual({
      rule: "endBelowBoiling",
      run: "R",
      variant: "A",
      phase: "cold-start",
      column: "pot1_end_C",
      message:
        "The water of pot 1 ended at 95.9 °C, more than 2 K under boiling (98.0 °C). Did it boil? Check the thermometer and the boiling point.",
    });
  });

  it.each([
    // rule, just within the limit, just beyond it
    [
      "endBelowBoiling",
      plainPhase("cold-start", { pots: [{ ...pot, to: 96 }] }),
      plainPhase("cold-start", { pots: [{ ...pot, to: 95.99 }] }),
    ],
    // 98.3 - 96.3 is 2.0000000000000000 on paper, not in binary numbers.
    [
      "endBelowBoiling",
      plainPhase("hot-start", { boiling: 98.3, pots: [{ ...pot, to: 96.3 }] }),
      plainPhase("hot-start", { boiling: 98.3, pots: [{ ...pot, to: 96.2 }] }),
    ],
    [
      "simmerFarBelowBoiling",
      plainPhase("simmer", { pots: [{ ...simmerPot, to: 92 }] }),
      plainPhase("simmer", { pots: [{ ...simmerPot, to: 91.99 }] }),
    ],
    ["simmerDuration", plainPhase("simmer", { minutes: 46 }), plainPhase("simmer", { minutes: 46.01 })],
    ["simmerDuration", plainPhase("simmer", { minutes: 44 }), plainPhase("simmer", { minutes: 43.99 })],
    // 10:00 to 10:46 by the clock, and one second more.
    [
      "simmerDuration",
      plainPhase("simmer", { start: 600, end: 646 }),
      plainPhase("simmer", { start: 600, end: 646 + 1 / 60 }),
    ],
    [
      "warmStart",
      plainPhase("cold-start", { pots: [{ ...pot, from: 35 }] }),
      plainPhase("cold-start", { pots: [{ ...pot, from: 35.01 }] }),
    ],
    [
      "warmStart",
      plainPhase("high-power", { pots: [{ ...pot, from: 35 }] }),
      plainPhase("high-power", { pots: [{ ...pot, from: 36 }] }),
    ],
    [
      "moistureHigh",
      plainPhase("cold-start", { fuels: [{ ...fuel, wet: 35 }] }),
      plainPhase("cold-start", { fuels: [{ ...fuel, wet: 35.01 }] }),
    ],
    [
      "moistureZero",
      plainPhase("cold-start", { fuels: [{ ...fuel, wet: 0.01 }] }),
      plainPhase("cold-start", { fuels: [{ ...fuel, wet: 0 }] }),
    ],
    [
      "moistureLow",
      plainPhase("cold-start", { fuels: [{ ...fuel, wet: 1 }] }),
      plainPhase("cold-start", { fuels: [{ ...fuel, wet: 0.99 }] }),
    ],
    [
      "hydrogenLow",
      plainPhase("cold-start", {
        fuels: [{ fuel: "pine", wet: 10, gross: 19_800, hydrogen: 1, before: 1500, after: 900 }],
      }),
      plainPhase("cold-start", {
        fuels: [{ fuel: "pine", wet: 10, gross: 19_800, hydrogen: 0.06, before: 1500, after: 900 }],
      }),
    ],
    ["shortPhase", plainPhase("hot-start", { minutes: 2 }), plainPhase("hot-start", { minutes: 1.99 })],
    // 600 g of fuel burned: 30 % of it is 180 g, 10 % is 60 000 mg.
    ["muchMonoxide", plainPhase("cold-start", { co: 180 }), plainPhase("cold-start", { co: 180.1 })],
    ["muchParticles", plainPhase("cold-start", { pm25: 60_000 }), plainPhase("cold-start", { pm25: 60_001 })],
    // 600 g at 10 % moisture is 540 g dry; 35 % of it is 189 g.
    ["muchChar", plainPhase("cold-start", { char: 189 }), plainPhase("cold-start", { char: 189.1 })],
    // Boiling at 101.325 kPa is 99.974 °C (IAPWS).
    [
      "boilingPointOff",
      plainPhase("cold-start", { boiling: 98.98, pressure: 101.325 }),
      plainPhase("cold-start", { boiling: 98.97, pressure: 101.325 }),
    ],
    [
      "boilingPointOff",
      plainPhase("cold-start", { boiling: 99.1, altitude: 0 }),
      plainPhase("cold-start", { boiling: 98, altitude: 0 }),
    ],
  ] as const)("%s: within its limit no, beyond it yes", (rule, within, beyond) => {
    expect(rulesOf(within)).not.toContain(rule);
    expect(rulesOf(beyond)).toContain(rule);
  });

  it("of the dry basis: 35 % wet is 53.85 % dry", () => {
    const { wet: _, ...unmeasured } = fuel;
    expect(rulesOf(plainPhase("cold-start", { fuels: [{ ...unmeasured, dry: 53.8 }] }))).toEqual([]);
    const [question] = asked(plainPhase("cold-start", { fuels: [fuel, { ...unmeasured, dry: 54 }] }));
    expect(question).toMatchObject({ rule: "moistureHigh", column: "fuel2_moisture_dry_percent" });
    expect(question?.message).toContain("35.1 % on the wet basis");
  });

  it("of an efficiency above 60 or under 3 %", () => {
    // Dry wood of 10 kJ/g and no char: 100 g give 1 MJ. 1000 g of water by 100 K (0 to 100 °C) takes 418.6 kJ.
    const at = (lost: number) => {
      const water = { waterStart: 1000, waterEnd: 1000 - lost, from: 0, to: 100 };
      const wood = { before: 100, after: 0, wet: 0, net: 10_000 };
      return plainPhase("cold-start", { boiling: 100, fuels: [wood], char: 0, pots: [water] });
    };
    // (418.6 + 2.26 lost) / 1000 = 0.6 where lost = 80.265 g
    expect(rulesOf(at(80.2))).not.toContain("efficiencyHigh");
    expect(asked(at(80.3)).map(({ rule }) => rule)).toContain("efficiencyHigh");
    const poor = (water: number) =>
      plainPhase("cold-start", { pots: [{ waterStart: water, waterEnd: water, from: 25, to: 98 }] });
    // 600 g of this wood less 60 g of char are 8 066 245 J, 3 % of which is 241 987 J: 791.9 g of water by 73 K.
    expect(rulesOf(poor(792))).not.toContain("efficiencyLow");
    expect(rulesOf(poor(791))).toContain("efficiencyLow");
  });

  it("never print a number that is within the limit they say is passed", () => {
    const message = (sheet: PhaseSheet) => asked(sheet)[0]?.message;
    expect(message(plainPhase("simmer", { minutes: 46.02 }))).toContain("lasted 46.02 min");
    expect(message(plainPhase("cold-start", { pots: [{ ...pot, from: 35.04 }] }))).toContain("began at 35.04 °C");
    expect(message(plainPhase("cold-start", { pots: [{ ...pot, to: 95.96 }] }))).toContain("ended at 95.96 °C");
    expect(message(plainPhase("cold-start", { char: 190 }))).toContain(
      "190 g of char from 540 g of dry wood is 35.2 %",
    );
    expect(message(plainPhase("cold-start", { fuels: [{ ...fuel, wet: 35.01 }] }))).toContain("is 35.01 %");
  });

  it("of the char at a simmer's start: empty though the hot start's was weighed, or another than that", () => {
    const hot = plainPhase("hot-start", { char: { container: 250, withContainer: 310.3 } });
    const { charAtStart: _, ...bare } = plainPhase("simmer");
    expect(rulesOf(hot, bare)).toEqual(["charAtStartEmpty"]);
    // 310.3 - 250 is not exactly 60.3 in binary numbers.
    expect(rulesOf(hot, { ...bare, charAtStart: 60.3 })).toEqual([]);
    expect(rulesOf(hot, { ...bare, charAtStart: 60 })).toEqual(["charAtStartDiffers"]);
    expect(rulesOf(hot, { ...bare, charAtStart: 0 })).toEqual(["charAtStartDiffers"]);
    expect(rulesOf(bare)).toEqual([]);
  });

  it("of a simmer do not include those of a boiling phase, nor the other way round", () => {
    expect(rulesOf(plainPhase("simmer", { pots: [{ ...simmerPot, from: 97, to: 95 }] }))).toEqual([]);
    expect(rulesOf(plainPhase("low-power", { pots: [{ ...pot, to: 70 }], minutes: 60 }))).toEqual([]);
  });
});

describe("questions about the study", () => {
  const factsOf = (runs: readonly Run[]) => runs.map((run) => runFacts(run, buildSettings()));
  const startingWith = (run: string, grams: number, more = {}) =>
    plainRun(run, "A", {
      phases: [plainPhase("cold-start", { pots: [{ ...pot, start: 600 + grams, end: 600 + grams - 100 }] })],
      ...more,
    });
  const ask = (...sheets: Parameters<typeof buildRun>[0][]) => questionsOfStudy(factsOf(sheets.map(buildRun)), "en");

  it("asks once where boiling phases did not begin with 5 L or 2.5 L ± 5 %", () => {
    const rules = (grams: number) => ask(startingWith("R", grams)).map(({ rule }) => rule);
    for (const grams of [4750, 5000, 5250, 2375, 2625]) expect(rules(grams)).not.toContain("waterAtStart");
    for (const grams of [4749, 5251, 2374, 2626, 3500]) expect(rules(grams)).toContain("waterAtStart");
    const four = [1, 2, 3, 4].map((number) => startingWith(`R${number}`, 4000));
    const questions = ask(...four).filter(({ rule }) => rule === "waterAtStart");
    expect(questions).toHaveLength(1);
    expect(questions[0]).toMatchObject({ run: null, variant: null, phase: null, column: "pot1_start_g" });
    expect(questions[0]?.message).toContain(
      "R1, cold start: 4.00 L; R2, cold start: 4.00 L; R3, cold start: 4.00 L; and 1 more",
    );
    expect(ask(startingWith("R", 5251))[0]?.message).toContain("5.251 L");
  });

  it("does not ask about the water of a simmer, an ISO level or a run that was left out", () => {
    const simmer = plainRun("S", "A", { phases: [plainPhase("simmer", { pots: [{ ...simmerPot, start: 4000 }] })] });
    const iso = plainRun("I", "A", {
      phases: [plainPhase("high-power", { pots: [{ ...pot, start: 4000, end: 3900 }] })],
    });
    const out = startingWith("R", 4000, { leftOut: "spilt" });
    expect(ask(simmer, iso, out).map(({ rule }) => rule)).not.toContain("waterAtStart");
  });

  it("asks for more runs under three, of those that count", () => {
    const plain = (run: string, more = {}) => plainRun(run, "A", more);
    expect(ask(plain("R1"), plain("R2"), plain("R3"))).toEqual([]);
    expect(ask(plain("R1"), plain("R2"), plain("R3", { leftOut: "rain" }))).toEqual([
      {
        rule: "fewRuns",
        run: null,
        variant: "A",
        phase: null,
        column: null,
        message: "“A” has 2 runs that count: fewer than three say little about scatter. Make at least three.",
      },
    ]);
    expect(ask(plain("R1"))[0]?.message).toContain("“A” has one run that counts:");
    expect(ask(plain("R1", { leftOut: "rain" }))).toEqual([]);
  });

  it("asks about readings that equal another run's, in the run that came later", () => {
    const study = buildStudy([
      plainRun("R1", "A"),
      plainRun("R2", "A", { phases: [plainPhase("simmer", { charAtStart: 60, char: 70 })] }),
    ]);
    const questions = sameReadingsQuestions(factsOf(study.runs), "en");
    expect(questions).toHaveLength(1);
    expect(questions[0]).toMatchObject({ rule: "sameReadings", run: "R2", phase: "simmer" });
    expect(questions[0]?.message).toContain("equal those of run R1, simmer");
    const changed = plainPhase("simmer", { pots: [{ ...simmerPot, end: 4801 }] });
    expect(
      sameReadingsQuestions(
        factsOf([plainRun("R1", "A"), plainRun("R2", "A", { phases: [changed] })].map(buildRun)),
        "en",
      ),
    ).toEqual([]);
  });

  it("does not take two sheets that nothing was written on for copies", () => {
    const blank = plainPhase("cold-start", {
      fuels: [{ before: Number.NaN, after: Number.NaN }],
      pots: [{ empty: Number.NaN, start: Number.NaN, end: Number.NaN, from: Number.NaN, to: Number.NaN }],
    });
    const blanks = [plainRun("R1", "A", { phases: [blank] }), plainRun("R2", "A", { phases: [blank] })].map(buildRun);
    expect(sameReadingsQuestions(factsOf(blanks), "en")).toEqual([]);
  });

  it("come with the study's results, by run", () => {
    const results = analyseStudy(buildStudy([plainRun("R1", "A"), plainRun("__proto__", "A")]), "en");
    // The plain run's hot start has the wood of its cold start.
    expect(results.runQuestions.get("id of R1")?.map(({ rule }) => rule)).toEqual(["woodRepeated"]);
    expect(results.runQuestions.get("id of __proto__")?.map(({ rule }) => rule)).toEqual(Array(3).fill("sameReadings"));
    expect(results.questions.map(({ rule }) => rule)).toEqual(["fewRuns"]);
  });
});
