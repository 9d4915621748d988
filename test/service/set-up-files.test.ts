import { beforeEach, describe, expect, it } from "vitest";
import type { SetUpSubject } from "../../app/contract/index.ts";
import { ask, door, exported, good, imported, restart, show, undoLast, who } from "./own-program.ts";
import {
  add,
  begunStudy,
  change,
  changing,
  looked,
  names,
  refused,
  remove,
  removing,
  row,
  section,
} from "./set-up-page.ts";

const upload = (name: string, content: string | Buffer) => ({
  name,
  contentBase64: Buffer.from(content).toString("base64"),
});

beforeEach(looked);

describe("fuels", () => {
  it("are renamed in the runs that name them, in one step", async () => {
    const [fuel] = await names("fuel");
    const { detail } = await row("fuel", fuel ?? "");
    const before = await exported("results.json");
    await change("fuel", fuel ?? "", { name: "other wood" });
    expect((await row("fuel", "other wood")).detail).toBe(detail);
    const readings = await exported("readings.csv");
    expect(readings).toContain("other wood");
    expect(readings).not.toContain(fuel);
    const values = (json: string) => JSON.parse(json).variants;
    expect(values(await exported("results.json"))).toEqual(values(before));
    await undoLast();
    expect(await exported("readings.csv")).toContain(fuel);
  });

  it("that runs name are not removed, and the refusal says where", async () => {
    const [fuel = ""] = await names("fuel");
    expect((await row("fuel", fuel)).isRemovable).toBe(false);
    expect(await refused(await removing("fuel", fuel))).toMatch(/is named in 25 runs \(R01, R02, R03, and 22 more\)/);
  });

  it("are not mixed with those of another name that runs have", async () => {
    const [fuel = ""] = await names("fuel");
    await add("fuel", { name: "bark", calorific_kJ_per_kg: "17000", basis: "net" });
    expect(await refused(await changing("fuel", "bark", { name: fuel }))).toMatch(/already/);
    await change("fuel", "bark", { name: "bark, dry" });
    expect(await names("fuel")).toEqual([fuel, "bark, dry"]);
  });

  it("keep what a settings file says of their errors beyond the field, and take the field's place of one of them", async () => {
    const [fuel = ""] = await names("fuel");
    await change("fuel", fuel, { standardUncertainty_kJ_per_kg: "250" });
    const { fuels } = JSON.parse(await exported("settings.json"));
    expect(fuels[fuel].netCalorific.components).toEqual([
      expect.objectContaining({ kind: "shared", distribution: "normal", standardUncertainty: 250 }),
    ]);
    expect((await row("fuel", fuel)).detail).toMatch(/standard uncertainty 250 kJ\/kg/);
  });

  it("change from net to gross with their value and its error", async () => {
    await begunStudy();
    await add("fuel", {
      name: "beech",
      calorific_kJ_per_kg: "19800",
      basis: "net",
      standardUncertainty_kJ_per_kg: "300",
    });
    await change("fuel", "beech", { basis: "gross", hydrogen_percent: "6,2" });
    expect(JSON.parse(await exported("settings.json")).fuels.beech).toMatchObject({
      grossCalorific: { value: 19_800, components: [{ standardUncertainty: 300 }] },
      hydrogenPercent: { value: 6.2 },
    });
  });

  it("are taken over from the table, with source and uncertainty, and edited then", async () => {
    await begunStudy();
    const entries = (await section("fuel")).catalogue?.entries ?? [];
    expect(entries.length).toBeGreaterThanOrEqual(12);
    for (const { label, fields, source } of entries) {
      const filled = Object.fromEntries(fields.map(({ field, text }) => [field, text]));
      await add("fuel", filled);
      expect((await row("fuel", label)).byField).toMatchObject({ ...filled, source });
    }
    await change("fuel", "eucalyptus", { calorific_kJ_per_kg: "19000" });
    const { fuels } = await show();
    expect(fuels.find(({ name }) => name === "eucalyptus")?.detail).toMatch(
      /19\s?000.*source: Biomass Energy Data Book/,
    );
  });
});

