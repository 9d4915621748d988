import { type Locale, phaseNames, wordsFor } from "../../../core/index.ts";
import type { RecordedView } from "../../contract/index.ts";
import type { EditNote, RecordedEdit } from "../../store/index.ts";
import { timeText } from "./fault-words.ts";

/** What an edit was, in words, as it was noted when it was made. */
export function editText({ what, about }: Pick<EditNote, "what" | "about">, locale: Locale): string {
  const words = wordsFor(locale);
  const { record } = words;
  const text = (name: string) => String(about[name] ?? "");
  const number = (name: string) => Number(about[name] ?? 0);
  switch (what) {
    case "cell": {
      const phase = phaseNames.find((name) => name === about.phase) ?? null;
      const column = words.screens.reading(text("column"));
      return record.cell(column, phase, text("run"), text("before"), text("after"));
    }
    case "cells":
      return record.cells(number("count"), text("run"));
    case "cellsOfRuns": {
      const way = (["paste", "fillDown", "empty"] as const).find((one) => one === about.way) ?? "paste";
      return record.cellsOfRuns(way, number("count"), number("runs"));
    }
    case "answer":
    case "reopen":
      return record[what](about.run === null ? null : text("run"));
    case "beginRun":
      return record.beginRun(text("run"), text("variant"));
    case "stamp": {
      const phase = phaseNames.find((name) => name === about.phase) ?? "cold-start";
      return record.stamp(words.screens.reading(text("column")), phase, text("run"), text("at"));
    }
    case "specimens": {
      const phase = phaseNames.find((name) => name === about.phase) ?? "cold-start";
      return record.specimens(number("count"), phase, text("run"));
    }
    case "benchForm":
    case "finishRun":
    case "abandonRun":
    case "takeUpRun":
      return record[what](text("run"));
    case "setUp":
    case "removeSetUp":
      return record[what](text("what"), text("name"));
    case "leaveOut":
      return record.leaveOut(text("run"));
    case "bringBack":
      return record.bringBack(text("run"));
    case "renameStudy":
      return record.renameStudy(text("before"), text("after"));
    case "import":
      return record.import(text("file"), number("runs"));
    case "goBack":
      return record.goBack(timeText(text("at"), locale));
    case "create":
      return record.create(text("name"));
    default:
      return record.other;
  }
}

/** What was done, as it is told when it is on disk. */
export function doneText(done: RecordedEdit, of: RecordedEdit, locale: Locale): string {
  const { record } = wordsFor(locale);
  const what = editText(of, locale);
  if (done.way === "undo") return record.undone(what);
  return done.way === "redo" ? record.redone(what) : record.done(what);
}

/** One step of the record, for a page. An undo notes the same as the edit that it is of. */
export function recordedView(edit: RecordedEdit, locale: Locale): RecordedView {
  const { record } = wordsFor(locale);
  const what = editText(edit, locale);
  const said = edit.way === "undo" ? record.undone(what) : edit.way === "redo" ? record.redone(what) : what;
  return { edit: edit.edit, at: edit.at, who: edit.who, what: said, why: edit.why, way: edit.way };
}
