import { describe, expect, test } from "vitest";
import {
  defaultSettings,
  type Instrument,
  type InstrumentRole,
  massUnitDoubt,
  type Phase,
  phaseFaults,
  type ReadingDomainName,
  readingDomainFault,
  type Settings,
} from "../../core/index.ts";
import { nothingNoted } from "../build/readings.ts";

const reading = (value: number, id = String(value)) => ({ id, value });
const fuel = (before: number, after: number, moisture = 10, net: number | null = 18_000): Phase["fuels"][number] => ({
  fuel: "wood",
  massBefore: reading(before),
  massAfter: reading(after),
  moisture: { basis: "wet", percent: reading(moisture) },
  calorific: net === null ? null : { kind: "net", value: reading(net) },
});
const pot = (start: number, end: number, cold: number, hot: number, empty = 800): Phase["pots"][number] => ({
  pot: 1,
  masses: { kind: "weighed", empty: reading(empty), start: reading(start), end: reading(end) },
  temperatureStart: reading(cold),
  temperatureEnd: reading(hot),
});

/** A cold start without a fault. */
const good: Phase = {
  id: "p",
  phase: "cold-start",
  timing: { kind: "clock", start: reading(480), end: reading(505), written: "time" },
  boiledAt: null,
  fuels: [fuel(1000, 500)],
  char: null,
  charAtStart: null,
  charCalorific: null,
  airTemperature: null,
  boilingPoint: { measured: null, pressure: null, altitude: null },
  pots: [pot(5800, 5650, 20, 97)],
  carbonMonoxide: null,
  particulateMatter: null,
  conditions: nothingNoted,
  sourceRow: null,
};

function faults(
  changes: Partial<Phase>,
  settings: Settings = defaultSettings(),
  others: readonly Phase[] = [],
): string[] {
  const phase = { ...good, ...changes };
  return phaseFaults(phase, { settings, runPhases: [...others, phase] }).map(
    ({ rule, finding }) => `${rule.rule} ${finding.column}`,
  );
}
const withBalance = (components: Instrument["components"], role: InstrumentRole = "potBalance"): Settings => ({
  ...defaultSettings(),
  instruments: new Map<InstrumentRole, Instrument | { readonly sameAs: InstrumentRole }>([
    [role, { components }],
    ...(role === "potBalance" ? [] : [["potBalance" as const, { sameAs: role }] as const]),
  ]),
});

test("a phase without a fault has none, and neither has one of which nothing is known yet", () => {
  expect(faults({})).toEqual([]);
  const unknown = reading(Number.NaN);
  expect(
    faults({
      timing: { kind: "clock", start: unknown, end: unknown, written: "time" },
      fuels: [fuel(Number.NaN, Number.NaN, Number.NaN, Number.NaN)],
      char: { kind: "weighed", container: unknown, withContainer: unknown },
      pots: [pot(Number.NaN, Number.NaN, Number.NaN, Number.NaN, Number.NaN)],
      boilingPoint: { measured: unknown, pressure: null, altitude: null },
    }),
  ).toEqual([]);
});

describe("time", () => {
  const clock = (start: number, end: number): Partial<Phase> => ({
    timing: { kind: "clock", start: reading(start), end: reading(end), written: "dateTime" },
  });
  test.each([
    [480, 479.9, ["end-before-start end"]],
    [480, 480, ["duration-not-positive end"]],
    [480, 480 + 1 / 60, []],
    [480, 1200, []],
    [480, 1200.1, ["duration-too-long end"]],
  ])("from %d to %d", (start, end, expected) => {
    expect(faults(clock(start, end))).toEqual(expected);
  });

  test.each([
    [479, ["boiled-outside-phase boiled_at"]],
    [480, []],
    [505, []],
    [506, ["boiled-outside-phase boiled_at"]],
  ])("boiled at %d in 480 to 505", (moment, expected) => {
    expect(faults({ boiledAt: reading(moment) })).toEqual(expected);
  });
});

