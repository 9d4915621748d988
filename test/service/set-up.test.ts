import { beforeEach, describe, expect, it } from "vitest";
import type { SetUpSubject } from "../../app/contract/index.ts";
import { ask, door, exported, make, restart, runs, show, undoLast } from "./own-program.ts";
import {
  add,
  adding,
  begunStudy,
  change,
  changing,
  looked,
  names,
  refused,
  remove,
  removing,
  row,
} from "./set-up-page.ts";

beforeEach(looked);

describe("every part of the set-up", () => {
  const samples: readonly [SetUpSubject, Record<string, string>, string, Record<string, string>][] = [
    ["variant", { name: "With skirt", "factor:gap mm": "8" }, "With skirt", { "factor:gap mm": "10,5" }],
    [
      "fuel",
      { name: "beech", calorific_kJ_per_kg: "18400", basis: "net", standardUncertainty_kJ_per_kg: "300" },
      "beech",
      { calorific_kJ_per_kg: "18500,5" },
    ],
    ["pot", { name: "no. 3", emptyMass_g: "450,5", volume_L: "7" }, "no. 3", { emptyMass_g: "451" }],
    [
      "calibration",
      { instrument: "thermometer", from: "2026-01-01", until: "2026-12-31", certificate: "K 17" },
      "thermometer",
      { until: "2027-06-30" },
    ],
  ];

  it.each(samples)("%s: added, changed, kept, undone, removed", async (subject, texts, name, later) => {
    await begunStudy();
    const { done } = await add(subject, texts);
    expect(done).toMatch(/^Saved: /);
    const written = (text: string) => text.replace(/^(\d+),(\d+)$/, "$1.$2");
    const shown = (values: Record<string, string>) =>
      subject === "variant"
        ? values
        : Object.fromEntries(Object.entries(values).map(([field, text]) => [field, written(text)]));
    expect((await row(subject, name)).byField).toMatchObject(shown(texts));
    await change(subject, name, later);
    expect((await row(subject, name)).byField).toMatchObject(shown({ ...texts, ...later }));
    await restart();
    expect((await row(subject, name)).byField).toMatchObject(shown({ ...texts, ...later }));
    await undoLast();
    expect((await row(subject, name)).byField).toMatchObject(shown(texts));
    await remove(subject, name);
    expect(await names(subject)).not.toContain(name);
    await undoLast();
    expect((await row(subject, name)).byField).toMatchObject(shown(texts));
  });

  it("says what each field is, how to find it and what it is for", async () => {
    await begunStudy();
    const { sections } = await ask<"setup.show">({ kind: "setup.show", study: null });
    expect(sections.map(({ subject }) => subject)).toEqual([
      "variant",
      "fuel",
      "pot",
      "place",
      "instrument",
      "error",
      "calibration",
      "study",
      "monteCarlo",
    ]);
    for (const { fields, title, sentence } of sections) {
      expect(title).not.toBe("");
      expect(sentence).toMatch(/\.$/);
      for (const one of fields) expect(one.what.length, one.field).toBeGreaterThan(20);
    }
  });
});

describe("variants", () => {
  it("are planned before their first run, and keep their runs when they are renamed", async () => {
    const before = await show();
    const [first] = before.variants;
    if (first === undefined) throw new Error("the example has variants");
    await add("variant", { name: "Raised grate" });
    const planned = (await show()).variants.at(-1);
    expect(planned).toEqual({
      name: "Raised grate",
      index: before.variants.length,
      runs: 0,
      leftOut: 0,
      onBench: 0,
      factors: [],
    });
    await change("variant", first.name, { name: "Baseline stove" });
    const after = await show();
    expect(after.variants[0]).toEqual({ ...first, name: "Baseline stove" });
    expect((await runs()).all.filter(({ variant }) => variant === "Baseline stove")).toHaveLength(first.runs);
  });

  it("with runs are not removed, and the refusal says where they are", async () => {
    const [first] = (await show()).variants;
    const edit = await removing("variant", first?.name ?? "");
    expect(await refused(edit)).toMatch(new RegExp(`has ${first?.runs} runs \\(R\\d+, R\\d+, R\\d+, and \\d+ more\\)`));
  });

  it("pass a level on to their runs, but for runs with a level of their own", async () => {
    const name = (await show()).variants[0]?.name ?? "";
    const levels = async () =>
      (await show()).variants[0]?.factors
        .find(({ factor }) => factor === "gap mm")
        ?.level.split(", ")
        .sort();
    await change("variant", name, { "factor:gap mm": "8" });
    expect(await levels()).toEqual(["8"]);
    const [first] = (await runs()).all.filter(({ variant }) => variant === name);
    const cells = [{ phase: null, column: "factor:gap mm", text: "9", was: "8" }];
    await make({ kind: "cells", run: first?.id ?? "", cells, why: null });
    expect((await row("variant", name)).detail).toMatch(/1 run with a level of “gap mm” of their own/);
    await change("variant", name, { "factor:gap mm": "10" });
    expect(await levels()).toEqual(["10", "9"]);
    await change("variant", name, { "factor:gap mm": "" });
    expect(await levels()).toEqual(["9"]);
  });

  it("stand in the order that is asked for", async () => {
    await begunStudy();
    for (const name of ["A", "B", "C"]) await add("variant", { name });
    await change("variant", "C", { order: "1" });
    expect(await names("variant")).toEqual(["C", "A", "B"]);
    expect(await refused(await changing("variant", "C", { order: "4" }))).toMatch(/place in the list: .* 1 to 3/);
    await undoLast();
    expect(await names("variant")).toEqual(["A", "B", "C"]);
  });

  it("are no part of comparison and report before they are run", async () => {
    const before = await exported("results.json");
    await add("variant", { name: "Raised grate" });
    const after = JSON.parse(await exported("results.json"));
    expect(after.variants).toEqual(JSON.parse(before).variants);
    expect(
      await door.ask({
        kind: "report.prepare",
        study: null,
        choice: { quantity: null, variant: null, baseline: null },
      }),
    ).toMatchObject({ ok: true });
  });
});

