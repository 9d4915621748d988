import { basename } from "node:path";
import { type Locale, visibleText, wordsFor } from "../../../core/index.ts";
import { asFault, type OpenedFile } from "../../store/index.ts";

/** What is wrong with a study file, and what to do, in one or two sentences. */
export function faultText(error: unknown, path: string, locale: Locale): string {
  const { code, detail } = asFault(error);
  const { faults } = wordsFor(locale).studyFile;
  const file = visibleText(basename(path));
  switch (code) {
    case "foreign":
    case "damaged":
    case "refused":
    case "unreadable":
      return faults[code](file, detail);
    default:
      return faults[code](file);
  }
}

/** Why a study can only be read. */
export function readOnlyText(reason: NonNullable<OpenedFile["readOnly"]>, locale: Locale): string {
  const { readOnly, nobody } = wordsFor(locale).studyFile;
  switch (reason.because) {
    case "held": {
      const { holder } = reason;
      if (holder === null) return readOnly.heldByUnknown;
      return readOnly.held(holder.who || nobody, holder.machine, timeText(holder.since, locale));
    }
    case "damaged":
      return readOnly.damaged(reason.detail);
    default:
      return readOnly[reason.because];
  }
}

/** A moment as this machine's clock shows it. */
export function timeText(at: string, locale: Locale): string {
  const moment = new Date(at);
  if (Number.isNaN(moment.getTime())) return at;
  return moment.toLocaleString(locale, { dateStyle: "medium", timeStyle: "short" });
}

export function fileNoteText({ note, detail }: OpenedFile["notes"][number], locale: Locale): string {
  const { notes } = wordsFor(locale).studyFile;
  switch (note) {
    case "migrated":
    case "workingCopySetAside":
      return notes[note](detail);
    default:
      return notes[note];
  }
}