describe("instruments", () => {
  it("have their errors as a settings file would say them", async () => {
    await begunStudy();
    await change("instrument", "fuelBalance", { resolution: "1", relativeStandardUncertainty_percent: "0,15" });
    await change("instrument", "potBalance", { sameAs: "fuelBalance" });
    await change("instrument", "thermometer", { resolution: "0.1", standardUncertainty: "0.5" });
    const { instruments } = JSON.parse(await exported("settings.json"));
    expect(instruments).toEqual({
      fuelBalance: {
        components: [
          { name: "resolution", distribution: "rectangular", halfWidth: 0.5, kind: "independent" },
          { name: "proportional", distribution: "normal", relativeStandardUncertainty: 0.0015, kind: "shared" },
        ],
      },
      potBalance: "fuelBalance",
      thermometer: {
        components: [
          { name: "resolution", distribution: "rectangular", halfWidth: 0.05, kind: "independent" },
          { name: "standard uncertainty", distribution: "normal", standardUncertainty: 0.5, kind: "shared" },
        ],
      },
    });
    // JCGM 100:2008, 4.3.7: half a digit over the root of three; with 0.5 °C beside it, 0.5008 °C.
    expect((await row("instrument", "fuelBalance")).detail).toMatch(/0\.29 g and 0\.15 % of the reading/);
    expect((await row("instrument", "thermometer")).detail).toMatch(/0\.50 °C/);
  });

  it("keep further errors of a file", async () => {
    const components = [
      { name: "digit", distribution: "rectangular", halfWidth: 0.5, kind: "independent" },
      { name: "gain", distribution: "triangular", relativeHalfWidth: 0.004, kind: "shared" },
      { name: "drift", distribution: "normal", expandedUncertainty: 0.8, coverageFactor: 2, kind: "shared" },
      { name: "repeatability", distribution: "normal", standardUncertainty: 0.3, kind: "independent" },
    ];
    const settings = upload("s.json", JSON.stringify({ instruments: { potBalance: { components } } }));
    const readings = upload("week.csv", good);
    const { importId } = await ask<"import.check">({ kind: "import.check", readings, settings });
    await door.ask({ kind: "import.accept", importId, into: { kind: "new", studyName: "Taken in" }, who });
    const { detail, byField } = await row("instrument", "potBalance");
    // 0.4 % over the root of six: JCGM 100:2008, 4.3.9.
    expect(byField).toMatchObject({
      resolution: "1",
      standardUncertainty: "0.4",
      relativeStandardUncertainty_percent: "0.163",
    });
    expect(detail).toMatch(/further errors, under Errors: repeatability standard uncertainty 0\.3 g/);
    expect(detail).not.toMatch(/gain/);
    await change("instrument", "potBalance", { resolution: "2" });
    expect(JSON.parse(await exported("settings.json")).instruments.potBalance.components).toEqual([
      { ...components[0], halfWidth: 1 },
      ...components.slice(1),
    ]);
    await change("instrument", "potBalance", { relativeStandardUncertainty_percent: "0.1" });
    expect(JSON.parse(await exported("settings.json")).instruments.potBalance.components[1]).toEqual({
      name: "gain",
      distribution: "triangular",
      relativeStandardUncertainty: 0.001,
      kind: "shared",
    });
  });

  it("that others are the same as stay, and circles are refused", async () => {
    await begunStudy();
    await change("instrument", "fuelBalance", { resolution: "1" });
    await change("instrument", "potBalance", { sameAs: "fuelBalance" });
    expect(await refused(await removing("instrument", "fuelBalance"))).toMatch(/balance for pots is the same/);
    expect(await refused(await changing("instrument", "fuelBalance", { resolution: "" }))).toMatch(
      /balance for pots is the same/,
    );
    expect(await refused(await changing("instrument", "fuelBalance", { sameAs: "potBalance" }))).toMatch(
      /is the same instrument/,
    );
    expect(await refused(await changing("instrument", "clock", { sameAs: "barometer" }))).toMatch(/not set up yet/);
    expect(await refused(await changing("instrument", "clock", { sameAs: "clock" }))).toMatch(/same as itself/);
    expect(await refused(await changing("instrument", "potBalance", { resolution: "2" }))).toMatch(/change it there/);
    await remove("instrument", "potBalance");
    await remove("instrument", "fuelBalance");
    expect(JSON.parse(await exported("settings.json")).instruments).toEqual({});
  });
});

