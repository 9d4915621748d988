import { componentUncertainty } from "../readings/component-uncertainty.ts";
import type { InstrumentRole } from "../readings/reading.ts";
import type { Settings, UncertaintyComponent } from "../readings/settings.ts";
import { type Locale, wordsFor } from "../words/index.ts";
import type { Question } from "./question.ts";

/** What the two balances weigh, with the reading that such a question is kept at. */
const balances = [
  { role: "fuelBalance", column: "fuel_start_g" },
  { role: "potBalance", column: "pot1_start_g" },
] as const satisfies readonly { readonly role: InstrumentRole; readonly column: string }[];

/** Limits of balances: any gain at all is one, and no shared absolute error is too small to be taken for an offset. */
export const balanceLimits = { leastGain: 0, leastOffset: 0 } as const;

/** The role under which an instrument is described, and its errors; null where none is given. */
export function describedAs(role: InstrumentRole, { instruments }: Settings) {
  let end = role;
  for (let steps = 0; steps <= instruments.size; steps++) {
    const found = instruments.get(end);
    if (found === undefined) return null;
    if (!("sameAs" in found)) return { end, components: found.components };
    end = found.sameAs;
  }
  return null;
}

/**
 * True where a balance has an error that all its weighings share in grams, and none that grows with the load: the offset cancels in every
 * difference of two weighings, and masses of wood, water and char are such differences.
 */
function isWithoutGain(components: readonly UncertaintyComponent[]): boolean {
  const parts = components.map((component) => ({ kind: component.kind, ...componentUncertainty(component) }));
  const hasOffset = parts.some(({ kind, absolute }) => kind === "shared" && absolute > balanceLimits.leastOffset);
  return hasOffset && parts.every(({ relative }) => relative <= balanceLimits.leastGain);
}

/** One question for each balance of which an offset is given, but no gain. */
export function balanceQuestions(settings: Settings, locale: Locale): Question[] {
  const words = wordsFor(locale);
  const asked = balances.flatMap(({ role, column }) => {
    const described = describedAs(role, settings);
    return described !== null && isWithoutGain(described.components) ? [{ role, column, end: described.end }] : [];
  });
  return [...Map.groupBy(asked, ({ end }) => end).values()].flatMap((same): Question[] => {
    const [first] = same;
    if (first === undefined) return [];
    const message = words.questions.balanceWithoutGain(same.map(({ role }) => words.settings.roles[role]));
    return [{ rule: "balanceWithoutGain", run: null, variant: null, phase: null, column: first.column, message }];
  });
}
