import { mkdirSync } from "node:fs";
import { basename, dirname } from "node:path";
import { type Locale, visibleText, wordsFor } from "../../../core/index.ts";
import { diskFault, type OpenedFile } from "../../store/index.ts";
import { refuse } from "../refused.ts";

/** What was to be done when a fault came up: saving in the file, opening it, or putting a new one into its folder. */
export type Doing = "saving" | "opening" | "placing";

/** What is wrong with a study file, and what to do, in one or two sentences. An error of neither disk nor store is thrown on. */
export function faultText(error: unknown, path: string | null, locale: Locale, doing: Doing = "saving"): string {
  const { code, detail } = diskFault(error);
  const words = wordsFor(locale).studyFile;
  const file = path === null ? words.someFile : visibleText(basename(path));
  const what = visibleText(detail);
  if (doing === "opening" && code in words.opening) return words.opening[code as keyof typeof words.opening](file);
  if (doing === "placing" && code in words.placing) {
    const folder = path === null ? words.someFile : visibleText(dirname(path));
    return words.placing[code as keyof typeof words.placing](file, folder);
  }
  return words.faults[code](file, what);
}

/** The folder of a new study, made where it is missing. Refused, with the reason, where it cannot be. */
export function makeFolder(folder: string, locale: Locale): void {
  try {
    mkdirSync(folder, { recursive: true });
  } catch (error) {
    const { code, detail } = diskFault(error);
    const { faults, noFolder } = wordsFor(locale).studyFile;
    refuse(code === "full" ? faults.full(visibleText(basename(folder))) : noFolder(visibleText(folder), detail));
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
