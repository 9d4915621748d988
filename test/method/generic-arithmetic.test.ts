import { describe, expect, it } from "vitest";
import { type InputValues, readingsAsRead } from "../../core/method/phase-inputs.ts";
import { runQuantities } from "../../core/method/run-quantities.ts";
import { type Arithmetic, plainNumbers } from "../../core/numeric/arithmetic.ts";
import { type Dual, dualNumbers, variable } from "../build/dual-numbers.ts";
import { buildRun, buildSettings, type PhaseSheet, plainPhase } from "../build/readings.ts";
import { expectNumber } from "../numbers.ts";
import { inTrials } from "../water/trials.ts";

/**
 * One text of the formulas serves every kind of number: derivatives (checked against central differences) and lists of trials
 * (checked element by element against plain numbers). The readings touch every branch: two pots, net and weighed, dry-basis
 * moisture, gross values, stand-in char, boiling points measured, from pressure and from altitude.
 */
const settings = buildSettings({ oak: { gross: 19_600, hydrogen: 6.1 }, pine: { net: 18_700 } });
const { boiling: _, charAtStart: __, ...bare } = plainPhase("cold-start", { co: 11, pm25: 700 });
const pots: PhaseSheet["pots"] = [
  { pot: 1, empty: 512, start: 5510, end: 5301, from: 24, to: 92.5 },
  { pot: 2, waterStart: 2000, waterEnd: 1970, from: 25, to: 71 },
];
const fuels: PhaseSheet["fuels"] = [
  { fuel: "oak", before: 1500, after: 820, dry: 14 },
  { fuel: "pine", before: 300, after: 190, wet: 9 },
  { fuel: "cones", before: 80, after: 11, wet: 11, gross: 20_100, hydrogen: 5.8 },
];
const phases: PhaseSheet[] = [
  { ...bare, pots, fuels, altitude: 1850, start: 500, end: 527, char: { container: 250, withContainer: 317 } },
  { ...bare, phase: "hot-start", pots, fuels, pressure: 81.2, minutes: 22, charAtStart: 3 },
  {
    ...bare,
    phase: "simmer",
    pots: [{ empty: 512, start: 5301, end: 4600, from: 92, to: 90.5 }],
    fuels,
    boiling: 93.6,
    minutes: 45,
    char: { container: 250, withContainer: 331 },
    charNet: 29_100,
  },
];
const { char: ___, ...hotWithoutChar } = phases[1] ?? bare;
const run = buildRun({ run: "R", variant: "A", phases: [phases[0] ?? bare, hotWithoutChar, phases[2] ?? bare] });
const isoRun = buildRun({
  run: "I",
  variant: "A",
  phases: (["high-power", "medium-power", "low-power"] as const).map((phase, level) => ({
    ...bare,
    phase,
    pots,
    fuels,
    altitude: 1850,
    start: 500,
    end: 530,
    boiledAt: 520 + level,
    char: 40 + level,
  })),
});

function computed<N>(arithmetic: Arithmetic<N>, which: typeof run, values: InputValues<N>): Map<string, N> {
  const { phases: ofPhases, run: ofRun } = runQuantities(arithmetic, which, settings, values);
  const found = new Map<string, N>();
  for (const [name, outcome] of [
    ...[...ofPhases].flatMap(([phase, outcomes]) =>
      [...outcomes].map(([name, one]) => [`${phase}.${name}`, one] as const),
    ),
    ...ofRun,
  ]) {
    if (!outcome.given) throw new Error(`${name} is missing: ${outcome.because.code}`);
    found.set(name, outcome.value);
  }
  return found;
}

/** Plain numbers with some inputs moved, by the id of the reading or the key of the setting. */
function moved(by: (id: string, value: number) => number): InputValues<number> {
  return {
    reading: ({ id, value }) => by(id, value),
    net: ({ id, value }) => by(id, value),
    setting: (key, { value }) => by(key, value),
  };
}

