import { describe, expect, test } from "vitest";
import type { PhaseName, Run } from "../../../core/index.ts";
import { expectNumber } from "../../numbers.ts";
import { type Cell, edit, phaseOf, refused, runOf, taken, textIn } from "./cells.ts";
import { likeness } from "./runs.ts";

describe("a number entered in a cell", () => {
  /** "Both comma and point are decimal separators and no thousands separator is accepted" (product.md, number fields). */
  test.each([
    ["25.25", 25.25],
    ["25,25", 25.25],
    ["  25,25 ", 25.25],
    ["1,234", 1.234],
    ["1.234", 1.234],
    [",5", 0.5],
    ["5,", 5],
    ["2,5e1", 25],
    ["\u22125,5", -5.5],
    ["-5.5", -5.5],
  ])("%s", (text, value) => {
    const after = taken(runOf(), ["hot-start", "air_C", text]);
    expectNumber(phaseOf(after, "hot-start").airTemperature?.value, value);
  });

  test.each([
    ["1,234.5", /nothing|anything between thousands/],
    ["1.234,5", /between thousands/],
    ["1 234", /between thousands/],
    ["1.234.567", /between thousands/],
    ["warm", /“warm” is not a number\..*a point or a comma/],
    ["25 C", /the number alone, in the unit that the cell is for/],
    ["25/26", /more than one number/],
    ["NaN", /not a number that can be computed with/],
    ["1e999", /not a number that can be computed with/],
    ["#REF!", /Write the reading itself/],
    ["77", /expected were −?-?40 to 60 °C\. Correct it\.$/],
    ["77,5", /“77,5” is a temperature/],
  ])("%s is refused at its cell", (text, sentence) => {
    const problems = refused(runOf(), ["hot-start", "air_C", text]);
    expect(problems.map(({ phase, column }) => [phase, column])).toEqual([["hot-start", "air_C"]]);
    expect(problems[0]?.message).toMatch(sentence);
  });
});

describe("what cannot be is refused, at the cell where it shows", () => {
  test.each<[what: string, cells: readonly Cell[], at: readonly [PhaseName | null, string][], sentence: RegExp]>([
    ["a negative mass", [["simmer", "fuel_end_g", "-1"]], [["simmer", "fuel_end_g"]], /negative mass/],
    [
      "a needed reading emptied",
      [["simmer", "pot1_end_g", ""]],
      [["simmer", "pot1_end_g"]],
      /“pot 1 with water, end, g” is missing, and an empty cell is never taken as zero\. .*leave the run out/,
    ],
    [
      "the moisture emptied",
      [["simmer", "moisture_wet_percent", " "]],
      [["simmer", "moisture_wet_percent"]],
      /One of “moisture, wet basis, %”, “moisture, dry basis, %” is needed/,
    ],
    [
      "a pot lighter than empty",
      [["cold-start", "pot1_end_g", "800"]],
      [["cold-start", "pot1_end_g"]],
      /The pot with water \(800 g\) is lighter than the empty pot \(815 g\)/,
    ],
    ["fuel that grew", [["hot-start", "fuel_start_g", "300"]], [["hot-start", "fuel_end_g"]], /more fuel after/],
    [
      "a phase that never ends",
      [["cold-start", "end", "08:00"]],
      [["cold-start", "end"]],
      /no phase lasts more than 12/,
    ],
    [
      "an end before the start, with dates",
      [
        ["cold-start", "start", "2026-03-10T08:10"],
        ["cold-start", "end", "2026-03-10T08:05"],
      ],
      [["cold-start", "end"]],
      /^Start “2026-03-10T08:10”, end “2026-03-10T08:05”: The phase ends before it starts/,
    ],
    ["no time", [["cold-start", "start", "8.10"]], [["cold-start", "start"]], /“8.10” is not a time/],
    [
      "a day that is not the run's",
      [
        ["cold-start", "start", "2026-05-10T08:10"],
        ["cold-start", "end", "2026-05-10T08:37"],
      ],
      [["cold-start", "start"]],
      /is not on the run's date, “2026-03-10”/,
    ],
    ["a date that is none", [[null, "date", "2026-02-30"]], [[null, "date"]], /“2026-02-30” is not a date/],
    ["a run without a name", [[null, "run", " "]], [[null, "run"]], /“run” cannot be empty\. Fill it in\./],
    ["a run without a variant", [[null, "variant", ""]], [[null, "variant"]], /“variant” cannot be empty/],
    ["no reason", [[null, "excluded", "no"]], [[null, "excluded"]], /“no” is no reason/],
    ["an order that is no number", [[null, "order", "first"]], [[null, "order"]], /“first” is not a number/],
    [
      "two moistures",
      [["simmer", "moisture_dry_percent", "13"]],
      [["simmer", "moisture_dry_percent"]],
      /“moisture, wet basis, %” and “moisture, dry basis, %” are given side by side/,
    ],
    [
      "a second pot with one cell",
      [["simmer", "pot2_start_g", "900"]],
      ["pot2_empty_g", "pot2_end_g", "pot2_start_C", "pot2_end_C"].map((column) => ["simmer", column]),
      /pot 2/,
    ],
    ["a zero character", [["simmer", "note", "a\0b"]], [["simmer", "note"]], /no file can hold/],
    ["half a character", [[null, "operator", "\ud800"]], [[null, "operator"]], /no file can hold/],
    [
      "a text without end",
      [["simmer", "note", "n".repeat(10_001)]],
      [["simmer", "note"]],
      /more than 10.000 characters/,
    ],
  ])("%s", (_, cells, at, sentence) => {
    const problems = refused(runOf({ add: ["order", "excluded"] }), ...cells);
    expect(problems.map(({ phase, column }) => [phase, column]).sort()).toEqual([...at].sort());
    for (const { message } of problems) {
      expect(message).toMatch(sentence);
      // There is no file, no row and no heading here.
      expect(message).not.toMatch(/\b(file|files|rows?|headings?|spreadsheet)\b(?! can hold)/);
    }
  });

  test("all that is wrong is said at once", () => {
    const problems = refused(runOf(), ["simmer", "air_C", "x"], ["cold-start", "fuel_end_g", ""], [null, "date", "1"]);
    expect(problems).toHaveLength(3);
  });

  test("a phase or a column that does not exist is a fault of the caller", () => {
    expect(() => edit(runOf(), ["high-power", "air_C", "20"])).toThrow(RangeError);
    expect(() => edit(runOf(), [null, "air_C", "20"])).toThrow(RangeError);
    expect(() => edit(runOf(), ["simmer", "phase", "hot-start"])).toThrow(RangeError);
    expect(() => edit(runOf(), ["simmer", "Air (°C)", "20"])).toThrow(RangeError);
    expect(() => edit(runOf(), [null, "factor: ", "20"])).toThrow(RangeError);
  });
});

