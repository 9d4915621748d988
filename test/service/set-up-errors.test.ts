import { beforeEach, describe, expect, it } from "vitest";
import { startingValues, wordsFor } from "../../core/index.ts";
import { exported, make, restart, show, undoLast } from "./own-program.ts";
import {
  add,
  adding,
  begunStudy,
  change,
  changing,
  looked,
  refused,
  remove,
  removing,
  row,
  section,
} from "./set-up-page.ts";

/** Errors entered one by one, starting values, and Monte Carlo, as a person enters them on the Study page. */

beforeEach(looked);

const settings = async () => JSON.parse(await exported("settings.json"));
const items = async () => (await section("error")).items.map(({ item }) => item);

const gain = {
  of: "fuelBalance",
  name: "gain",
  size: "0,2",
  in: "relative",
  given: "expandedUncertainty",
  coverageFactor: "2",
  distribution: "normal",
  kind: "shared",
};
const gainWritten = {
  name: "gain",
  distribution: "normal",
  relativeExpandedUncertainty: 0.002,
  coverageFactor: 2,
  kind: "shared",
};

describe("errors, one by one", () => {
  /** Each way to give a size, as a settings file would say it. */
  it.each([
    ["absolute", "halfWidth", "rectangular", { halfWidth: 0.5 }],
    ["absolute", "halfWidth", "triangular", { halfWidth: 0.5 }],
    ["relative", "halfWidth", "triangular", { relativeHalfWidth: 0.005 }],
    ["absolute", "standardUncertainty", "normal", { standardUncertainty: 0.5 }],
    ["relative", "standardUncertainty", "rectangular", { relativeStandardUncertainty: 0.005 }],
    ["absolute", "expandedUncertainty", "normal", { expandedUncertainty: 0.5, coverageFactor: 2 }],
    ["relative", "expandedUncertainty", "normal", { relativeExpandedUncertainty: 0.005, coverageFactor: 2 }],
  ])("%s, %s, %s", async (size, given, distribution, written) => {
    await begunStudy();
    await add("error", { of: "thermometer", name: "any", size: "0.5", in: size, given, distribution, kind: "shared" });
    const { components } = (await settings()).instruments.thermometer;
    expect(components).toEqual([{ name: "any", distribution, kind: "shared", ...written }]);
    const { byField } = await row("error", "thermometer/1");
    expect(byField).toMatchObject({ of: "thermometer", size: "0.5", in: size, given, distribution });
  });

  it("of an instrument are added, changed, kept, undone and removed, each as one edit", async () => {
    await begunStudy();
    await add("error", gain);
    expect((await settings()).instruments.fuelBalance.components).toEqual([gainWritten]);
    await change("error", "fuelBalance/1", { coverageFactor: "2,2" });
    await change("error", "fuelBalance/1", { degreesOfFreedom: "4" });
    const { done } = await change("error", "fuelBalance/1", { kind: "independent" });
    expect(done).toBe("Saved: error “gain, balance for fuel and char” set up");
    await restart();
    const changed = { ...gainWritten, coverageFactor: 2.2, kind: "independent", degreesOfFreedom: 4 };
    expect((await settings()).instruments.fuelBalance.components).toEqual([changed]);
    await remove("error", "fuelBalance/1");
    expect((await settings()).instruments).toEqual({});
    await undoLast();
    expect((await settings()).instruments.fuelBalance.components).toEqual([changed]);
  });

  it("stand beside what the short fields say, and the other way round", async () => {
    await begunStudy();
    await change("instrument", "fuelBalance", { resolution: "1" });
    await add("error", gain);
    expect(await items()).toEqual(["fuelBalance/1", "fuelBalance/2"]);
    expect((await row("instrument", "fuelBalance")).byField).toMatchObject({
      resolution: "1",
      relativeStandardUncertainty_percent: "0.1",
    });
    await add("error", { ...gain, name: "repeatability", in: "absolute", size: "0.4", kind: "independent" });
    // JCGM 100:2008, 4.3.7 and 5.1.2: 0.5/√3 and 0.4/2 g are 0.35 g together, and all of it is new at each reading.
    const { detail } = await row("instrument", "fuelBalance");
    expect(detail).toContain("standard uncertainty 0.35 g and 0.10 % of the reading");
    expect(detail).toContain("new at each reading: 0.35 g; shared by all readings: 0.10 % of the reading");
    expect(detail).toContain("further errors, under Errors: repeatability");
  });

  it("of a fuel's calorific value, of its hydrogen and of the char", async () => {
    await begunStudy();
    await add("fuel", { name: "beech", calorific_kJ_per_kg: "19800", basis: "gross", hydrogen_percent: "6,2" });
    const { items: rows, fields } = await section("error");
    expect(rows).toEqual([]);
    const owners = fields.find(({ field }) => field === "of")?.choices?.map(({ label }) => label) ?? [];
    expect(owners).toEqual(
      expect.arrayContaining(["beech: calorific value", "beech: hydrogen", "char: calorific value", "clock, s"]),
    );
    const [fuel] = (await section("fuel")).items;
    const shared = { given: "standardUncertainty", distribution: "normal", kind: "shared" };
    await add("error", { of: `fuel/${fuel?.item}/calorific`, name: "bomb", size: "0,6", in: "relative", ...shared });
    await add("error", { of: `fuel/${fuel?.item}/hydrogen`, name: "analysis", size: "0.2", in: "absolute", ...shared });
    await add("error", { of: "char", name: "assumed", size: "500", in: "absolute", ...shared });
    const written = await settings();
    expect(written.fuels.beech).toEqual({
      grossCalorific: {
        value: 19_800,
        components: [{ name: "bomb", distribution: "normal", relativeStandardUncertainty: 0.006, kind: "shared" }],
      },
      hydrogenPercent: {
        value: 6.2,
        components: [{ name: "analysis", distribution: "normal", standardUncertainty: 0.2, kind: "shared" }],
      },
    });
    expect(written.char.netCalorific.components).toMatchObject([{ name: "assumed", standardUncertainty: 500 }]);
    await remove("error", "char/1");
    expect((await settings()).char.netCalorific).toEqual({ value: 29_500 });
  });

  it("move from one instrument to another, from a calorific value to its hydrogen", async () => {
    await begunStudy();
    await add("error", gain);
    await change("error", "fuelBalance/1", { of: "potBalance" });
    expect((await settings()).instruments).toEqual({ potBalance: { components: [gainWritten] } });
    await add("fuel", { name: "beech", calorific_kJ_per_kg: "19800", basis: "gross", hydrogen_percent: "6" });
    const [fuel] = (await section("fuel")).items;
    await change("error", "potBalance/1", { of: `fuel/${fuel?.item}/calorific` });
    await change("error", `fuel/${fuel?.item}/calorific/1`, { of: `fuel/${fuel?.item}/hydrogen` });
    const written = await settings();
    expect(written.instruments).toEqual({});
    expect(written.fuels.beech).toEqual({
      grossCalorific: { value: 19_800 },
      hydrogenPercent: { value: 6, components: [gainWritten] },
    });
  });

  it("keep calibrations and source of their instrument", async () => {
    await begunStudy();
    await change("instrument", "fuelBalance", { resolution: "1", source: "data sheet" });
    await add("calibration", { instrument: "fuelBalance", from: "2026-01-01" });
    await add("error", gain);
    await remove("calibration", "fuelBalance");
    expect((await settings()).instruments.fuelBalance).toMatchObject({
      components: [{ name: "resolution" }, gainWritten],
      source: "data sheet",
    });
  });

  it("a half-width becomes an expanded uncertainty with k = 2, and loses k again", async () => {
    await begunStudy();
    await add("error", { ...gain, given: "halfWidth", coverageFactor: "", distribution: "rectangular" });
    await change("error", "fuelBalance/1", { given: "expandedUncertainty" });
    expect((await row("error", "fuelBalance/1")).byField).toMatchObject({ coverageFactor: "2", size: "0.2" });
    await change("error", "fuelBalance/1", { given: "standardUncertainty" });
    expect((await row("error", "fuelBalance/1")).byField).toMatchObject({ coverageFactor: "", size: "0.2" });
  });

  it("with few degrees of freedom say how much wider they are drawn", async () => {
    await begunStudy();
    await add("error", { ...gain, degreesOfFreedom: "4" });
    // JCGM 101:2008, 6.4.9.4: the root of 4/(4 − 2).
    expect((await row("error", "fuelBalance/1")).detail).toMatch(
      /0\.10 % of the reading; drawn as t with 4 .* 1\.41 times/,
    );
    await change("error", "fuelBalance/1", { degreesOfFreedom: "2" });
    expect((await row("error", "fuelBalance/1")).detail).toMatch(/no finite standard deviation/);
  });

  it.each([
    ["a size of nought", { size: "0" }, /^size: .*above zero/],
    ["a share of 100 %", { size: "100", in: "relative" }, /^size: .*below 100/],
    ["a size in words", { size: "much" }, /^size: /],
    ["no name", { name: " " }, /name cannot be empty/],
    ["a normal half-width", { given: "halfWidth", distribution: "normal", coverageFactor: "" }, /no half-width/],
    ["k of a half-width", { given: "halfWidth", distribution: "rectangular", coverageFactor: "2" }, /^k: k belongs/],
    ["negative degrees of freedom", { degreesOfFreedom: "-1" }, /^degrees of freedom: /],
    ["a kind that is none", { kind: "both" }, /cannot be chosen/],
    ["an instrument that is none", { of: "ruler" }, /cannot be chosen/],
  ])("refuses %s", async (_what, changed, message) => {
    await begunStudy();
    expect(await refused(adding("error", { ...gain, in: "absolute", ...changed }))).toMatch(message);
    expect((await settings()).instruments).toEqual({});
  });

  it("refuses a name that its instrument has already, an instrument that is another's, and a row that is gone", async () => {
    await begunStudy();
    await add("error", gain);
    expect(await refused(adding("error", gain))).toMatch(/There is an error “gain” of balance for fuel and char/);
    await change("instrument", "potBalance", { sameAs: "fuelBalance" });
    expect(await refused(adding("error", { ...gain, of: "potBalance" }))).toMatch(/cannot be chosen/);
    expect(await refused(await removing("error", "fuelBalance/1"))).toMatch(/balance for pots is the same instrument/);
    await change("instrument", "potBalance", { sameAs: "" });
    const edit = await changing("error", "fuelBalance/1", { size: "0.3" });
    await remove("error", "fuelBalance/1");
    expect(await refused(edit)).toMatch(/It is not there any more/);
  });
});