describe("fuel and char", () => {
  test("any gain is a fault, of the entry that gained", () => {
    expect(faults({ fuels: [fuel(1000, 500), fuel(50, 50.1)] })).toEqual(["fuel-gained fuel2_end_g"]);
    expect(faults({ fuels: [fuel(1000, 500), fuel(50, 50)] })).toEqual([]);
  });

  test("a container with char is not lighter than without", () => {
    const char = (withContainer: number): Partial<Phase> => ({
      char: { kind: "weighed", container: reading(250), withContainer: reading(withContainer) },
    });
    expect(faults(char(249.9))).toEqual(["char-lighter-than-container char_with_container_g"]);
    expect(faults(char(250))).toEqual([]);
  });

  /**
   * By hand: 500 g at 10 % moisture and 18 000 kJ/kg bring 0.5·18 000·0.9 = 8100 kJ, so that at 29 500 kJ/kg the limit is
   * 274.58 g of char; with air at 20 °C and boiling at 100 °C (WBT 4.2.3) 0.5·[16 200 − 0.1·(4.186·80 + 2257)] = 7970.4 kJ,
   * and 270.18 g.
   */
  test.each([
    [274, {}, []],
    [275, {}, ["char-energy char_g"]],
    [270, { air: 20, boiling: 100 }, []],
    [271, { air: 20, boiling: 100 }, ["char-energy char_g"]],
  ])("%d g of char from 500 g of wood, %j", (mass, known: { air?: number; boiling?: number }, expected) => {
    expect(
      faults({
        char: { kind: "net", mass: reading(mass) },
        airTemperature: known.air === undefined ? null : reading(known.air),
        boilingPoint: {
          measured: known.boiling === undefined ? null : reading(known.boiling),
          pressure: null,
          altitude: null,
        },
      }),
    ).toEqual(expected);
  });

  test("char in the bed at the start did not form; at a simmer the hot start's stands in", () => {
    const char: Phase["char"] = { kind: "net", mass: reading(300) };
    expect(faults({ char, charAtStart: reading(30) })).toEqual([]);
    const hot: Phase = { ...good, phase: "hot-start", char: { kind: "net", mass: reading(30) } };
    expect(faults({ phase: "simmer", char }, defaultSettings(), [hot])).toEqual([]);
    expect(faults({ phase: "simmer", char, charAtStart: reading(0) }, defaultSettings(), [hot])).toEqual([
      "char-energy char_g",
    ]);
    // Nothing to stand in: what formed is not known.
    expect(faults({ phase: "simmer", char })).toEqual([]);
  });

  test("without a calorific value nothing is said; the settings' serves", () => {
    const char: Phase["char"] = { kind: "net", mass: reading(400) };
    expect(faults({ char, fuels: [fuel(1000, 500, 10, null)] })).toEqual([]);
    const settings: Settings = {
      ...defaultSettings(),
      fuels: new Map([
        ["wood", { netCalorific: { value: 18_000, components: [] }, grossCalorific: null, hydrogenPercent: null }],
      ]),
    };
    expect(faults({ char, fuels: [fuel(1000, 500, 10, null)] }, settings)).toEqual(["char-energy char_g"]);
  });
});