describe("identity of readings", () => {
  const before = runOf();
  const moisture = (run: Run, name: PhaseName) => phaseOf(run, name).fuels[0]?.moisture?.percent.id;

  test("an edited reading is its own, the others stay one", () => {
    const after = taken(before, ["hot-start", "moisture_wet_percent", "12,4"]);
    expect(moisture(after, "cold-start")).toBe(moisture(before, "cold-start"));
    expect(moisture(after, "simmer")).toBe(moisture(before, "cold-start"));
    expect(moisture(after, "hot-start")).not.toBe(moisture(before, "cold-start"));
    expect(phaseOf(after, "simmer")).toBe(phaseOf(before, "simmer"));
  });

  test("a reading that again equals the same quantity is one with it again", () => {
    const apart = taken(before, ["hot-start", "moisture_wet_percent", "12.4"]);
    const again = taken(apart, ["hot-start", "moisture_wet_percent", "11.90"]);
    expect(likeness(again)).toEqual(likeness(before));
  });

  test("two cells that get one value in one edit are one reading", () => {
    const after = taken(before, ["cold-start", "air_C", "23"], ["simmer", "air_C", "23,0"]);
    expect(phaseOf(after, "cold-start").airTemperature).toEqual(phaseOf(after, "simmer").airTemperature);
    const own = taken(before, ["cold-start", "pot1_start_C", "23"], ["hot-start", "pot1_start_C", "23"]);
    const ids = (["cold-start", "hot-start"] as const).map((name) => phaseOf(own, name).pots[0]?.temperatureStart.id);
    expect(new Set(ids).size).toBe(2);
  });

  test("edits one after the other never give two readings one identifier", () => {
    const once = taken(before, ["cold-start", "pot1_start_C", "23"]);
    const twice = taken(once, ["hot-start", "pot1_start_C", "24"]);
    const ids = twice.phases.map(({ pots }) => pots[0]?.temperatureStart.id);
    expect(new Set(ids).size).toBe(3);
  });

  test("the same number written otherwise is no change", () => {
    expect(taken(before, ["cold-start", "fuel_start_g", "912,00"])).toEqual(before);
  });
});

