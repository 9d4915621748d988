import { describe, expect, it } from "vitest";
import { netFromGross } from "../../core/fuel/calorific-value.ts";
import { type CatalogueFuelName, fuelCatalogue, wordsFor } from "../../core/index.ts";
import { plainNumbers } from "../../core/numeric/arithmetic.ts";
import { expectNumber } from "../numbers.ts";

const entry = (name: CatalogueFuelName) => {
  const found = fuelCatalogue.find((one) => one.name === name);
  if (found === undefined) throw new Error(name);
  return found;
};

describe("fuels of the table", () => {
  /**
   * Gross calorific values in kJ/kg of dry fuel as the sources give them. Biomass Energy Data Book (Oak Ridge National Laboratory), appendix
   * A, "Heat Content Ranges for Various Biomass Fuels (dry weight basis)", read in a copy of that table; acacia: the abstract of
   * BioResources 9(1), 1212-1224 (2014), 18.00 to 20.45 MJ/kg.
   */
  const ranges: readonly [CatalogueFuelName, number, number][] = [
    ["eucalyptus", 19_000, 19_599],
    ["acacia", 18_000, 20_450],
    ["blackLocust", 19_546, 19_948],
    ["poplar", 19_022, 19_737],
    ["willow", 18_556, 19_750],
    ["bamboo", 19_000, 19_750],
    ["maizeStalks", 17_636, 18_519],
    ["wheatStraw", 16_188, 18_940],
    ["bagasse", 17_317, 19_407],
    ["hullsAndShells", 15_831, 20_543],
  ];
  it.each(ranges)("%s: the middle of the source's range, and no less uncertain than it", (name, lowest, highest) => {
    const { basis, value, standardUncertainty, source } = entry(name);
    expect(basis).toBe("gross");
    expectNumber(value, (lowest + highest) / 2, { absolute: 50 });
    // A rectangular distribution over the range: JCGM 100:2008, 4.3.7.
    expect(standardUncertainty).toBeGreaterThanOrEqual((highest - lowest) / Math.sqrt(12));
    expect(value - standardUncertainty * Math.sqrt(3)).toBeLessThanOrEqual(lowest + 50);
    expect(source).toContain(`${lowest} to ${highest} kJ/kg gross`);
  });

  /** NIBIO, "Energy from wood": 19.1 MJ/kg softwoods, 18.9 MJ/kg hardwoods (lower heating value, dry and ash free). */
  it.each([
    ["coniferousWood", 19_100],
    ["broadLeafWood", 18_900],
  ] as const)("%s: the typical net value", (name, value) => {
    expect(entry(name)).toMatchObject({ basis: "net", value, standardUncertainty: 500 });
  });

  it("values from memory say so in their source", () => {
    // 2006 IPCC Guidelines, volume 2, table 1.2: charcoal 29.5 TJ/Gg (from memory).
    expect(entry("charcoal")).toMatchObject({ basis: "net", value: 29_500 });
    // Fuel Processing Technology 54 (1998): rice hulls 15.84 MJ/kg gross, dry (from memory).
    expectNumber(entry("riceHusk").value, 15_840, { absolute: 50 });
    // EPA/600/R-00/052: 11 763 kJ/kg net as fired at 7.3 % moisture (from memory); dry: (NCV + 2443 m)/(1 - m), ISO 18125.
    expectNumber(entry("cattleDung").value, (11_763 + 2443 * 0.073) / (1 - 0.073), { absolute: 50 });
    for (const name of ["charcoal", "riceHusk", "cattleDung"] as const)
      expect(entry(name).source).toMatch(/from memory/);
  });

  it("agree with one another, net and gross", () => {
    // Coniferous and broad-leaved wood: gross 20.5 and 20.1 MJ/kg, hydrogen 6.3 and 6.2 % (ISO 17225-1:2014, table B.1, from memory).
    expectNumber(netFromGross(plainNumbers, 20_500, 0.063), entry("coniferousWood").value, { absolute: 100 });
    expectNumber(netFromGross(plainNumbers, 20_100, 0.062), entry("broadLeafWood").value, { absolute: 200 });
    // Named woods are broad-leaved wood: within twice what both may be off.
    for (const name of ["eucalyptus", "acacia", "blackLocust", "poplar", "willow"] as const) {
      const { value, standardUncertainty } = entry(name);
      const off = Math.abs(netFromGross(plainNumbers, value, 0.06) - entry("broadLeafWood").value);
      expect(off, name).toBeLessThan(2 * Math.hypot(standardUncertainty, entry("broadLeafWood").standardUncertainty));
    }
  });

  it("each has a name of its own in words, a source, and an uncertainty of 1.5 % or more", () => {
    const names = fuelCatalogue.map(({ name }) => wordsFor("en").setUpWork.catalogueFuels[name]);
    expect(new Set(names).size).toBe(fuelCatalogue.length);
    for (const { value, standardUncertainty, source } of fuelCatalogue) {
      expect(standardUncertainty / value).toBeGreaterThanOrEqual(0.015);
      expect(source.length).toBeGreaterThan(30);
    }
  });
});
