import { createContext, type ReactNode, use } from "react";
import { defaultLocale, type Locale, wordsFor } from "../../core/index.ts";

const LanguageContext = createContext<Locale>(defaultLocale);

export function Language({ locale, children }: { locale: Locale; children: ReactNode }) {
  return <LanguageContext value={locale}>{children}</LanguageContext>;
}

export function useLocale(): Locale {
  return use(LanguageContext);
}

/** The words of the screens in the study's language. */
export function useWords() {
  return wordsFor(useLocale()).screens;
}