describe("what does not fit is refused, naming the field", () => {
  const refusals: readonly [string, SetUpSubject, Record<string, string>, RegExp][] = [
    ["no name", "variant", { name: "  " }, /variant cannot be empty/],
    ["MJ for kJ", "fuel", { name: "x", basis: "net", calorific_kJ_per_kg: "18,4" }, /calorific value, dry: .*18400/],
    ["a thousands mark", "fuel", { name: "x", basis: "net", calorific_kJ_per_kg: "18.400,5" }, /between thousands/],
    ["no value", "fuel", { name: "x", basis: "net" }, /calorific value, dry cannot be empty/],
    ["neither net nor gross", "fuel", { name: "x", basis: "wet", calorific_kJ_per_kg: "18400" }, /net or gross/],
    [
      "a fraction for per cent",
      "fuel",
      { name: "x", basis: "gross", calorific_kJ_per_kg: "20000", hydrogen_percent: "0.06" },
      /hydrogen: .*not 0\.06/,
    ],
    [
      "an uncertainty of nothing",
      "fuel",
      { name: "x", basis: "net", calorific_kJ_per_kg: "18400", standardUncertainty_kJ_per_kg: "0" },
      /standard uncertainty: .*above zero/,
    ],
    ["a pot of no mass", "pot", { name: "x", emptyMass_g: "0" }, /empty mass: .*above zero/],
    ["a pot with its unit", "pot", { name: "x", emptyMass_g: "450 g" }, /empty mass: .*something behind it/],
    ["a day that is none", "calibration", { instrument: "thermometer", from: "2026-02-30" }, /from: .*2026-03-14/],
    [
      "an end before its beginning",
      "calibration",
      { instrument: "thermometer", from: "2026-02-03", until: "2026-02-02" },
      /until: .*before it begins/,
    ],
    ["nothing that is known", "pot", { name: "x", emptyMass_g: "450", colour: "red" }, /cannot be set up here/],
  ];
  it.each(refusals)("%s", async (_what, subject, texts, message) => {
    const { study } = await begunStudy();
    const before = await ask<"study.state">({ kind: "study.state", study });
    expect(await refused(adding(subject, texts))).toMatch(message);
    expect(await ask<"study.state">({ kind: "study.state", study })).toEqual(before);
  });

  it("a name that is taken, and a row that is gone", async () => {
    await begunStudy();
    await add("pot", { name: "no. 3", emptyMass_g: "450" });
    expect(await refused(adding("pot", { name: "no. 3", emptyMass_g: "500" }))).toMatch(/no\. 3.*already/);
    const edit = await changing("pot", "no. 3", { emptyMass_g: "451" });
    await remove("pot", "no. 3");
    expect(await refused(edit)).toMatch(/not there any more/);
  });

  it("a field that another window changed meanwhile", async () => {
    await begunStudy();
    await add("pot", { name: "no. 3", emptyMass_g: "450" });
    const edit = await changing("pot", "no. 3", { emptyMass_g: "451" });
    await change("pot", "no. 3", { emptyMass_g: "470" });
    expect(await refused(edit)).toMatch(/empty mass.*“450”.*“470”/);
    expect((await row("pot", "no. 3")).byField.emptyMass_g).toBe("470");
  });

  it("what stands there already", async () => {
    await begunStudy();
    await add("pot", { name: "no. 3", emptyMass_g: "450" });
    expect(await refused(await changing("pot", "no. 3", { emptyMass_g: "450,0" }))).toMatch(/stands there already/);
  });
});

describe("the record", () => {
  it("says what was set up, and what was removed", async () => {
    await begunStudy();
    await add("pot", { name: "no. 3", emptyMass_g: "450" });
    await change("place", null, { altitude_m: "1600" });
    await change("study", null, { confidence_percent: "90" });
    await make(await removing("pot", "no. 3"));
    const { edits } = await ask<"record.show">({ kind: "record.show", study: null, before: null });
    expect(edits.map(({ what }) => what).slice(0, 4)).toEqual([
      "pot “no. 3” removed",
      "confidence “90 %” set up",
      "altitude “1600 m” set up",
      "pot “no. 3” set up",
    ]);
  });
});
