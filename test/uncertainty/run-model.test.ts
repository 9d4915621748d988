import { describe, expect, it } from "vitest";
import { type InputValues, readingsAsRead } from "../../core/method/phase-inputs.ts";
import { runQuantities } from "../../core/method/run-quantities.ts";
import { plainNumbers } from "../../core/numeric/arithmetic.ts";
import type { InstrumentRole } from "../../core/readings/reading.ts";
import type { Settings, UncertaintyComponent } from "../../core/readings/settings.ts";
import type { Run } from "../../core/readings/study.ts";
import { firstOrder } from "../../core/uncertainty/first-order.ts";
import { runModel } from "../../core/uncertainty/run-model.ts";
import { component, instruments } from "../build/errors.ts";
import { buildRun, buildSettings, type PhaseSheet, plainPhase } from "../build/readings.ts";
import { expectNumber } from "../numbers.ts";

/**
 * First order of whole runs against numerical derivatives: every error is moved up and down by itself, in plain numbers, by rules written
 * here anew from the file layout ("Study-wide values"), and the quantities are computed again. Nothing of the tape is used for that.
 */
const root3 = Math.sqrt(3);
const offset = component("offset", "shared", { standardUncertainty: 7 });
const balance = [
  component("resolution", "independent", { halfWidth: 0.5 }, { distribution: "rectangular" }),
  component("gain", "shared", { relativeExpandedUncertainty: 0.002, coverageFactor: 2 }),
  component("repeatability", "independent", { standardUncertainty: 0.4 }, { degreesOfFreedom: 9 }),
  offset,
];
const thermometer = [
  component("resolution", "independent", { halfWidth: 0.05 }, { distribution: "rectangular" }),
  component("offset", "shared", { expandedUncertainty: 1, coverageFactor: 2 }, { degreesOfFreedom: 4 }),
];
const meter = [component("meter", "shared", { standardUncertainty: 1.5 })];
const clock = [component("reading", "independent", { halfWidth: 30 }, { distribution: "triangular" })];
const barometer = [component("certificate", "shared", { relativeStandardUncertainty: 0.001 })];
const map = [component("map", "shared", { standardUncertainty: 25 })];
const gas = [component("analyser", "shared", { relativeHalfWidth: 0.05 }, { distribution: "rectangular" })];
const oakErrors = [component("table", "shared", { standardUncertainty: 300 })];
const pineErrors = [component("bomb calorimeter", "shared", { relativeStandardUncertainty: 0.01 })];
const hydrogenErrors = [component("table", "shared", { standardUncertainty: 0.3 })];
const charErrors = [component("assumed", "shared", { standardUncertainty: 500 })];

const base = buildSettings({ oak: { gross: 19_600, hydrogen: 6.1 }, pine: { net: 18_700 } });
const settings: Settings = {
  ...base,
  fuels: new Map([
    [
      "oak",
      {
        netCalorific: null,
        grossCalorific: { value: 19_600, components: oakErrors },
        hydrogenPercent: { value: 6.1, components: hydrogenErrors },
      },
    ],
    ["pine", { netCalorific: { value: 18_700, components: pineErrors }, grossCalorific: null, hydrogenPercent: null }],
  ]),
  charNetCalorific: { value: 29_500, components: charErrors },
  instruments: instruments({
    fuelBalance: balance,
    potBalance: "fuelBalance",
    thermometer,
    moistureMeter: meter,
    clock,
    barometer,
    altitude: map,
    co: gas,
  }),
};

const { boiling: _, charAtStart: __, ...bare } = plainPhase("cold-start", { co: 11, pm25: 700 });
const pots: PhaseSheet["pots"] = [
  { pot: 1, empty: 512, start: 5510, end: 5301, from: 24, to: 92.5 },
  { pot: 2, waterStart: 2000, waterEnd: 1970, from: 25, to: 71 },
];
const fuels: PhaseSheet["fuels"] = [
  { fuel: "oak", before: 1500, after: 820, dry: 14 },
  { fuel: "pine", before: 300, after: 190, wet: 9 },
];
const { char: ___, ...hotWithoutChar } = bare;
const run = buildRun({
  run: "R",
  variant: "A",
  phases: [
    { ...bare, pots, fuels, altitude: 1850, start: 500, end: 527, char: { container: 250, withContainer: 317 } },
    { ...hotWithoutChar, phase: "hot-start", pots, fuels, pressure: 81.2, minutes: 22, charAtStart: 3 },
    {
      ...bare,
      phase: "simmer",
      pots: [{ empty: 512, start: 5301, end: 4600, from: 92, to: 90.5 }],
      fuels: [{ fuel: "pine", before: 900, after: 310, wet: 9, net: 18_450 }],
      boiling: 93.6,
      minutes: 45,
      char: { container: 250, withContainer: 331 },
      charNet: 29_100,
    },
  ],
});

