/** Fuels of the table that a study can take over; each is only an estimate of what another laboratory's fuel has. */
export type CatalogueFuelName = "broadLeafWood" | "coniferousWood" | "charcoal";

/** One fuel of the table. */
export interface CatalogueFuel {
  readonly name: CatalogueFuelName;
  readonly basis: "net" | "gross";
  /** kJ/kg, dry, constant pressure. */
  readonly value: number;
  /** kJ/kg: how far a fuel of this kind may lie off, one standard deviation. */
  readonly standardUncertainty: number;
  /** Per cent of the dry fuel; null where the source has none. */
  readonly hydrogenPercent: number | null;
  readonly source: string;
}

export const fuelCatalogue: readonly CatalogueFuel[] = [
  {
    name: "broadLeafWood",
    basis: "net",
    value: 18_900,
    standardUncertainty: 500,
    hydrogenPercent: null,
    source: "ISO 17225-1:2014, table B.1 (from memory)",
  },
];