describe("place and method", () => {
  it("the boiling point is told at once, and counts the pressure before the altitude", async () => {
    await begunStudy();
    expect((await row("place", null)).detail).toMatch(/not known/);
    await change("place", null, { altitude_m: "1500", name: "yard" });
    // ISO 2533: 84.56 kPa at 1500 m; steam tables: water boils at 95 °C under 84.6 kPa (both from memory).
    expect((await row("place", null)).detail).toBe("water boils at 95.0 °C");
    await change("place", null, { pressure_kPa: "101,325" });
    expect((await row("place", null)).detail).toMatch(/^water boils at 100\.0 °C, by the air pressure/);
    expect(await refused(await changing("place", null, { pressure_kPa: "899" }))).toMatch(/air pressure: .*899 hPa/);
    await restart();
    expect((await row("place", null)).byField).toEqual({ name: "yard", altitude_m: "1500", pressure_kPa: "101.325" });
    await change("place", null, { name: "", altitude_m: "", pressure_kPa: "" });
    expect(JSON.parse(await exported("settings.json")).place).toBeUndefined();
  });

  it("nothing of the place is taken over by a run", async () => {
    const before = await exported("readings.csv");
    await change("place", null, { altitude_m: "3000" });
    expect(await exported("readings.csv")).toBe(before);
  });

  it("another method and confidence are kept, and runs of the other method are asked about", async () => {
    await change("study", null, { method: "iso", confidence_percent: "90" });
    const view = await show();
    expect(view).toMatchObject({ method: "iso", confidence: 0.9 });
    expect(view.questions.map(({ rule }) => rule)).toContain("otherMethod");
    expect((await row("study", null)).detail).toMatch(/24 runs of Water Boiling Test.*asked about/);
    expect(await refused(await changing("study", null, { confidence_percent: "0.95" }))).toMatch(/50 to under 100/);
    await undoLast();
    expect(await show()).toMatchObject({ method: "wbt", confidence: 0.95 });
  });
});

it("a run out of calibration is asked about as soon as the calibration is there", async () => {
  await add("calibration", { instrument: "thermometer", from: "2001-01-01", until: "2001-12-31" });
  const asked = (await show()).questions.filter(({ rule }) => rule === "calibration");
  expect(asked).toHaveLength(1);
  expect(asked[0]?.message).toMatch(/thermometer was in no calibration .* \(24 runs: R01, R02, R03, …/);
  await change("calibration", "thermometer", { from: "2026-01-01", until: "" });
  expect((await show()).questions.filter(({ rule }) => rule === "calibration")).toEqual([]);
});

it("what is set up goes out as a settings file and comes in again the same", async () => {
  await begunStudy();
  await add("fuel", {
    name: "beech",
    calorific_kJ_per_kg: "19800",
    basis: "gross",
    hydrogen_percent: "6",
    source: "no. 4",
  });
  await add("pot", { name: "no. 3", emptyMass_g: "452,5", volume_L: "7" });
  await change("instrument", "thermometer", { resolution: "0.1", standardUncertainty: "0.4" });
  await change("instrument", "moistureMeter", { standardUncertainty: "1.5" });
  await add("calibration", { instrument: "thermometer", from: "2026-01-12", until: "2027-01-11", certificate: "K 17" });
  await change("place", null, { name: "yard", altitude_m: "1600" });
  await change("study", null, { confidence_percent: "92.5", charCalorific_kJ_per_kg: "29000" });
  const settings = await exported("settings.json");
  const texts = async (subject: SetUpSubject) => (await section(subject)).items.map((item) => item.texts);
  const subjects = ["fuel", "pot", "instrument", "calibration", "place", "study"] as const;
  const before = await Promise.all(subjects.map(texts));
  const checked = await ask<"import.check">({
    kind: "import.check",
    readings: upload("week.csv", good),
    settings: upload("set-up.json", settings),
  });
  const into = { kind: "new", studyName: "Taken in" } as const;
  const reply = await door.ask({ kind: "import.accept", importId: checked.importId, into, who });
  expect(reply).toMatchObject({ ok: true });
  const { study } = (reply as { value: { study: string } }).value;
  const after = await Promise.all(
    subjects.map(async (subject) => (await section(subject, study)).items.map((item) => item.texts)),
  );
  expect(after).toEqual(before);
  expect(JSON.parse(await exported("settings.json", study))).toEqual(JSON.parse(settings));
});

it("a planned variant takes the runs that come in for it", async () => {
  const name = (await show()).variants[0]?.name ?? "";
  await begunStudy();
  await add("variant", { name: "no such variant yet" });
  await add("variant", { name });
  await imported(good, { kind: "open", study: null });
  const { variants } = await show();
  expect(variants.filter((variant) => variant.name === name)).toHaveLength(1);
  expect(variants.find((variant) => variant.name === name)?.runs).toBeGreaterThan(0);
  expect(variants.find((variant) => variant.name === "no such variant yet")?.runs).toBe(0);
});
