import {
  defaultLocale,
  formatFixed,
  type Locale,
  type WaterProperties,
  waterAtAltitude,
  waterAtPressure,
  wordsFor,
} from "../../core/index.ts";

/** Where the water boils: an altitude in m, or an absolute pressure in kPa. */
export type WaterPlace = { readonly altitude: number } | { readonly pressure: number };

/** Boiling point and latent heat at a place, or why there are none. */
export function waterFile(place: WaterPlace): WaterProperties {
  return "altitude" in place ? waterAtAltitude(place.altitude) : waterAtPressure(place.pressure);
}

/** The same in words. */
export function waterText(place: WaterPlace, locale: Locale = defaultLocale): string {
  const words = wordsFor(locale).commandLine;
  const water = waterFile(place);
  if (!water.ok) {
    return words.waterOutside(
      "altitude" in place ? "altitude" : "pressure",
      formatFixed(water.lowest, water.lowest % 1 === 0 ? 0 : 1, locale),
      formatFixed(water.highest, 0, locale),
    );
  }
  return words.water(
    formatFixed(water.pressure, 2, locale),
    formatFixed(water.boilingPoint, 2, locale),
    formatFixed(water.latentHeat, 1, locale),
  );
}
