import { describe, expect, test } from "vitest";
import { emptySettingsFile, readSettings, settingsFor, writeSettings } from "../../app/import/index.ts";

const read = (value: unknown, flags = {}) =>
  readSettings(new TextEncoder().encode(typeof value === "string" ? value : JSON.stringify(value)), "s.json", flags);
const settingsOf = (value: unknown, flags = {}) => {
  const { settings, problems } = read(value, flags);
  if (settings === null) expect.fail(problems.map(({ message }) => message).join(" "));
  return settings;
};

/** The example of the design of the readings file. */
const example = {
  method: "wbt",
  confidence: 0.95,
  fuels: {
    "dry eucalyptus": {
      netCalorific: {
        value: 18400,
        components: [{ name: "bomb calorimeter", distribution: "normal", standardUncertainty: 180, kind: "shared" }],
      },
    },
  },
  char: { netCalorific: { value: 29500, components: [] } },
  instruments: {
    fuelBalance: {
      components: [
        { name: "resolution", distribution: "rectangular", halfWidth: 0.5, kind: "independent" },
        { name: "gain", distribution: "normal", relativeExpandedUncertainty: 0.002, coverageFactor: 2, kind: "shared" },
      ],
    },
    potBalance: "fuelBalance",
    moistureMeter: { standardUncertainty: 1.5 },
    thermometer: { resolution: 0.1 },
  },
  monteCarlo: { trials: 1000, seed: 7 },
};

