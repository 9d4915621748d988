import { decimalsFor, formatFixed } from "../format/number.ts";
import type { Locale } from "../words/index.ts";

/** A number with at most so many significant digits, and no zeros behind the last one: for what a person gave, not for what was estimated. */
export function shortNumber(value: number, digits: number, locale: Locale): string {
  const most = value === 0 ? 0 : decimalsFor(value, digits);
  const needed = Array.from({ length: most }, (_, decimals) => decimals).find(
    (decimals) => Number(value.toFixed(decimals)) === Number(value.toFixed(most)),
  );
  return formatFixed(value, needed ?? most, locale);
}