describe("cells emptied and filled", () => {
  test("an optional reading goes", () => {
    const after = taken(runOf(), ["cold-start", "air_C", ""], ["cold-start", "boiling_C", "  "]);
    expect(phaseOf(after, "cold-start").airTemperature).toBeNull();
    expect(phaseOf(after, "cold-start").boilingPoint.measured).toBeNull();
  });

  test("char in its container becomes net char, and the other way", () => {
    const net = taken(
      runOf(),
      ["cold-start", "char_container_g", ""],
      ["cold-start", "char_with_container_g", ""],
      ["cold-start", "char_g", "61"],
    );
    expect(phaseOf(net, "cold-start").char).toMatchObject({ kind: "net", mass: { value: 61 } });
    const back = taken(
      net,
      ["cold-start", "char_g", ""],
      ["cold-start", "char_container_g", "248"],
      ["cold-start", "char_with_container_g", "309"],
    );
    expect(likeness(back)).toEqual(likeness(runOf()));
  });

  test("the container's mass emptied: the char is not known, which is asked about, and the weighing stays", () => {
    const result = edit(runOf(), ["cold-start", "char_container_g", ""]);
    if (!result.ok) expect.fail("refused");
    expect(phaseOf(result.run, "cold-start").char).toBeNull();
    expect(textIn(result.run, "cold-start", "char_with_container_g")).toBe("309");
    expect(result.questions.map(({ rule, phase, row }) => [rule, phase, row])).toEqual([
      ["char-without-container", "cold-start", null],
    ]);
    expect(likeness(taken(result.run, ["cold-start", "char_container_g", "248"]))).toEqual(likeness(runOf()));
  });

  test("a second fuel in place of one that is emptied keeps its readings", () => {
    const fuel = (entry: number, name: string, start: string, end: string): Cell[] => [
      ["simmer", `fuel${entry}`, name],
      ["simmer", `fuel${entry}_start_g`, start],
      ["simmer", `fuel${entry}_end_g`, end],
      ["simmer", `fuel${entry}_moisture_wet_percent`, "9"],
    ];
    const two = taken(runOf(), ...fuel(2, "pine", "200", "150"), ...fuel(3, "husks", "80", "20"));
    const husks = phaseOf(two, "simmer").fuels[2];
    const emptied = (entry: number) => fuel(entry, "", "", "").map(([phase, column]): Cell => [phase, column, ""]);
    const one = taken(two, ...emptied(2));
    expect(phaseOf(one, "simmer").fuels.map(({ fuel: name }) => name)).toEqual(["eucalyptus", "husks"]);
    expect(phaseOf(one, "simmer").fuels[1]).toEqual(husks);
  });

  test("texts, factors and headings that the layout does not know", () => {
    const before = runOf({ add: ["smell", "taste", "factor:skirt"], cells: { "2.smell": "resin", "2.taste": "none" } });
    const after = taken(
      before,
      ["cold-start", "smell", "'quoted"],
      ["cold-start", "note", "=1+1"],
      [null, "factor:skirt", "yes"],
      [null, "factor:gap", "12 mm"],
      ["simmer", "colour", "grey"],
    );
    expect(phaseOf(after, "cold-start").conditions.others).toEqual([
      { heading: "smell", text: "'quoted" },
      { heading: "taste", text: "none" },
    ]);
    expect(phaseOf(after, "cold-start").conditions.note).toBe("=1+1");
    expect(phaseOf(after, "simmer").conditions.others).toEqual([{ heading: "colour", text: "grey" }]);
    expect([...after.factors]).toEqual([
      ["skirt", "yes"],
      ["gap", "12 mm"],
    ]);
    const less = taken(after, [null, "factor:skirt", ""], ["cold-start", "smell", ""]);
    expect([...less.factors.keys()]).toEqual(["gap"]);
    expect(phaseOf(less, "cold-start").conditions.others).toEqual([{ heading: "taste", text: "none" }]);
  });

  test("a mass that seems to be in kilograms is taken, and asked about", () => {
    const result = edit(runOf(), ["hot-start", "fuel_start_g", "0.868"], ["hot-start", "fuel_end_g", "0.377"]);
    if (!result.ok) expect.fail(result.problems.map(({ message }) => message).join(" "));
    expect(result.questions.map(({ rule }) => rule)).toContain("mass-unit");
    for (const { message } of result.questions) expect(message).not.toMatch(/\b(heading|row|file)\b/);
  });
});
