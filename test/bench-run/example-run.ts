import type { Written } from "./one-run.ts";

/** Variant of the example's readings to which `exampleRun` fits. */
export const exampleVariant = "no skirt, wide gap";

/** A run that fits the example's runs of its variant, in the order of the Bench. The hot start's char is weighed. */
export const exampleRun: readonly Written[] = [
  ["cold-start", "air_C", "18.9"],
  ["cold-start", "boiling_C", "94.6"],
  ["cold-start", "fuel", "eucalyptus, split, air-dried"],
  ["cold-start", "moisture_wet_percent", "12.1"],
  ["cold-start", "pot1_empty_g", "612"],
  ["cold-start", "char_container_g", "248"],
  ["cold-start", "pot1_start_g", "5611"],
  ["cold-start", "pot1_start_C", "20.3"],
  ["cold-start", "fuel_start_g", "1604"],
  ["cold-start", "start", "09:14"],
  ["cold-start", "end", "09:43"],
  ["cold-start", "pot1_end_C", "94.4"],
  ["cold-start", "pot1_end_g", "5419"],
  ["cold-start", "fuel_end_g", "907"],
  ["cold-start", "char_with_container_g", "295"],
  ["hot-start", "pot1_start_g", "5609"],
  ["hot-start", "pot1_start_C", "20.4"],
  ["hot-start", "fuel_start_g", "1483"],
  ["hot-start", "start", "09:52"],
  ["hot-start", "end", "10:19"],
  ["hot-start", "pot1_end_C", "94.5"],
  ["hot-start", "pot1_end_g", "5394"],
  ["hot-start", "fuel_end_g", "796"],
  ["hot-start", "char_with_container_g", "299"],
  ["simmer", "pot1_start_g", "5386"],
  ["simmer", "pot1_start_C", "94.1"],
  ["simmer", "fuel_start_g", "1442"],
  ["simmer", "char_at_start_g", "51"],
  ["simmer", "start", "10:24"],
  ["simmer", "end", "11:09"],
  ["simmer", "pot1_end_C", "92.9"],
  ["simmer", "pot1_end_g", "4741"],
  ["simmer", "fuel_end_g", "925"],
  ["simmer", "char_with_container_g", "326"],
];