describe("a settings file", () => {
  const settings = settingsOf(example);

  test("components, sizes and shared instruments", () => {
    expect(settings.instruments.get("fuelBalance")).toEqual({
      components: [
        {
          name: "resolution",
          distribution: "rectangular",
          size: { halfWidth: 0.5 },
          kind: "independent",
          degreesOfFreedom: null,
        },
        {
          name: "gain",
          distribution: "normal",
          size: { relativeExpandedUncertainty: 0.002, coverageFactor: 2 },
          kind: "shared",
          degreesOfFreedom: null,
        },
      ],
    });
    expect(settings.instruments.get("potBalance")).toEqual({ sameAs: "fuelBalance" });
    expect(settings.fuels.get("dry eucalyptus")?.netCalorific?.components).toHaveLength(1);
  });

  test("short forms: a resolution is one digit, half of it to either side; a standard uncertainty is shared", () => {
    expect(settings.instruments.get("thermometer")).toMatchObject({
      components: [{ distribution: "rectangular", size: { halfWidth: 0.05 }, kind: "independent" }],
    });
    expect(settings.instruments.get("moistureMeter")).toMatchObject({
      components: [{ distribution: "normal", size: { standardUncertainty: 1.5 }, kind: "shared" }],
    });
  });

  test("what is absent takes the defaults", () => {
    expect(settingsOf({})).toEqual(emptySettingsFile());
  });

  test("Monte Carlo: 0 trials are none, the adaptive stop is kept where it is asked for, and an instrument's source", () => {
    const monteCarlo = { trials: 0, seed: 4, adaptive: true };
    const read = settingsOf({
      instruments: { clock: { resolution: 1, source: "watch of the workshop" } },
      monteCarlo,
    });
    expect(read.monteCarlo).toEqual({ trials: 0, seed: 4, adaptive: true });
    expect(read.instruments.get("clock")).toMatchObject({ source: "watch of the workshop" });
    expect(JSON.parse(writeSettings(settingsFor(read, []))).monteCarlo).toEqual(monteCarlo);
    expect(settingsOf({ monteCarlo: { trials: 5, seed: 4, adaptive: false } }).monteCarlo).toEqual({
      trials: 5,
      seed: 4,
    });
  });

  test("pots, place, calibrations and sources of fuels are read, and written back as they were", () => {
    const written = {
      fuels: { bark: { netCalorific: { value: 17000 }, source: "Laboratory, no. 4" } },
      pots: { "no. 3": { emptyMass_g: 452.5, volume_L: 7 }, small: { emptyMass_g: 310 } },
      place: { name: "yard", altitude_m: 1600, pressure_kPa: 83.4 },
      instruments: {
        thermometer: {
          components: [],
          calibrations: [{ from: "2026-01-12", until: "2027-01-11", certificate: "K 17" }, { from: "2027-02-01" }],
        },
      },
    };
    const read = settingsOf(written);
    expect(read.fuels.get("bark")?.source).toBe("Laboratory, no. 4");
    expect(read.pots).toEqual([
      { name: "no. 3", emptyMass: 452.5, volume: 7 },
      { name: "small", emptyMass: 310, volume: null },
    ]);
    expect(read.place).toEqual({ name: "yard", altitude: 1600, pressure: 83.4 });
    expect(read.instruments.get("thermometer")).toEqual({
      components: [],
      calibrations: [
        { from: "2026-01-12", until: "2027-01-11", certificate: "K 17" },
        { from: "2027-02-01", until: null, certificate: null },
      ],
    });
    const again = JSON.parse(writeSettings(settingsFor(read, [])));
    expect(again).toMatchObject(written);
    expect(settingsOf(again)).toMatchObject({ ...read, method: "wbt", confidence: 0.95 });
  });

  test("calibrations alone describe an instrument without errors", () => {
    const read = settingsOf({ instruments: { clock: { calibrations: [{ from: "2026-01-12" }] } } });
    expect(read.instruments.get("clock")).toMatchObject({ components: [], calibrations: [{ from: "2026-01-12" }] });
  });

  test("fuels may be called anything", () => {
    const text = '{"fuels":{"__proto__":{"netCalorific":18000},"constructor":{"grossCalorific":19700}}}';
    const { fuels } = settingsOf(text);
    expect([...fuels.keys()]).toEqual(["__proto__", "constructor"]);
    expect(fuels.get("__proto__")?.netCalorific).toEqual({ value: 18_000, components: [] });
  });

  test.each([
    ['{"__proto__":1}', "__proto__"],
    ['{"instruments":{"__proto__":{"resolution":1}}}', "instruments.__proto__"],
    ['{"monteCarlo":{"constructor":1}}', "monteCarlo.constructor"],
  ])("a key that is no setting is refused: %s", (text, column) => {
    expect(read(text).problems.map((problem) => [problem.rule, problem.column])).toEqual([["unknown-key", column]]);
  });

  test.each([
    ["a half-width of 1e300 g", { halfWidth: 1e300 }, "halfWidth"],
    ["an error smaller than any", { standardUncertainty: 5e-324 }, "standardUncertainty"],
    ["a coverage factor of 0", { expandedUncertainty: 1, coverageFactor: 0 }, "coverageFactor"],
    ["a coverage factor next to 0", { expandedUncertainty: 1, coverageFactor: 1e-300 }, "coverageFactor"],
  ])("%s, whose square is no number of a computer's, is refused where it stands", (_, size, key) => {
    const component = { name: "x", distribution: "rectangular", kind: "shared", ...size };
    const { settings, problems } = read({ instruments: { fuelBalance: { components: [component] } } });
    expect(settings).toBeNull();
    expect(problems.map(({ column }) => column)).toEqual([`instruments.fuelBalance.components[0].${key}`]);
    expect(problems[0]?.message).toMatch(/above zero/);
  });

  test("all problems at once", () => {
    const { problems } = read({
      confidence: 2,
      instruments: { clock: { resolution: -1 } },
      monteCarlo: { trials: 1.5 },
    });
    expect(problems.map(({ column }) => column).sort()).toEqual([
      "confidence",
      "instruments.clock.resolution",
      "monteCarlo.trials",
    ]);
  });
});

describe("method and confidence", () => {
  const wbt = { method: "wbt" as const };
  const iso = { method: "iso" as const };

  test.each([
    ["nothing said, all runs ISO", {}, [iso, iso], null, "iso", 0.9],
    ["nothing said, runs of both", {}, [iso, wbt], null, "wbt", 0.95],
    ["nothing said, no runs", {}, [], null, "wbt", 0.95],
    ["the file beats the runs", { method: "wbt" }, [iso], null, "wbt", 0.95],
    ["the flag beats the file", { method: "wbt" }, [wbt], "iso", "iso", 0.9],
    ["a confidence that is given stays", { confidence: 0.8 }, [iso], "iso", "iso", 0.8],
  ] as const)("%s", (_, file, runs, flag, method, confidence) => {
    expect(settingsFor(settingsOf(file), runs, flag)).toMatchObject({ method, confidence });
    expect(settingsFor(settingsOf(file, { method: flag }), runs)).toMatchObject({ method, confidence });
  });
});
