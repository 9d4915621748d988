import { type Instrument, type InstrumentRole, type Locale, type Settings, wordsFor } from "../../../core/index.ts";
import { instrumentRoles } from "../../import/index.ts";
import type { Change, StoredHead } from "../../store/index.ts";
import { refuse } from "../refused.ts";
import type { EditContext } from "../study/prepared.ts";
import { settingsParts } from "../study/stored-settings.ts";

export type Described = Instrument | { readonly sameAs: InstrumentRole };

/** True where nothing is said of an instrument any more. */
export function isNothing({ components, source, calibrations = [] }: Instrument): boolean {
  return components.length === 0 && source === undefined && calibrations.length === 0;
}

export function roleOf(item: string, locale: Locale): InstrumentRole {
  return instrumentRoles.find((role) => role === item) ?? refuse(wordsFor(locale).setUpWork.gone);
}

function storedOf(role: InstrumentRole, { instruments }: StoredHead) {
  return [...instruments].find(([, { name }]) => name === role) ?? null;
}

/** What an instrument becomes in the file: nothing where nothing is said of it any more. */
export function instrumentChange(role: InstrumentRole, instrument: Described | null, context: EditContext): Change[] {
  const { content, database } = context;
  const there = storedOf(role, content.head);
  if (instrument === null) return there === null ? [] : [{ subject: "instrument", item: there[0], after: null }];
  const [after] = settingsParts({ ...content.settings, instruments: new Map([[role, instrument]]) }).instruments;
  if (after === undefined) throw new Error("an instrument was lost on its way");
  if (there !== null && JSON.stringify(there[1]) === JSON.stringify(after)) return [];
  return [{ subject: "instrument", item: there?.[0] ?? database.nextItem("instrument"), after }];
}

/** A role that says it is the same instrument as this one. */
export function otherOf(role: InstrumentRole, { instruments }: Settings): InstrumentRole | null {
  for (const [other, instrument] of instruments) if ("sameAs" in instrument && instrument.sameAs === role) return other;
  return null;
}

/** An instrument that others are the same as must stay. */
export function refuseIfNamed(role: InstrumentRole, settings: Settings, locale: Locale): void {
  const other = otherOf(role, settings);
  const { roles } = wordsFor(locale).settings;
  if (other !== null) refuse(wordsFor(locale).setUpWork.instrumentUsed(roles[role], roles[other]));
}