describe("pots", () => {
  test("with water never lighter than empty", () => {
    expect(faults({ pots: [pot(799, 798, 20, 97)] })).toEqual([
      "pot-lighter-than-empty pot1_start_g",
      "pot-lighter-than-empty pot1_end_g",
    ]);
    expect(faults({ pots: [pot(5800, 800, 20, 97)] })).toEqual([]);
  });

  const independent = { name: "resolution", kind: "independent", degreesOfFreedom: null } as const;
  const gained = ["pot-gained pot1_end_g"];
  test.each([
    ["nothing is known of the balance: 2 g", defaultSettings(), 2, []],
    ["nothing is known of the balance: more", defaultSettings(), 2.01, gained],
    // Two readings, each half a digit off at most.
    ["a digit of 1 g", withBalance([{ ...independent, distribution: "rectangular", size: { halfWidth: 0.5 } }]), 1, []],
    [
      "a digit of 1 g",
      withBalance([{ ...independent, distribution: "rectangular", size: { halfWidth: 0.5 } }]),
      1.01,
      gained,
    ],
    // 2·√2·1.5 g = 4.243 g.
    [
      "normal, u = 1.5 g",
      withBalance([{ ...independent, distribution: "normal", size: { standardUncertainty: 1.5 } }]),
      4.24,
      [],
    ],
    [
      "normal, u = 1.5 g",
      withBalance([{ ...independent, distribution: "normal", size: { standardUncertainty: 1.5 } }]),
      4.25,
      gained,
    ],
    [
      "a gain is the same in both weighings",
      withBalance([{ ...independent, kind: "shared", distribution: "normal", size: { standardUncertainty: 50 } }]),
      0.1,
      gained,
    ],
    [
      "the fuel's balance weighs the pots too",
      withBalance([{ ...independent, distribution: "rectangular", size: { halfWidth: 5 } }], "fuelBalance"),
      10,
      [],
    ],
  ])("heavier at the end; %s", (_, settings, gain, expected) => {
    expect(faults({ pots: [pot(5800, 5800 + gain, 20, 97)] }, settings)).toEqual(expected);
  });

  test("water cools in a holding phase only", () => {
    const pots = [pot(5800, 5650, 97, 96)];
    expect(faults({ pots })).toEqual(["water-cooled pot1_end_C"]);
    expect(faults({ pots, phase: "simmer" })).toEqual([]);
    expect(faults({ pots, phase: "high-power" })).toEqual([]);
  });

  /** IAPWS-IF97 puts 100 °C at 101.42 kPa; 79.5 kPa (2000 m, ISO 2533) gives 93.3 °C. */
  test.each([
    [{ measured: reading(95), pressure: reading(101.42), altitude: null }, 100, []],
    [{ measured: reading(95), pressure: reading(101.42), altitude: null }, 100.1, ["water-above-boiling pot1_end_C"]],
    [{ measured: null, pressure: reading(79.5), altitude: reading(0) }, 98.2, []],
    [{ measured: null, pressure: reading(79.5), altitude: reading(0) }, 98.5, ["water-above-boiling pot1_end_C"]],
    [{ measured: null, pressure: null, altitude: reading(2000) }, 98.5, ["water-above-boiling pot1_end_C"]],
    [{ measured: null, pressure: null, altitude: null }, 110, []],
  ])("hotter than boiling by more than 5 K: %j, %d °C", (boilingPoint, hot, expected) => {
    expect(faults({ boilingPoint, pots: [pot(5800, 5650, 20, hot)] })).toEqual(expected);
  });
});

describe("single numbers", () => {
  test.each<[ReadingDomainName, number, string | null]>([
    ["mass", 0, null],
    ["mass", -0.1, "negative-mass"],
    ["positiveMass", 0, "not-positive"],
    ["positiveMass", -1, "negative-mass"],
    ["moistureWet", 0, null],
    ["moistureWet", 99.9, null],
    ["moistureWet", 100, "moisture-out-of-range"],
    ["moistureDry", 135, null],
    ["moistureDry", -1, "moisture-out-of-range"],
    ["airTemperature", -40, null],
    ["airTemperature", 60.1, "temperature-out-of-range"],
    ["waterTemperature", 110, null],
    ["waterTemperature", -5.1, "temperature-out-of-range"],
    ["boilingPoint", 59.9, "temperature-out-of-range"],
    ["pressure", 29.9, "pressure-out-of-range"],
    ["altitude", 9000.1, "altitude-out-of-range"],
    ["mass", 1_000_000, null],
    ["positiveMass", 1_000_000.1, "mass-too-large"],
    ["moistureDry", 1000, null],
    ["moistureDry", 1000.1, "moisture-out-of-range"],
    ["calorificValue", 0, "not-positive"],
    ["calorificValue", 18.4, "calorific-value-out-of-range"],
    ["calorificValue", 4999.9, "calorific-value-out-of-range"],
    ["calorificValue", 5000, null],
    // Hydrogen, gross: 141 800 kJ/kg (from memory).
    ["calorificValue", 141_800, null],
    ["calorificValue", 150_000.1, "calorific-value-out-of-range"],
    ["hydrogen", 20.1, "hydrogen-out-of-range"],
    ["duration", 720, null],
    ["duration", 720.1, "duration-too-long"],
    ["duration", 0, "duration-not-positive"],
    ["anyNumber", -1e9, null],
    ["mass", Number.NaN, null],
  ])("%s of %d", (domain, value, rule) => {
    expect(readingDomainFault(domain, value)?.rule ?? null).toBe(rule);
  });

  test.each([
    ["pot", 5.8, "thousandth"],
    ["pot", 20, null],
    ["fuel", 0.9, "thousandth"],
    ["fuel", 5, null],
    ["fuel", 0, null],
    ["charContainer", 0.25, "thousandth"],
    ["charContainer", 5, null],
    ["char", 0.045, "thousandth"],
    ["char", 0.5, null],
    ["pot", 5_800_000, "thousandfold"],
  ] as const)("a %s of %d g under another unit's heading", (what, grams, doubt) => {
    expect(massUnitDoubt(what, grams)).toBe(doubt);
  });
});