/** Every input that a run takes, by its id. */
function inputsOf(which: typeof run): Map<string, number> {
  const seen = new Map<string, number>();
  computed(
    plainNumbers,
    which,
    moved((id, value) => {
      seen.set(id, value);
      return value;
    }),
  );
  return seen;
}

describe.each([
  ["a Water Boiling Test", run],
  ["an ISO run", isoRun],
])("every quantity of %s", (_name, which) => {
  const plain = computed(plainNumbers, which, readingsAsRead);
  const inputs = inputsOf(which);

  it("takes all of its readings and settings", () => {
    expect(inputs.size).toBeGreaterThan(40);
    expect([...inputs.keys()]).toEqual(
      expect.arrayContaining(["gross:oak", "gross:cones", "hydrogen:oak", "fuel:pine", "char"]),
    );
    expect(plain.size).toBeGreaterThan(80);
  });

  it("has the derivatives that central differences give, by every reading", () => {
    const dual = computed<Dual>(dualNumbers, which, {
      reading: ({ id, value }) => variable(id, value),
      net: ({ id, value }) => variable(id, value),
      setting: (key, { value }) => variable(key, value),
    });
    for (const [id, value] of inputs) {
      const step = 1e-5 * Math.max(1, Math.abs(value));
      const [up, down] = [step, -step].map((shift) =>
        computed(
          plainNumbers,
          which,
          moved((other, unmoved) => (other === id ? unmoved + shift : unmoved)),
        ),
      );
      for (const [name, { value: nominal, slopes }] of dual) {
        expectNumber(nominal, plain.get(name) ?? Number.NaN, { relative: 1e-13 });
        const difference = ((up?.get(name) ?? Number.NaN) - (down?.get(name) ?? Number.NaN)) / (2 * step);
        // What rounding leaves in a difference quotient, and what its third-order term does.
        const noise = (Math.abs(nominal) * 1e-12) / step;
        try {
          expectNumber(slopes.get(id) ?? 0, difference, { relative: 2e-6, absolute: noise });
        } catch (error) {
          throw new Error(`${name} by ${id}: ${error instanceof Error ? error.message : error}`);
        }
      }
    }
  });

  it("is the plain number in each of a list of trials", () => {
    // Each input moved by up to a thousandth, by another share in each trial.
    const order = [...inputs.keys()];
    const inTrial = (trial: number) => (id: string, value: number) =>
      value * (1 + 1e-3 * Math.sin(1 + order.indexOf(id) + 7 * trial));
    const lists = computed<number[]>(inTrials, which, {
      reading: ({ id, value }) => [0, 1, 2].map((trial) => inTrial(trial)(id, value)),
      net: ({ id, value }) => [0, 1, 2].map((trial) => inTrial(trial)(id, value)),
      setting: (key, { value }) => [0, 1, 2].map((trial) => inTrial(trial)(key, value)),
    });
    for (const trial of [0, 1, 2]) {
      const alone = computed(plainNumbers, which, moved(inTrial(trial)));
      for (const [name, list] of lists) expectNumber(list[trial], alone.get(name) ?? Number.NaN);
    }
  });
});

describe("one reading used in several places", () => {
  it("has one derivative: the cold start's char weighing stands in for the hot start's and moves both", () => {
    const dual = computed<Dual>(dualNumbers, run, {
      reading: ({ id, value }) => variable(id, value),
      net: ({ id, value }) => variable(id, value),
      setting: (key, { value }) => variable(key, value),
    });
    const id = "R/cold-start.withContainer";
    expectNumber(dual.get("cold-start.charFormed")?.slopes.get(id), 1);
    expectNumber(dual.get("hot-start.charFormed")?.slopes.get(id), 1);
    expectNumber(dual.get("simmer.charFormed")?.slopes.get(id), -1);
    // The container, weighed once, cancels at the simmer: (with - container) - (with at hot start - container).
    expectNumber(dual.get("simmer.charFormed")?.slopes.get("R/.container=250"), 0);
    // The empty pot cancels in the water evaporated.
    expect(dual.get("cold-start.waterEvaporated")?.slopes.has("R/.pot1.empty=512")).toBe(false);
  });
});
