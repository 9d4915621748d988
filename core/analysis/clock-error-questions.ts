import { componentUncertainty } from "../readings/component-uncertainty.ts";
import type { Settings } from "../readings/settings.ts";
import { type Locale, wordsFor } from "../words/index.ts";
import { describedAs } from "./balance-questions.ts";
import type { Question } from "./question.ts";

/** Limits of clocks' errors: any part of the reading is one. */
export const clockErrorLimits = { leastRelative: 0 } as const;

/**
 * One question where the clock has an error that is a fraction of the reading and new at each reading: a time of day is no duration, and a
 * fraction of the hours since midnight is what nobody means. Shared, it is the rate of the clock, and comes to that fraction of each duration.
 */
export function clockErrorQuestions(settings: Settings, locale: Locale): Question[] {
  const components = describedAs("clock", settings)?.components ?? [];
  const isOdd = components.some(
    (component) =>
      component.kind === "independent" && componentUncertainty(component).relative > clockErrorLimits.leastRelative,
  );
  if (!isOdd) return [];
  const message = wordsFor(locale).questions.clockErrorOfReading;
  return [{ rule: "clockErrorOfReading", run: null, variant: null, phase: null, column: "start", message }];
}
