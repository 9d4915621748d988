import { type Locale, shorten, wordsFor } from "../../../core/index.ts";

/** How many runs are named where something is still used. */
const namesShown = 3;

/** The first runs by name, and how many there are besides. */
export function whereText(names: readonly string[], locale: Locale): string {
  const shown = names.slice(0, namesShown).map((name) => shorten(name, 40));
  return wordsFor(locale).setUpWork.and(shown, names.length - shown.length);
}
