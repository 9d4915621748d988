import { methodSources } from "./method-sources.ts";

/** A number that a published procedure fixes, with where it stands. */
export interface Constant {
  readonly value: number;
  readonly unit: string;
  /** exact: fixed by the procedure, so it carries no uncertainty within it. assumed: a default that a measured value replaces. */
  readonly kind: "exact" | "assumed";
  readonly source: string;
}

const { wbt, iso } = methodSources;
const iso18125 = "ISO 18125:2017";

/** Every constant of the formulas. The report prints this table. */
export const constants = {
  specificHeatOfWaterWbt: { value: 4.186, unit: "kJ/(kg·K)", kind: "exact", source: wbt },
  latentHeatInFuelMoisture: { value: 2257, unit: "kJ/kg", kind: "exact", source: `${wbt}, effective calorific value` },
  latentHeatOfEvaporatedWater: { value: 2260, unit: "kJ/kg", kind: "exact", source: `${wbt}, thermal efficiency` },
  referenceTemperatureRise: { value: 75, unit: "K", kind: "exact", source: `${wbt}, temperature correction` },
  taskVolume: { value: 5, unit: "L", kind: "exact", source: `${wbt}, 5-litre task` },
  densityOfWater: { value: 1, unit: "g/mL", kind: "exact", source: `${wbt}: 1 g of water counts as 1 mL` },
  specificHeatOfWaterIso: { value: 4.18, unit: "kJ/(kg·K)", kind: "exact", source: `${iso}; value from memory` },
  latentHeatAsReceived: {
    value: 2443,
    unit: "kJ/kg",
    kind: "exact",
    source: `${iso18125}, as-received conversion, from memory`,
  },
  latentHeatAt25C: { value: 2442, unit: "kJ/kg", kind: "exact", source: "latent heat of water at 25 °C, IAPWS-IF97" },
  waterFromHydrogen: { value: 8.936, unit: "1", kind: "exact", source: "molar masses: water over two hydrogen atoms" },
  hydrogenOfWood: { value: 6, unit: "% of dry fuel", kind: "assumed", source: "common practice for wood, no source" },
  charNetCalorific: { value: 29_500, unit: "kJ/kg", kind: "assumed", source: `${wbt}, default, from memory` },
} as const satisfies Record<string, Constant>;

export type ConstantName = keyof typeof constants;
