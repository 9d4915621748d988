/** Fuels of the table that a study can take over. */
export type CatalogueFuelName =
  | "broadLeafWood"
  | "coniferousWood"
  | "eucalyptus"
  | "acacia"
  | "blackLocust"
  | "poplar"
  | "willow"
  | "bamboo"
  | "maizeStalks"
  | "wheatStraw"
  | "bagasse"
  | "hullsAndShells"
  | "riceHusk"
  | "cattleDung"
  | "charcoal";

/** One fuel of the table. */
export interface CatalogueFuel {
  readonly name: CatalogueFuelName;
  readonly basis: "net" | "gross";
  /** kJ/kg, dry. */
  readonly value: number;
  /** kJ/kg: how far a fuel of this name may lie off. */
  readonly standardUncertainty: number;
  /** Per cent of the dry fuel; null where the source has none: wood's is taken then. */
  readonly hydrogenPercent: number | null;
  readonly source: string;
}

const dataBook =
  "Biomass Energy Data Book, Oak Ridge National Laboratory, appendix A, heat content ranges for various biomass fuels, dry weight basis";
const typicalValues =
  "NIBIO, Energy from wood, typical lower heating value; as ISO 17225-1:2014, table B.1 (from memory)";

/** Least standard uncertainty of a range, kJ/kg: trees of one stand differ by so much. Common practice, no source. */
export const leastOfRange = 300;

/**
 * A fuel of which a source gives the range of gross values that were found. Value: its middle, to 100 kJ/kg. Standard uncertainty: that of a
 * rectangular distribution over the range (JCGM 100:2008, 4.3.7), rounded up to 100 kJ/kg, and not less than {@link leastOfRange}.
 */
function ofRange(name: CatalogueFuelName, lowest: number, highest: number, where: string): CatalogueFuel {
  const rectangular = (highest - lowest) / 2 / Math.sqrt(3);
  return {
    name,
    basis: "gross",
    value: Math.round((lowest + highest) / 2 / 100) * 100,
    standardUncertainty: Math.max(leastOfRange, Math.ceil(rectangular / 100) * 100),
    hydrogenPercent: null,
    source: `${where}: ${lowest} to ${highest} kJ/kg gross`,
  };
}

/**
 * Calorific values of woods, residues and charcoal, from published tables that are open to everybody. They are estimates for where
 * nothing was measured: a laboratory edits them, and its own analysis is better.
 */
export const fuelCatalogue: readonly CatalogueFuel[] = [
  {
    name: "broadLeafWood",
    basis: "net",
    value: 18_900,
    standardUncertainty: 500,
    hydrogenPercent: null,
    source: `${typicalValues}: 18.9 MJ/kg`,
  },
  {
    name: "coniferousWood",
    basis: "net",
    value: 19_100,
    standardUncertainty: 500,
    hydrogenPercent: null,
    source: `${typicalValues}: 19.1 MJ/kg`,
  },
  ofRange("eucalyptus", 19_000, 19_599, dataBook),
  ofRange("acacia", 18_000, 20_450, "BioResources 9(1), 1212-1224 (2014), heating values of six acacia species"),
  ofRange("blackLocust", 19_546, 19_948, dataBook),
  ofRange("poplar", 19_022, 19_737, `${dataBook}, hybrid poplar`),
  ofRange("willow", 18_556, 19_750, dataBook),
  ofRange("bamboo", 19_000, 19_750, dataBook),
  ofRange("maizeStalks", 17_636, 18_519, dataBook),
  ofRange("wheatStraw", 16_188, 18_940, dataBook),
  ofRange("bagasse", 17_317, 19_407, dataBook),
  ofRange("hullsAndShells", 15_831, 20_543, `${dataBook}, hulls, shells, prunings`),
  {
    name: "riceHusk",
    basis: "gross",
    value: 15_800,
    standardUncertainty: 700,
    hydrogenPercent: 4.8,
    source: "Fuel Processing Technology 54, 17-46 (1998), table of rice hulls: 15.84 MJ/kg gross, dry (from memory)",
  },
  {
    name: "cattleDung",
    basis: "net",
    value: 12_900,
    standardUncertainty: 1000,
    hydrogenPercent: null,
    source: "EPA/600/R-00/052 (2000), fuels: 11.76 MJ/kg net at 7.3 % moisture, reckoned to the dry fuel (from memory)",
  },
  {
    name: "charcoal",
    basis: "net",
    value: 29_500,
    standardUncertainty: 1500,
    hydrogenPercent: null,
    source: "2006 IPCC Guidelines, volume 2, chapter 1, table 1.2: 29.5 TJ/Gg net (from memory)",
  },
];
