import { describe, expect, it } from "vitest";
import {
  combinedUncertainty,
  componentUncertainty,
  type StartingValueName,
  startingValues,
  wordsFor,
} from "../../core/index.ts";
import { expectNumber } from "../numbers.ts";

const { startingValues: words } = wordsFor("en").setUpWork;

function componentsOf(name: StartingValueName) {
  const found = startingValues.find((one) => one.name === name);
  if (found === undefined) throw new Error(name);
  return found.components;
}

describe("starting values of instruments", () => {
  /**
   * Maximum permissible errors on verification, in verification scale intervals, up to a load in the same: OIML R 76-1:2006, 3.5.1, table 6
   * (from memory), as Directive 2014/31/EU, annex I, table 3; in service twice as much (4.2 there).
   */
  const permissible = {
    III: [
      [500, 0.5],
      [2_000, 1],
      [10_000, 1.5],
    ],
    IIII: [
      [50, 0.5],
      [200, 1],
      [1_000, 1.5],
    ],
  } as const;
  const inService = (klass: keyof typeof permissible, load: number) =>
    2 * (permissible[klass].find(([upTo]) => load <= upTo)?.[1] ?? Number.NaN);

  it.each([
    ["benchBalance1g", "III", 1, 1_000, 10_000],
    ["benchBalance01g", "III", 0.1, 300, 1_000],
    ["hangingScale10g", "IIII", 10, 6_000, 10_000],
  ] as const)(
    "%s: the gain holds the permissible errors of class %s from its lightest load on",
    (name, klass, digit, from, to) => {
      const [resolution, gain, ...others] = componentsOf(name);
      expect(others).toEqual([]);
      // JCGM 100:2008, F.2.2.1: a digit d of a display has the standard uncertainty 0.29 d.
      expect(resolution).toMatchObject({ distribution: "rectangular", kind: "independent" });
      if (resolution === undefined || gain === undefined) throw new Error(name);
      expectNumber(componentUncertainty(resolution).absolute, 0.29 * digit, { relative: 0.01 });
      expect(gain).toMatchObject({ name: "gain", distribution: "rectangular", kind: "shared" });
      const halfWidth = "relativeHalfWidth" in gain.size ? gain.size.relativeHalfWidth : 0;
      const shares = Array.from({ length: 1_000 }, (_, index) => from + ((to - from) * index) / 999).map(
        (load) => (inService(klass, load / digit) * digit) / load,
      );
      expectNumber(Math.max(...shares), halfWidth, { relative: 1e-12 });
      expect(words[name].source).toContain(`class ${klass}`);
      expect(words[name].source).toContain(`${halfWidth * 100} % of loads from ${from} g on`);
    },
  );

  /** IEC 60584-1:2013, tolerances of type K, class 2: the larger of 2.5 °C and 0.0075 t (in tables that quote the standard). */
  it.each(["thermocoupleK01", "thermocoupleK1"] as const)(
    "%s: its tolerance at boiling water, and none where it cancels",
    (name) => {
      const [resolution, gain, meter] = componentsOf(name);
      expect(resolution).toMatchObject({
        size: { halfWidth: name === "thermocoupleK1" ? 0.5 : 0.05 },
        kind: "independent",
      });
      const atBoiling = gain !== undefined && "relativeHalfWidth" in gain.size ? gain.size.relativeHalfWidth * 100 : 0;
      expectNumber(atBoiling, Math.max(2.5, 0.0075 * 100));
      expect(meter).toMatchObject({ kind: "shared", size: { halfWidth: 1 } });
    },
  );

  it("a terrain model: 16 m at 90 % confidence is a root mean square of 9.73 m", () => {
    // Scientific Reports 7, 41672 (2017): both figures stand in its abstract.
    const [model] = componentsOf("altitudeFromMap");
    if (model === undefined) throw new Error("none");
    expectNumber(componentUncertainty(model).absolute, 9.73, { absolute: 0.005 });
  });

  it("each has an error, a name of its own, and says where it is from or that there is no source", () => {
    expect(new Set(startingValues.map(({ name }) => words[name].label)).size).toBe(startingValues.length);
    for (const { name, components, roles } of startingValues) {
      const { absolute, relative } = combinedUncertainty(components);
      expect(absolute + relative, name).toBeGreaterThan(0);
      expect(roles.length, name).toBeGreaterThan(0);
      expect(words[name].source, name).toMatch(/no source|from memory|Resolution: the display|OIML|Scientific Reports/);
      expect(new Set(components.map((one) => one.name)).size, name).toBe(components.length);
    }
  });

  it("each balance has a gain: none of them is asked about", () => {
    for (const { roles, components, name } of startingValues) {
      if (!roles.includes("fuelBalance")) continue;
      expect(combinedUncertainty(components).relative, name).toBeGreaterThan(0);
    }
  });
});
