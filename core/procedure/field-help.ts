import { quantityEntry } from "../quantity/quantity-table.ts";
import { type Method, methodOfPhase } from "../readings/phase.ts";
import { type Locale, wordsFor } from "../words/index.ts";
import { fieldFeeds } from "./field-feeds.ts";
import { fieldKind } from "./field-kind.ts";
import type { FieldPlace } from "./procedure-field.ts";
import type { ProcedureStepId } from "./procedure-step.ts";

/** Everything that is said of a field to the person who fills it. */
export interface FieldHelp {
  /** Short, as beside the field: "Pot with water". */
  readonly name: string;
  /** What the reading is. */
  readonly what: string;
  /** How it is taken. */
  readonly how: string;
  /** Labels of the quantities that follow from it. */
  readonly feeds: readonly string[];
  /** The same as a sentence. */
  readonly feedsSentence: string;
}

/** A field's name beside it: "Pot with water"; "Pot 2 with water" where there are several. */
export function fieldName(place: FieldPlace, pots: number, locale: Locale): string {
  const { fields, ofPot, ofEntry } = wordsFor(locale).procedure;
  const { kind, pot, entry } = fieldKind(place);
  const { name } = fields[kind];
  if (pot !== null && pots > 1) return ofPot(name, pot);
  return entry === null ? name : ofEntry(name, entry);
}

/** What a field is, how it is taken and what it feeds. `method` matters for the run's own fields alone. */
export function fieldHelp(place: FieldPlace, pots: number, method: Method, locale: Locale): FieldHelp {
  const { fields, feeds, feedsNothing } = wordsFor(locale).procedure;
  const { what, how } = fields[fieldKind(place).kind];
  const quantities = fieldFeeds(place.phase === null ? method : methodOfPhase(place.phase), place);
  const labels = quantities.map((quantity) => quantityEntry(quantity, locale).label);
  return {
    name: fieldName(place, pots, locale),
    what,
    how,
    feeds: labels,
    feedsSentence: labels.length === 0 ? feedsNothing : feeds(labels.join(", ")),
  };
}

/** A step's title, and in a sentence or two what to do. */
export function stepWords(id: ProcedureStepId, locale: Locale): { readonly title: string; readonly sentence: string } {
  return wordsFor(locale).procedure.steps[id];
}
