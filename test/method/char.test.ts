import { describe, expect, it } from "vitest";
import { missingOf, resultsOf, valuesOf } from "../build/expect-quantities.ts";
import { type PhaseSheet, plainPhase } from "../build/readings.ts";
import { expectNumber } from "../numbers.ts";

/** Char after calculations.md, section 1: stand-ins from memory of the Water Boiling Test 4.2.3. */
function sheetOf(phase: PhaseSheet["phase"], change: Partial<Pick<PhaseSheet, "char" | "charAtStart">>): PhaseSheet {
  const { char: _, charAtStart: __, ...bare } = plainPhase(phase);
  return { ...bare, ...change };
}

const run = (...phases: PhaseSheet[]) => resultsOf({ run: "R", variant: "A", phases });
const needingChar = [
  "burningRate",
  "charFormed",
  "firepower",
  "fuelConsumedDryEquivalent",
  "isoEfficiencyWithChar",
  "specificEnergyConsumption",
  "specificFuelConsumption",
  "thermalEfficiency",
];

describe("char formed", () => {
  it("is what the container gained, or the net mass", () => {
    const weighed = run(sheetOf("cold-start", { char: { container: 250, withContainer: 318.5 } }));
    expectNumber(valuesOf(weighed, "cold-start").charFormed, 68.5);
    expectNumber(valuesOf(run(sheetOf("cold-start", { char: 68.5 })), "cold-start").charFormed, 68.5);
  });

  it("counts no char at the start of a cold or hot start where none was noted, and takes off what was", () => {
    const results = run(sheetOf("cold-start", { char: 70, charAtStart: 12 }), sheetOf("hot-start", { char: 50 }));
    expectNumber(valuesOf(results, "cold-start").charFormed, 58);
    expectNumber(valuesOf(results, "hot-start").charFormed, 50);
  });

  it("of a hot start that has none is the cold start's, with a note", () => {
    const results = run(sheetOf("cold-start", { char: 70 }), sheetOf("hot-start", {}));
    expectNumber(valuesOf(results, "hot-start").charFormed, 70);
    expect(results.notes).toEqual(["Hot start: no char was weighed; the cold start's char stands in for it."]);
  });

  it("of a simmer takes off the hot start's where its start is empty, with a note", () => {
    const results = run(sheetOf("hot-start", { char: 50 }), sheetOf("simmer", { char: 62 }));
    expectNumber(valuesOf(results, "simmer").charFormed, 12);
    expect(results.notes).toEqual(["Simmer: the char at its start is taken from the end of the hot start."]);
  });

  it("of a simmer takes off the cold start's where the hot start was not weighed", () => {
    const results = run(sheetOf("cold-start", { char: 70 }), sheetOf("hot-start", {}), sheetOf("simmer", { char: 62 }));
    expectNumber(valuesOf(results, "simmer").charFormed, -8);
    expect(results.notes).toHaveLength(2);
  });

  it("of a simmer takes off what was noted: 0 says there was none", () => {
    const before = sheetOf("hot-start", { char: 50 });
    expectNumber(valuesOf(run(before, sheetOf("simmer", { char: 62, charAtStart: 0 })), "simmer").charFormed, 62);
    expectNumber(valuesOf(run(before, sheetOf("simmer", { char: 62, charAtStart: 44 })), "simmer").charFormed, 18);
    expect(run(before, sheetOf("simmer", { char: 62, charAtStart: 0 })).notes).toEqual([]);
  });

  it("is missing where nothing stands in, and only what needs it with it", () => {
    const cold = run(sheetOf("cold-start", {}));
    const corrected = ["specificEnergyConsumptionCorrected", "specificFuelConsumptionCorrected"];
    expect(missingOf(cold, "cold-start")).toEqual(
      Object.fromEntries([...needingChar, ...corrected].map((name) => [name, "noChar"])),
    );
    expectNumber(valuesOf(cold, "cold-start").fuelConsumedMoist, 600);
    expect(valuesOf(cold, "cold-start")).toHaveProperty("isoEfficiencyWithoutChar");
    const simmer = run(sheetOf("simmer", { char: 62 }));
    expect(missingOf(simmer, "simmer")).toEqual(
      Object.fromEntries([...needingChar, "lowPowerSpecificEnergyRate"].map((name) => [name, "noChar"])),
    );
  });

  it("of a simmer without char at its end says nothing of a stand-in that is not used", () => {
    const results = run(sheetOf("hot-start", { char: 50 }), sheetOf("simmer", {}));
    expect(missingOf(results, "simmer").charFormed).toBe("noChar");
    expect(results.notes).toEqual([]);
  });

  it("of an ISO level takes nothing from another level", () => {
    const results = run(
      sheetOf("high-power", { char: 50 }),
      sheetOf("medium-power", {}),
      sheetOf("low-power", { char: 9 }),
    );
    expect(missingOf(results, "medium-power").isoEfficiencyWithChar).toBe("noChar");
    expectNumber(valuesOf(results, "low-power").charFormed, 9);
    expect(missingOf(results, "run")).toEqual({ meanIsoEfficiencyWithChar: "medium-power: noChar" });
  });
});
