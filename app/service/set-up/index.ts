import { type Locale, wordsFor } from "../../../core/index.ts";
import type { Edit, SetUpSubject, SetUpView } from "../../contract/index.ts";
import type { Change, StoredHead, StoredNamed } from "../../store/index.ts";
import { refuse } from "../refused.ts";
import type { EditContext, Prepared } from "../study/prepared.ts";
import { settingsOf } from "../study/stored-settings.ts";
import type { StudySession } from "../study/study-session.ts";
import { calibrationsPart } from "./calibrations.ts";
import { errorsPart } from "./errors.ts";
import { fuelsPart } from "./fuels.ts";
import { instrumentsPart } from "./instruments.ts";
import { methodPart } from "./method.ts";
import { monteCarloPart } from "./monte-carlo.ts";
import type { SetUpPart } from "./part.ts";
import { placePart } from "./place.ts";
import { potsPart } from "./pots.ts";
import { variantsPart } from "./variants.ts";

/** In the order in which they are shown. */
const parts: Readonly<Record<SetUpSubject, SetUpPart>> = {
  variant: variantsPart,
  fuel: fuelsPart,
  pot: potsPart,
  place: placePart,
  instrument: instrumentsPart,
  error: errorsPart,
  calibration: calibrationsPart,
  study: methodPart,
  monteCarlo: monteCarloPart,
};

/** An edit of what is set up for a study, as changes of its file. */
export function setUpEdit(edit: Extract<Edit, { kind: "setUp" | "removeSetUp" }>, context: EditContext): Prepared {
  const part = parts[edit.subject];
  const { what, name, changes } =
    edit.kind === "setUp" ? part.edit(edit.item, edit.fields, context) : part.remove(edit.item, context);
  checkSettings(headAfter(context.content.head, changes), context.locale);
  return { note: { what: edit.kind, about: { what, name }, why: null }, changes };
}

/** What is set up for a study, as tables to fill in. */
export function setUpView(session: StudySession, locale: Locale): SetUpView {
  const { content } = session;
  const facts = session.state().looking === null ? content.overview().facts : null;
  return { sections: Object.values(parts).map((part) => part.section({ content, facts, locale })) };
}

function changedItems(
  items: ReadonlyMap<number, StoredNamed>,
  subject: Change["subject"],
  changes: readonly Change[],
): ReadonlyMap<number, StoredNamed> {
  const after = new Map(items);
  for (const change of changes) {
    if (change.subject !== subject) continue;
    if (change.subject !== "fuel" && change.subject !== "pot" && change.subject !== "instrument") continue;
    if (change.after === null) after.delete(change.item);
    else after.set(change.item, change.after);
  }
  return after;
}

/** The settings as they are when the changes are made. */
function headAfter(head: StoredHead, changes: readonly Change[]): StoredHead {
  const settings = new Map(head.settings);
  for (const change of changes) {
    if (change.subject !== "setting") continue;
    if (change.after === null) settings.delete(change.field);
    else settings.set(change.field, change.after);
  }
  return {
    ...head,
    fuels: changedItems(head.fuels, "fuel", changes),
    pots: changedItems(head.pots, "pot", changes),
    instruments: changedItems(head.instruments, "instrument", changes),
    settings,
  };
}

/** Whatever a settings file could not say is refused here, too: the study could not be opened with it. */
function checkSettings(head: StoredHead, locale: Locale): void {
  try {
    settingsOf(head, locale);
  } catch (error) {
    refuse(error instanceof Error ? error.message : wordsFor(locale).setUpWork.noSuchField);
  }
}
