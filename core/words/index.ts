import { english } from "./english/index.ts";
import type { Locale } from "./locale.ts";

export type { Locale } from "./locale.ts";
export { defaultLocale } from "./locale.ts";

/** Everything a person reads, in one language. */
export type Words = typeof english;

const catalogues: Record<Locale, Words> = { en: english };

/** The catalogue of a language. */
export function wordsFor(locale: Locale): Words {
  return catalogues[locale];
}