/** What each role's readings have, and in which unit of theirs the settings' sizes are. */
const componentsOf: Partial<Record<InstrumentRole, readonly UncertaintyComponent[]>> = {
  fuelBalance: balance,
  potBalance: balance,
  thermometer,
  moistureMeter: meter,
  clock,
  barometer,
  altitude: map,
  co: gas,
};
const componentsOfSetting: Record<string, readonly UncertaintyComponent[]> = {
  "gross:oak": oakErrors,
  "hydrogen:oak": hydrogenErrors,
  "fuel:pine": pineErrors,
  char: charErrors,
};

/** The standard uncertainties above, worked out by hand: g, °C, per cent, seconds; or a fraction of the reading. */
function sizeOf({ name, size }: UncertaintyComponent, value: number): number {
  if ("halfWidth" in size) return size.halfWidth === 30 ? 30 / 60 / Math.sqrt(6) : size.halfWidth / root3;
  if ("relativeHalfWidth" in size) return (0.05 / root3) * value;
  if ("relativeStandardUncertainty" in size) return size.relativeStandardUncertainty * value;
  if ("relativeExpandedUncertainty" in size) return 0.001 * value;
  if ("expandedUncertainty" in size) return 0.5;
  if ("standardUncertainty" in size) return size.standardUncertainty;
  throw new Error(name);
}

/** The plain readings with one error moved by `by` standard uncertainties; `error` as `errorsOf` names them. */
function movedValues(error: string, by: number): InputValues<number> {
  const moved = (whose: string, reading: string, value: number, components: readonly UncertaintyComponent[]) =>
    components.reduce((sum, one, index) => {
      const key = one.kind === "shared" ? `${whose}/${index}` : `${reading}/${index}`;
      return key === error ? sum + by * sizeOf(one, value) : sum;
    }, value);
  return {
    reading: ({ id, value }, role) => {
      // Both balances are one.
      const whose = role === "potBalance" ? "fuelBalance" : role;
      return moved(whose, id, value, componentsOf[role] ?? []);
    },
    // Two weighings: each has its own errors; of what they have in common the gain stays, an offset does not.
    net: ({ id, value }, role) => {
      const components = componentsOf[role] ?? [];
      const kept = components.map((one) => (one === offset ? { ...one, size: { standardUncertainty: 0 } } : one));
      const second = moved("", `${id}, tare`, value, components) - value;
      return moved("fuelBalance", id, value, kept) - second;
    },
    setting: (key, { value }) => moved(key, key, value, componentsOfSetting[key] ?? []),
  };
}

function errorsOf(which: Run): Set<string> {
  const found = new Set<string>();
  runQuantities(plainNumbers, which, settings, {
    reading: ({ id, value }, role) => {
      const whose = role === "potBalance" ? "fuelBalance" : role;
      (componentsOf[role] ?? []).forEach(({ kind }, index) => {
        found.add(`${kind === "shared" ? whose : id}/${index}`);
      });
      return value;
    },
    net: ({ id, value }, role) => {
      (componentsOf[role] ?? []).forEach(({ kind }, index) => {
        for (const whose of kind === "shared" ? ["fuelBalance"] : [id, `${id}, tare`]) found.add(`${whose}/${index}`);
      });
      return value;
    },
    setting: (key, { value }) => {
      (componentsOfSetting[key] ?? []).forEach((_, index) => {
        found.add(`${key}/${index}`);
      });
      return value;
    },
  });
  return found;
}

function quantitiesWith(values: InputValues<number>): Map<string, number> {
  const found = new Map<string, number>();
  const { phases, run: ofRun } = runQuantities(plainNumbers, run, settings, values);
  for (const [phase, outcomes] of phases) {
    for (const [name, one] of outcomes) if (one.given) found.set(`${phase}.${name}`, one.value);
  }
  for (const [name, one] of ofRun) if (one.given) found.set(name, one.value);
  return found;
}

