import { formatFixed } from "../../format/number.ts";
import type { Locale } from "../../words/locale.ts";

/** A reading as a sentence quotes it: as many decimals as it was written with, three at most. */
export function readingText(value: number, locale: Locale): string {
  const written = String(value);
  const decimals = written.includes("e") ? 3 : (written.split(".")[1] ?? "").length;
  return formatFixed(value, Math.min(3, decimals), locale);
}