describe("starting values", () => {
  const taken = async (label: RegExp) => {
    const entry = (await section("instrument")).catalogue?.entries.find((one) => label.test(one.label));
    if (entry === undefined) throw new Error(String(label));
    const fields = entry.fields.map((one) => ({ ...one, was: "" }));
    return { entry, edit: { kind: "setUp", subject: "instrument", item: entry.item, fields } as const };
  };

  it("of every kind are taken over as one edit, with their source, and their numbers edited then", async () => {
    await begunStudy();
    const entries = (await section("instrument")).catalogue?.entries ?? [];
    expect(entries).toHaveLength(startingValues.flatMap(({ roles }) => roles).length);
    for (const { item, fields, source } of entries) {
      await make({ kind: "setUp", subject: "instrument", item, fields: fields.map((one) => ({ ...one, was: "" })) });
      const { instruments } = await settings();
      expect(instruments[item ?? ""].source).toBe(source);
      expect(instruments[item ?? ""].components.length).toBeGreaterThan(0);
      await undoLast();
      expect((await settings()).instruments).toEqual({});
    }
    await make((await taken(/^kitchen or bench balance, 1 g, balance for fuel/)).edit);
    await change("error", "fuelBalance/2", { size: "0.1" });
    await change("instrument", "fuelBalance", { resolution: "2", source: "weighed a known mass" });
    expect((await settings()).instruments.fuelBalance).toEqual({
      components: [
        { name: "resolution", distribution: "rectangular", halfWidth: 1, kind: "independent" },
        { name: "gain", distribution: "rectangular", relativeHalfWidth: 0.001, kind: "shared" },
      ],
      source: "weighed a known mass",
    });
  });

  it("take the place of all that was said of the errors, and leave the calibrations", async () => {
    await begunStudy();
    await change("instrument", "thermometer", { resolution: "0.5", standardUncertainty: "3" });
    await add("calibration", { instrument: "thermometer", from: "2026-01-01" });
    await make((await taken(/thermocouple, 0\.1/)).edit);
    const { thermometer } = (await settings()).instruments;
    expect(thermometer.components.map(({ name }: { name: string }) => name)).toEqual([
      "resolution",
      "gain",
      "meter and its junction",
    ]);
    expect(thermometer.calibrations).toEqual([{ from: "2026-01-01" }]);
    // What the short fields show: 2.5 % and 1 °C over the root of three (JCGM 100:2008, 4.3.7).
    expect((await row("instrument", "thermometer")).byField).toMatchObject({
      resolution: "0.1",
      standardUncertainty: "0.577",
      relativeStandardUncertainty_percent: "1.44",
    });
    const told = (await show()).settings.find(({ name }) => name === "thermometer");
    expect(told?.detail).toContain(`source: ${thermometer.source}`);
  });

  it("are for their own use alone", async () => {
    await begunStudy();
    const { edit } = await taken(/thermocouple, 1 /);
    expect(await refused({ ...edit, item: "clock" })).toMatch(/cannot be set up here/);
  });

  it("of the char: its assumed value with its error and source", async () => {
    await begunStudy();
    const [entry] = (await section("study")).catalogue?.entries ?? [];
    await change("study", null, { charCalorific_kJ_per_kg: "31000" });
    const fields = entry?.fields.map((one) => ({ ...one, was: "" })) ?? [];
    await make({ kind: "setUp", subject: "study", item: null, fields });
    const { char } = await settings();
    expect(char).toMatchObject({
      netCalorific: { value: 29_500, components: [{ name: "assumed value", standardUncertainty: 1500 }] },
      source: wordsFor("en").setUpWork.assumedChar.source,
    });
    await change("study", null, { charSource: "own analysis, no. 3" });
    expect((await settings()).char.source).toBe("own analysis, no. 3");
    await undoLast();
    await undoLast();
    expect((await settings()).char).toEqual({ netCalorific: { value: 31_000 } });
  });
});

