import { type FuelSettings, fuelCatalogue, type Locale, wordsFor } from "../../../core/index.ts";
import { withError } from "./simple-errors.ts";

/** The table of fuels as fuels of a study, with their names and sources in words. */
export function fuelCatalogueTexts(
  locale: Locale,
): readonly { readonly label: string; readonly fuel: FuelSettings; readonly source: string }[] {
  const words = wordsFor(locale).setUpWork;
  return fuelCatalogue.map(({ name, basis, value, standardUncertainty, hydrogenPercent, source }) => {
    const calorific = { value, components: withError("standard", standardUncertainty, []) };
    return {
      label: words.catalogueFuels[name],
      fuel: {
        netCalorific: basis === "net" ? calorific : null,
        grossCalorific: basis === "gross" ? calorific : null,
        hydrogenPercent: hydrogenPercent === null ? null : { value: hydrogenPercent, components: [] },
        source,
      },
      source,
    };
  });
}
