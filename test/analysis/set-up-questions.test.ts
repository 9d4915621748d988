import { describe, expect, it } from "vitest";
import { runFacts } from "../../core/analysis/run-facts.ts";
import { studyQuestions } from "../../core/analysis/study-questions.ts";
import type { InstrumentRole } from "../../core/readings/reading.ts";
import type { Instrument, Settings, UncertaintyComponent } from "../../core/readings/settings.ts";
import type { Run } from "../../core/readings/study.ts";
import { buildRun, buildSettings, plainPhase, plainRun } from "../build/readings.ts";

/** What the set-up is held against: rules of the laboratory itself, no source. */

const dated = (name: string, date: string | null, more: Partial<Run> = {}): Run => ({
  ...buildRun(plainRun(name, "A")),
  date,
  ...more,
});

const calibrated = (
  calibrations: readonly { from: string; until: string | null }[],
  more: Partial<Settings> = {},
): Settings => ({
  ...buildSettings(),
  instruments: new Map([
    ["fuelBalance", { components: [], calibrations: calibrations.map((one) => ({ ...one, certificate: null })) }],
    ["potBalance", { sameAs: "fuelBalance" }],
    ["thermometer", { components: [] }],
  ]),
  ...more,
});

function askedOf(runs: readonly Run[], settings: Settings, onBench: readonly string[] = []) {
  const facts = runs.map((run) => ({
    ...runFacts(run, settings),
    ...(onBench.includes(run.name) ? { onBench: true as const } : {}),
  }));
  const { questions, runQuestions } = studyQuestions(facts, settings, "en");
  const ofRule = (rule: string) => ({
    study: questions.filter((question) => question.rule === rule),
    runs: [...runQuestions.values()].flat().filter((question) => question.rule === rule),
  });
  return { calibration: ofRule("calibration"), pots: ofRule("potNotSetUp") };
}

describe("calibrations", () => {
  const settings = calibrated([{ from: "2026-03-02", until: "2026-03-04" }]);

  it.each([
    ["2026-03-01", 1],
    ["2026-03-02", 0],
    ["2026-03-04", 0],
    ["2026-03-05", 1],
  ])("a run of %s, from 2 to 4 March in calibration: %i question", (date, count) => {
    expect(askedOf([dated("R1", date)], settings).calibration.study).toHaveLength(count);
  });

  it("one question for an instrument, naming its days and runs", () => {
    const runs = ["2026-03-07", "2026-03-05", "2026-03-03", "2026-03-06", "2026-03-05"].map((date, index) =>
      dated(`R${index + 1}`, date),
    );
    const { study, runs: ofRuns } = askedOf(runs, settings).calibration;
    expect(ofRuns).toEqual([]);
    expect(study).toHaveLength(1);
    expect(study[0]).toMatchObject({ run: null, column: "date" });
    expect(study[0]?.message).toContain(
      "balance for fuel and char was in no calibration on days from 2026-03-05 to 2026-03-07 (4 runs: R2, R5, R4, …)",
    );
  });

  it("another calibration may be in force, also without an end", () => {
    const two = calibrated([
      { from: "2026-01-01", until: "2026-01-31" },
      { from: "2026-03-01", until: null },
    ]);
    expect(askedOf([dated("R1", "2026-01-31"), dated("R2", "2031-01-01")], two).calibration.study).toEqual([]);
    expect(askedOf([dated("R1", "2026-02-10")], two).calibration.study[0]?.message).toMatch(
      /on 2026-02-10 \(1 run: R1\)/,
    );
  });

  it("nothing is asked without a date, without calibrations, or of a run that was left out", () => {
    const none = calibrated([]);
    expect(askedOf([dated("R1", null)], settings).calibration.study).toEqual([]);
    expect(askedOf([dated("R1", "2026-03-09")], none).calibration.study).toEqual([]);
    expect(askedOf([dated("R1", "2026-03-09", { leftOut: "gust" })], settings).calibration.study).toEqual([]);
  });

  it("nothing is asked of an instrument that was not read", () => {
    const barometer = calibrated([], {
      instruments: new Map([
        [
          "barometer",
          { components: [], calibrations: [{ from: "2026-01-01", until: "2026-01-31", certificate: null }] },
        ],
      ]),
    });
    const withPressure = {
      ...dated("R2", "2026-03-09"),
      ...buildRun(plainRun("R2", "A", { phases: [plainPhase("cold-start", { pressure: 95 })] })),
    };
    expect(askedOf([dated("R1", "2026-03-09")], barometer).calibration.study).toEqual([]);
    expect(askedOf([{ ...withPressure, date: "2026-03-09" }], barometer).calibration.study[0]?.message).toMatch(
      /barometer/,
    );
  });

  it("a run on the Bench is asked at the run, while another instrument can be taken", () => {
    const run = dated("R1", "2026-03-09", { leftOut: "on the Bench" });
    const { study, runs } = askedOf([run], settings, ["R1"]).calibration;
    expect(study).toEqual([]);
    expect(runs).toMatchObject([{ run: "R1", column: "date" }]);
    expect(runs[0]?.message).toMatch(/balance for fuel and char is in no calibration on 2026-03-09/);
  });
});

