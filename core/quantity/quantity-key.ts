import { type PhaseName, phaseNames } from "../readings/phase.ts";
import { type Locale, wordsFor } from "../words/index.ts";
import {
  type PhaseQuantityName,
  phaseQuantityNames,
  type QuantityName,
  type RunQuantityName,
  runQuantityNames,
} from "./quantity-name.ts";
import { quantityEntry } from "./quantity-table.ts";

/** A quantity of one phase, or of the whole run. */
export type QuantityKey =
  | { readonly phase: PhaseName; readonly quantity: PhaseQuantityName }
  | { readonly phase: null; readonly quantity: RunQuantityName };

/** "cold-start.thermalEfficiency", "taskFuel5L". */
export function keyText(key: QuantityKey): string {
  return key.phase === null ? key.quantity : `${key.phase}.${key.quantity}`;
}

const phaseTexts = new Map<PhaseName, Map<QuantityName, string>>();

/** The text of a phase's key: the same string each time, for those who write very many. */
export function phaseKeyText(phase: PhaseName, quantity: QuantityName): string {
  const known = phaseTexts.get(phase)?.get(quantity);
  if (known !== undefined) return known;
  const text = `${phase}.${quantity}`;
  const ofPhase = phaseTexts.get(phase) ?? new Map<QuantityName, string>();
  phaseTexts.set(phase, ofPhase.set(quantity, text));
  return text;
}

/** All keys there can be, in the order in which they are shown: the run's own first, then phase by phase. */
export const allQuantityKeys: readonly QuantityKey[] = [
  ...runQuantityNames.map((quantity): QuantityKey => ({ phase: null, quantity })),
  ...phaseNames.flatMap((phase) => phaseQuantityNames.map((quantity): QuantityKey => ({ phase, quantity }))),
];

const byText = new Map(allQuantityKeys.map((key) => [keyText(key), key]));

/** The key that a text names; null where it names none. */
export function parseKey(text: string): QuantityKey | null {
  return byText.get(text) ?? null;
}

/** "thermal efficiency, cold start"; a run's own quantity by its label alone. */
export function keyLabel(key: QuantityKey, locale: Locale): string {
  const { label } = quantityEntry(key.quantity as QuantityName, locale);
  return key.phase === null ? label : wordsFor(locale).quantities.labelInPhase(label, key.phase);
}
