import type { PhaseName } from "../../core/index.ts";

/** A field of a run from paper: phase, column, what was written. */
export type Written = readonly [phase: PhaseName | null, column: string, text: string];

/** A plain one-pot run of the Water Boiling Test in the order of the Bench, with invented but likely readings. */
export const oneRun: readonly Written[] = [
  ["cold-start", "air_C", "18.5"],
  ["cold-start", "boiling_C", "94.6"],
  ["cold-start", "fuel", "pine"],
  ["cold-start", "moisture_wet_percent", "11.2"],
  ["cold-start", "pot1_empty_g", "612"],
  ["cold-start", "char_container_g", "212"],
  ["cold-start", "pot1_start_g", "5612"],
  ["cold-start", "pot1_start_C", "16.2"],
  ["cold-start", "fuel_start_g", "1504"],
  ["cold-start", "start", "09:14:20"],
  ["cold-start", "end", "09:39:50"],
  ["cold-start", "pot1_end_C", "94.4"],
  ["cold-start", "pot1_end_g", "5430"],
  ["cold-start", "fuel_end_g", "820"],
  ["cold-start", "char_with_container_g", "265"],
  ["hot-start", "pot1_start_g", "5608"],
  ["hot-start", "pot1_start_C", "16.8"],
  ["hot-start", "fuel_start_g", "1460"],
  ["hot-start", "start", "09:52:00"],
  ["hot-start", "end", "10:14:30"],
  ["hot-start", "pot1_end_C", "94.5"],
  ["hot-start", "pot1_end_g", "5441"],
  ["hot-start", "fuel_end_g", "846"],
  ["simmer", "pot1_start_g", "5441"],
  ["simmer", "pot1_start_C", "94.0"],
  ["simmer", "fuel_start_g", "846"],
  ["simmer", "start", "10:19:00"],
  ["simmer", "end", "11:04:00"],
  ["simmer", "pot1_end_C", "93.2"],
  ["simmer", "pot1_end_g", "4580"],
  ["simmer", "fuel_end_g", "310"],
  ["simmer", "char_with_container_g", "298"],
];
