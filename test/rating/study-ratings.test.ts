import { describe, expect, it } from "vitest";
import { analyseStudy } from "../../core/analysis/study-results.ts";
import { rateStudy } from "../../core/rating/study-ratings.ts";
import { buildSettings, buildStudy, type PhaseSheet, plainPhase, plainRun, type RunSheet } from "../build/readings.ts";

/** Three runs whose pots end a little differently, so that there is scatter. */
function replicates(
  variant: string,
  count: number,
  change: (index: number) => Partial<PhaseSheet> = () => ({}),
): RunSheet[] {
  return Array.from({ length: count }, (_, index) => {
    const sheet = plainRun(`${variant}${index + 1}`, variant);
    const phases = sheet.phases.map((phase) => ({
      ...phase,
      pots: phase.pots.map((pot) => ("end" in pot ? { ...pot, end: pot.end - 10 * index } : pot)),
      ...change(index),
    }));
    return { ...sheet, phases };
  });
}

function isoReplicates(variant: string, count: number): RunSheet[] {
  return Array.from({ length: count }, (_, index) => ({
    run: `${variant}${index + 1}`,
    variant,
    phases: (["high-power", "medium-power", "low-power"] as const).map((phase) =>
      plainPhase(phase, { pots: [{ empty: 600, start: 5600, end: 5400 - 10 * index, from: 25, to: 97 }] }),
    ),
  }));
}

const rated = (sheets: RunSheet[], method: "wbt" | "iso" = "wbt") =>
  rateStudy(analyseStudy(buildStudy(sheets, buildSettings({}, { method })), "en"));

describe("ratings of a study", () => {
  it("rate Water Boiling Tests by IWA 11 alone, and say why not by the other", () => {
    const { ratings, notes } = rated(replicates("A", 3));
    expect(ratings.map(({ scheme, key }) => [scheme.name, key])).toEqual([
      ["IWA 11:2012", "highPowerThermalEfficiency"],
      ["IWA 11:2012", "simmer.lowPowerSpecificEnergyRate"],
    ]);
    expect(notes).toContain(
      "Not rated by ISO/TR 19867-3:2018: it rates runs of one method (ISO 19867-1:2018), and there is none that counts.",
    );
    expect(notes.join(" ")).toMatch(/safety and durability are not covered here/);
  });

  it("rate ISO runs by ISO/TR 19867-3 alone: the mean and each level, choice from memory and said to be", () => {
    const { ratings, notes } = rated(isoReplicates("A", 3), "iso");
    expect(ratings.map(({ scheme, key }) => [scheme.name, key])).toEqual(
      ["meanIsoEfficiencyWithoutChar", "high-power", "medium-power", "low-power"].map((key) => [
        "ISO/TR 19867-3:2018",
        key.endsWith("power") ? `${key}.isoEfficiencyWithoutChar` : key,
      ]),
    );
    expect(notes.join(" ")).toContain("Not rated by IWA 11:2012: it rates runs of one method");
    expect(notes.join(" ")).toContain("from memory");
  });

  it("rate each run by its own method where a study has both", () => {
    const { ratings } = rated([...replicates("A", 2), ...isoReplicates("B", 2)]);
    expect(new Set(ratings.map(({ variant, scheme }) => `${variant} ${scheme.method}`))).toEqual(
      new Set(["A wbt", "B iso"]),
    );
  });

  it("are not given for one run, with the reason", () => {
    const { ratings, notes } = rated([...replicates("A", 1), ...replicates("B", 2)]);
    expect(new Set(ratings.map(({ variant }) => variant))).toEqual(new Set(["B"]));
    expect(notes).toContain("“A” is not rated in thermal efficiency, high power: one run gives no interval.");
  });

  it("are not given for runs without variation, with the reason", () => {
    const same = ["1", "2", "3"].map((number) => plainRun(number, "A"));
    expect(rated(same).ratings).toEqual([]);
    expect(rated(same).notes).toContain(
      "“A” is not rated in thermal efficiency, high power: runs without any variation give no interval.",
    );
  });

  it("do not count a run that was left out", () => {
    const [first, second, third] = replicates("A", 3);
    if (first === undefined || second === undefined || third === undefined) throw new Error("no runs");
    const counted = rated([first, second]).ratings;
    expect(rated([first, second, { ...third, leftOut: "rain" }]).ratings).toEqual(counted);
    const alone = rated([first, { ...second, leftOut: "rain" }]);
    expect(alone.ratings).toEqual([]);
    expect(alone.notes.join(" ")).toContain("one run gives no interval");
  });

  it("rate measured emissions, and say that those into the room are not rated", () => {
    const { ratings, notes } = rated(replicates("A", 3, (index) => ({ co: 10 + index, pm25: 500 + index })));
    expect(ratings.map(({ key }) => key)).toEqual([
      "highPowerThermalEfficiency",
      "simmer.lowPowerSpecificEnergyRate",
      "highPowerCoPerEnergyDelivered",
      "simmer.coRatePerLitre",
      "highPowerPm25PerEnergyDelivered",
      "simmer.pm25RatePerLitre",
    ]);
    expect(notes.join(" ")).toContain("Emissions into the room are not rated");
    expect(rated(replicates("A", 3)).notes.join(" ")).not.toContain("room");
  });

  it("say so of emissions into the room also where only particles were measured", () => {
    const { notes } = rated(replicates("A", 3, (index) => ({ pm25: 500 + index })));
    expect(notes.join(" ")).toContain("Emissions into the room are not rated");
  });

  it("give the reason where no run has the quantity", () => {
    const withoutSimmer = replicates("A", 2).map((sheet) => ({ ...sheet, phases: sheet.phases.slice(0, 2) }));
    expect(rated(withoutSimmer).ratings.map(({ key }) => key)).toEqual(["highPowerThermalEfficiency"]);
    expect(rated(withoutSimmer).notes).toContain(
      "“A” is not rated in energy to keep a litre hot, simmer: no simmer phase.",
    );
    expect(rated(withoutSimmer).notes.join(" ")).not.toContain("carbon monoxide");
    const withoutChar = replicates("A", 2).map((sheet) => ({
      ...sheet,
      phases: sheet.phases.map(({ char: _, charAtStart: __, ...phase }) => phase),
    }));
    expect(rated(withoutChar).ratings).toEqual([]);
    expect(rated(withoutChar).notes).toEqual(
      expect.arrayContaining([
        "“A” is not rated in thermal efficiency, high power: cold start: no char was weighed.",
        "“A” is not rated in energy to keep a litre hot, simmer: no char was weighed.",
      ]),
    );
  });

  it("say that no run counts where all were left out", () => {
    const out = replicates("A", 3).map((sheet) => ({ ...sheet, leftOut: "rain" }));
    expect(rated(out).ratings).toEqual([]);
    expect(rated(out).notes).toHaveLength(2);
    expect(rated(out).notes.join(" ")).toContain("Not rated by IWA 11:2012");
  });
});