describe("Monte Carlo", () => {
  it("trials, seed and stop are set, kept and undone", async () => {
    await begunStudy();
    expect((await row("monteCarlo", null)).byField).toEqual({ trials: "200000", adaptive: "no", seed: "1" });
    await change("monteCarlo", null, { trials: "1000000" });
    await change("monteCarlo", null, { adaptive: "yes" });
    const { done } = await change("monteCarlo", null, { seed: "7" });
    expect(done).toBe("Saved: seed “7” set up");
    await restart();
    expect((await settings()).monteCarlo).toEqual({ trials: 1_000_000, seed: 7, adaptive: true });
    expect((await row("monteCarlo", null)).detail).toMatch(/^at most 1.000.000 trials/);
    await change("monteCarlo", null, { adaptive: "no" });
    expect((await settings()).monteCarlo).toEqual({ trials: 1_000_000, seed: 7 });
    await undoLast();
    expect((await settings()).monteCarlo.adaptive).toBe(true);
  });

  it("none is 0 trials, and too few for the confidence are told", async () => {
    await begunStudy();
    await change("monteCarlo", null, { trials: "0" });
    expect((await row("monteCarlo", null)).detail).toMatch(/^no Monte Carlo/);
    // JCGM 101:2008, 7.2 (from memory): 10⁴ times 1/(1 − p), at p = 0.95.
    await change("monteCarlo", null, { trials: "199999" });
    expect((await row("monteCarlo", null)).detail).toMatch(/too few .*200.000 or more/);
    await change("monteCarlo", null, { trials: "200000" });
    expect((await row("monteCarlo", null)).detail).not.toMatch(/too few/);
  });

  it.each([
    [{ trials: "-1" }, /^trials: .*from 1 to 10 000 000, or 0/],
    [{ trials: "1000,5" }, /^trials: /],
    [{ trials: "10000001" }, /^trials: /],
    [{ seed: "0.5" }, /^seed: .*whole number/],
    [{ trials: "" }, /trials cannot be empty/],
  ])("refuses %o", async (typed, message) => {
    await begunStudy();
    expect(await refused(await changing("monteCarlo", null, typed))).toMatch(message);
  });
});

it("a balance without a gain is asked about, with the part of the set-up where it is entered, until it has one", async () => {
  const asked = async () => (await show()).questions.find(({ rule }) => rule === "balanceWithoutGain");
  expect(await asked()).toBeUndefined();
  await change("error", "fuelBalance/2", { in: "absolute" });
  await looked();
  expect(await asked()).toMatchObject({ run: null, setUp: "instrument" });
  await change("error", "fuelBalance/2", { in: "relative" });
  await looked();
  expect(await asked()).toBeUndefined();
});