describe("first order of a whole run", () => {
  const model = runModel(run, settings);
  const results = firstOrder(model);
  const resultOf = (key: string) => {
    const result = results[model.keys.indexOf(key)];
    if (result === undefined) throw new Error(key);
    return result;
  };

  it("has the values of the plain formulas, all of them", () => {
    const plain = quantitiesWith(readingsAsRead);
    expect(new Set(model.keys)).toEqual(new Set(plain.keys()));
    for (const [key, value] of plain) expectNumber(resultOf(key).value, value, { relative: 1e-14 });
  });

  it("has the standard uncertainty that moving each error by itself gives", () => {
    const errors = errorsOf(run);
    expect(errors.size).toBe(model.sources.length);
    // Small enough that what is not linear does not show.
    const step = 1e-3;
    const squares = new Map<string, number>();
    for (const error of errors) {
      const [up, down] = [quantitiesWith(movedValues(error, step)), quantitiesWith(movedValues(error, -step))];
      for (const [key, value] of up) {
        const contribution = (value - (down.get(key) ?? Number.NaN)) / (2 * step);
        squares.set(key, (squares.get(key) ?? 0) + contribution ** 2);
      }
    }
    for (const [key, square] of squares) {
      const rounding = (Math.abs(resultOf(key).value) * 1e-13) / step;
      expectNumber(resultOf(key).standardUncertainty, Math.sqrt(square), { relative: 1e-6, absolute: rounding });
    }
    expect(resultOf("simmer.pm25PerDryFuel").standardUncertainty).toBeGreaterThan(0);
  });

  it("counts a weighing that several phases use as one, and names what is taken as exact", () => {
    const keys = model.sources.map(({ key }) => key);
    expect(new Set(keys).size).toBe(keys.length);
    // The container was weighed once, the empty pot once: each has the two independent errors of the balance.
    for (const once of ["R/.container=250", "R/.pot1.empty=512"]) {
      expect(keys.filter((key) => key.startsWith(`reading:${once}/`))).toHaveLength(2);
    }
    expect(model.exactRoles).toEqual(["pm25"]);
  });

  it("gives a difference of two weighings two resolutions, one gain and no more", () => {
    // fm = 680 + 110 g from four weighings: u^2 = 4 (0.5^2/3 + 0.4^2) + (0.001 790)^2, by hand.
    const byHand = Math.sqrt(4 * (0.25 / 3 + 0.16) + 0.79 ** 2);
    expectNumber(resultOf("cold-start.fuelConsumedMoist").standardUncertainty, byHand, { relative: 1e-12 });
  });

  it("gives a net mass the errors of two weighings and the gain, and no offset", () => {
    // Layout of readings and calculations of section 9: pot 2's water is net, 2000 and 1970 g, so what it lost has four weighings; pot 1
    // lost 209 g in two: u^2 = 6 (0.5^2/3 + 0.4^2) + (0.001 239)^2. The offset of 7 g is nowhere.
    const evaporated = Math.sqrt(6 * (0.25 / 3 + 0.16) + 0.239 ** 2);
    expectNumber(resultOf("cold-start.waterEvaporated").standardUncertainty, evaporated, { relative: 1e-12 });
    // The hot start's char: the cold start's 317 - 250 g, less 3 g net: u^2 = 4 (0.5^2/3 + 0.4^2) + (0.001 64)^2.
    const formed = Math.sqrt(4 * (0.25 / 3 + 0.16) + 0.064 ** 2);
    expectNumber(resultOf("hot-start.charFormed").standardUncertainty, formed, { relative: 1e-12 });
  });

  it("gives a duration two readings of the clock, in seconds, and a stated one a single reading", () => {
    // Triangular: a/sqrt(6).
    const one = 0.5 / Math.sqrt(6);
    expectNumber(resultOf("cold-start.duration").standardUncertainty, one * Math.SQRT2, { relative: 1e-12 });
    expectNumber(resultOf("hot-start.duration").standardUncertainty, one, { relative: 1e-12 });
  });

  it("has effective degrees of freedom of the sources that have any, a shared one counted once", () => {
    // Heat gained by the water at the simmer: 4.186 W (Tend - Tstart) + 2260 wv, both temperatures with one offset, which cancels.
    const [water, rise, lost] = [4789, -1.5, 701];
    const weighing = 0.25 / 3;
    const [c, l] = [4.186e-3, 2.26];
    const [byStart, byEmpty, byEnd] = [c * rise + l, -c * rise, -l];
    const resolution = weighing * (byStart ** 2 + byEmpty ** 2 + byEnd ** 2);
    const repeated = [byStart, byEmpty, byEnd].map((slope) => (slope * 0.4) ** 2);
    const gain = (0.001 * (c * water * rise + l * lost)) ** 2;
    const temperature = 2 * (c * water * 0.05) ** 2 * (1 / 3);
    const total = resolution + repeated.reduce((sum, one) => sum + one, 0) + gain + temperature;
    const heat = resultOf("simmer.heatGainedByWater");
    expectNumber(heat.standardUncertainty, Math.sqrt(total), { relative: 1e-12 });
    const fourths = repeated.reduce((sum, one) => sum + one ** 2 / 9, 0);
    expectNumber(heat.degreesOfFreedom, total ** 2 / fourths, { relative: 1e-10 });
  });
});