describe("pots", () => {
  const weighing = (name: string, empty: number): Run => {
    const pots = [{ empty, start: empty + 5000, end: empty + 4700, from: 22, to: 98 }];
    return buildRun(plainRun(name, "A", { phases: [plainPhase("cold-start", { pots })] }));
  };
  const settings: Settings = {
    ...buildSettings(),
    pots: [
      { name: "small", emptyMass: 500, volume: null },
      { name: "large", emptyMass: 800, volume: 7 },
    ],
  };

  it.each([
    [495, 0],
    [505, 0],
    [505.1, 1],
    [494.9, 1],
    [797, 0],
  ])("an empty mass of %d g beside pots of 500 and 800 g: %i question", (empty, count) => {
    expect(askedOf([weighing("R1", empty)], settings).pots.runs).toHaveLength(count);
  });

  it("names the nearest pot, and asks nothing where none is set up", () => {
    const [question] = askedOf([weighing("R1", 580)], settings).pots.runs;
    expect(question).toMatchObject({ run: "R1", phase: "cold-start", column: "pot1_empty_g" });
    expect(question?.message).toMatch(/580 g empty here; of 2 pots .*“small”, has 500 g/);
    expect(askedOf([weighing("R1", 580)], { ...settings, pots: [] }).pots.runs).toEqual([]);
    expect(askedOf([weighing("R1", 580)], buildSettings()).pots.runs).toEqual([]);
  });

  it("a pot of many runs that is not set up is asked about once", () => {
    const three = [1, 2, 3].map((index) => weighing(`R${index}`, 649 + index));
    expect(askedOf(three, settings).pots).toMatchObject({ study: [], runs: [{}, {}, {}] });
    const { study, runs } = askedOf([...three, weighing("R4", 654)], settings).pots;
    expect(runs).toEqual([]);
    expect(study).toHaveLength(1);
    expect(study[0]?.message).toMatch(/650 to 654 g empty in 4 runs \(R1, R2, R3, …\)/);
  });
});

describe("balances without a gain", () => {
  const component = (size: UncertaintyComponent["size"], kind: UncertaintyComponent["kind"]): UncertaintyComponent => ({
    name: "error",
    distribution: "normal",
    size,
    kind,
    degreesOfFreedom: null,
  });
  const resolution: UncertaintyComponent = {
    ...component({ halfWidth: 0.5 }, "independent"),
    distribution: "rectangular",
  };
  const offset = component({ standardUncertainty: 0.6 }, "shared");
  const asked = (instruments: Settings["instruments"]) => {
    const settings = { ...buildSettings(), instruments };
    const { questions } = studyQuestions([runFacts(dated("R1", null), settings)], settings, "en");
    return questions.filter(({ rule }) => rule === "balanceWithoutGain");
  };
  const fuelBalance = (...components: UncertaintyComponent[]) => asked(new Map([["fuelBalance", { components }]]));

  it("a resolution and an offset in grams are asked about", () => {
    const [question, ...others] = fuelBalance(resolution, offset);
    expect(others).toEqual([]);
    expect(question).toMatchObject({ run: null, column: "fuel_start_g" });
    expect(question?.message).toMatch(/^The balance for fuel and char has .*cancels in every difference/);
    expect(fuelBalance(component({ expandedUncertainty: 1e-9, coverageFactor: 2 }, "shared"))).toHaveLength(1);
  });

  it.each([
    ["a gain, however small", [resolution, offset, component({ relativeStandardUncertainty: 1e-9 }, "shared")]],
    [
      "a gain as half-width",
      [offset, { ...component({ relativeHalfWidth: 0.002 }, "shared"), distribution: "triangular" }],
    ],
    [
      "a gain as expanded uncertainty",
      [offset, component({ relativeExpandedUncertainty: 0.002, coverageFactor: 2 }, "shared")],
    ],
    [
      "an error in per cent that is new at each reading",
      [offset, component({ relativeStandardUncertainty: 0.001 }, "independent")],
    ],
    ["a resolution alone", [resolution]],
    [
      "errors in grams that are new at each reading",
      [resolution, component({ standardUncertainty: 0.6 }, "independent")],
    ],
    ["no errors at all", []],
  ] as const)("not so with %s", (_what, components) => {
    expect(fuelBalance(...components)).toEqual([]);
  });

  it("not so without instruments, nor of other instruments", () => {
    expect(asked(new Map())).toEqual([]);
    expect(asked(new Map([["thermometer", { components: [resolution, offset] }]]))).toEqual([]);
  });

  it("a clock's error that is a fraction of the time of day is asked about, a rate or seconds are not", () => {
    const settingsOf = (components: UncertaintyComponent[]) => ({
      ...buildSettings(),
      instruments: new Map<InstrumentRole, Instrument>([["clock", { components }]]),
    });
    const about = (...components: UncertaintyComponent[]) => {
      const settings = settingsOf(components);
      const { questions } = studyQuestions([runFacts(dated("R1", null), settings)], settings, "en");
      return questions.filter(({ rule }) => rule === "clockErrorOfReading");
    };
    const [question, ...others] = about(resolution, component({ relativeHalfWidth: 0.001 }, "independent"));
    expect(others).toEqual([]);
    expect(question).toMatchObject({ run: null, column: "start" });
    expect(question?.message).toMatch(/time of day/);
    expect(about(resolution, component({ relativeStandardUncertainty: 0.001 }, "shared"))).toEqual([]);
    expect(about(resolution, component({ standardUncertainty: 5 }, "independent"))).toEqual([]);
    expect(about()).toEqual([]);
  });

  it("one instrument in both roles is one question, two are two", () => {
    const described = { components: [resolution, offset] };
    const [both, ...others] = asked(
      new Map<InstrumentRole, Instrument | { sameAs: InstrumentRole }>([
        ["potBalance", described],
        ["fuelBalance", { sameAs: "potBalance" }],
      ]),
    );
    expect(others).toEqual([]);
    expect(both?.message).toMatch(/^The balance for fuel and char and the balance for pots \(one instrument\) has/);
    const two = asked(
      new Map([
        ["fuelBalance", described],
        ["potBalance", described],
      ]),
    );
    expect(two.map(({ column }) => column)).toEqual(["fuel_start_g", "pot1_start_g"]);
  });
});
