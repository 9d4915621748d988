import type { Method } from "../readings/phase.ts";

/** One row of a scheme of tiers: thresholds of tier 1 and up, each as good as its tier needs at the least. */
export interface TierRow {
  /** Key of the rated quantity; null: no reading of ours gives it, the row is kept for the record. */
  readonly key: string | null;
  /** What the row is about, where `key` is null. */
  readonly about: "rated" | "oneLevel" | "indoorCarbonMonoxide" | "indoorParticulateMatter";
  readonly better: "more" | "less";
  readonly unit: string;
  readonly thresholds: readonly number[];
}

export interface TierScheme {
  readonly name: string;
  readonly method: Method;
  readonly source: string;
  readonly rows: readonly TierRow[];
}

function row(key: string, better: TierRow["better"], unit: string, thresholds: readonly number[]): TierRow {
  return { key, about: "rated", better, unit, thresholds };
}

/** Tiers of IWA 11:2012 for cookstoves tested by the Water Boiling Test. All thresholds from memory. */
export const iwa11: TierScheme = {
  name: "IWA 11:2012",
  method: "wbt",
  source: "IWA 11:2012, Guidelines for evaluating cookstove performance, tables of tiers (from memory)",
  rows: [
    row("highPowerThermalEfficiency", "more", "1", [0.15, 0.25, 0.35, 0.45]),
    row("simmer.lowPowerSpecificEnergyRate", "less", "MJ/(min·L)", [0.05, 0.039, 0.028, 0.017]),
    row("highPowerCoPerEnergyDelivered", "less", "g/MJ", [16, 11, 9, 8]),
    row("simmer.coRatePerLitre", "less", "g/(min·L)", [0.2, 0.13, 0.1, 0.09]),
    row("highPowerPm25PerEnergyDelivered", "less", "mg/MJ", [979, 386, 168, 41]),
    row("simmer.pm25RatePerLitre", "less", "mg/(min·L)", [8, 4, 2, 1]),
    // What stays in the room is not what the fire gives off where there is a chimney: no reading tells, so no rating.
    { key: null, about: "indoorCarbonMonoxide", better: "less", unit: "g/min", thresholds: [0.97, 0.62, 0.49, 0.42] },
    { key: null, about: "indoorParticulateMatter", better: "less", unit: "mg/min", thresholds: [40, 17, 8, 2] },
  ],
};

const isoEfficiency = [0.1, 0.2, 0.3, 0.4, 0.5];
const isoCarbonMonoxide = [18.3, 11.5, 7.2, 4.4, 3.0];
const isoParticulateMatter = [1030, 481, 218, 62, 5];

function levels(quantity: string, better: TierRow["better"], unit: string, thresholds: readonly number[]): TierRow[] {
  return ["high-power", "medium-power", "low-power"].map((level) => ({
    ...row(`${level}.${quantity}`, better, unit, thresholds),
    about: "oneLevel" as const,
  }));
}

/**
 * Voluntary performance targets of ISO/TR 19867-3:2018 at its default ventilation. From memory but for the first row of CO and
 * PM2.5. That the efficiency without char credit is rated, on the mean over the power levels, is from memory too: each level is
 * given beside it.
 */
export const isoTr19867: TierScheme = {
  name: "ISO/TR 19867-3:2018",
  method: "iso",
  source: "ISO/TR 19867-3:2018, voluntary performance targets, default ventilation (from memory)",
  rows: [
    row("meanIsoEfficiencyWithoutChar", "more", "1", isoEfficiency),
    ...levels("isoEfficiencyWithoutChar", "more", "1", isoEfficiency),
    row("meanCoPerEnergyDelivered", "less", "g/MJ", isoCarbonMonoxide),
    ...levels("coPerEnergyDelivered", "less", "g/MJ", isoCarbonMonoxide),
    row("meanPm25PerEnergyDelivered", "less", "mg/MJ", isoParticulateMatter),
    ...levels("pm25PerEnergyDelivered", "less", "mg/MJ", isoParticulateMatter),
  ],
};

export const tierSchemes: readonly TierScheme[] = [iwa11, isoTr19867];
