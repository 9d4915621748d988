import type { PhaseName } from "../../readings/phase.ts";
import { shorten } from "../shorten.ts";
import { quantityWords } from "./quantities.ts";

const quoted = (text: string) => (text === "" ? "nothing" : `“${shorten(text, 60)}”`);
const named = (text: string) => shorten(text, 60);

/** What the record of edits says: each kind of edit in a few words, as undo would name it. */
export const record = {
  /** "pot 1, end of run 7, cold start: “4980” became “5080”" */
  cell: (column: string, phase: PhaseName | null, run: string, before: string, after: string) =>
    `${column} of run ${named(run)}${phase === null ? "" : `, ${quantityWords.phase[phase]}`}: ${quoted(before)} became ${quoted(after)}`,
  cells: (count: number, run: string) => `${count} cells of run ${named(run)} changed`,
  leaveOut: (run: string) => `run ${named(run)} left out`,
  bringBack: (run: string) => `run ${named(run)} brought back`,
  cellsOfRuns: (way: "paste" | "fillDown" | "empty", count: number, runs: number) => {
    const cells = `${count === 1 ? "one cell" : `${count} cells`} of ${runs === 1 ? "one run" : `${runs} runs`}`;
    return { paste: `${cells} pasted`, fillDown: `${cells} filled down`, empty: `${cells} emptied` }[way];
  },
  answer: (run: string | null) =>
    run === null ? "a question about the study answered" : `a question about run ${named(run)} answered`,
  reopen: (run: string | null) =>
    run === null ? "a question about the study opened again" : `a question about run ${named(run)} opened again`,
  beginRun: (run: string, variant: string) => `run ${named(run)} of ${named(variant)} begun on the Bench`,
  benchForm: (run: string) => `the sheet of run ${named(run)} changed`,
  stamp: (column: string, phase: PhaseName, run: string, at: string) =>
    `${column} of run ${named(run)}, ${quantityWords.phase[phase]}: stamped at ${at}`,
  specimens: (count: number, phase: PhaseName, run: string) =>
    `moisture of ${count === 1 ? "one specimen" : `${count} specimens`} in run ${named(run)}, ${quantityWords.phase[phase]}`,
  finishRun: (run: string) => `run ${named(run)} finished`,
  abandonRun: (run: string) => `run ${named(run)} abandoned`,
  takeUpRun: (run: string) => `run ${named(run)} taken up again`,
  /** `what`: "variant", "fuel", … */
  setUp: (what: string, name: string) => `${what} ${quoted(name)} set up`,
  removeSetUp: (what: string, name: string) => `${what} ${quoted(name)} removed`,
  renameStudy: (before: string, after: string) => `study renamed from ${quoted(before)} to ${quoted(after)}`,
  import: (file: string, runs: number) => `${runs === 1 ? "one run" : `${runs} runs`} taken in from ${named(file)}`,
  goBack: (at: string) => `gone back to the backup of ${at}`,
  create: (name: string) => `study ${quoted(name)} begun`,
  other: "an edit that this version of the program does not know",
  undone: (what: string) => `Undone: ${what}`,
  redone: (what: string) => `Done again: ${what}`,
  done: (what: string) => `Saved: ${what}`,

  nothingToUndo: "There is nothing to undo.",
  nothingToRedo: "There is nothing to do again.",
  stepChanged: (what: string) =>
    `Another edit came in between, so nothing was undone. The last one is now: ${what}. Look at it, and try again.`,
  runGone: "This run is not in the study any more. Look at the runs again.",
  cellChanged: (column: string, was: string, is: string) =>
    `${column} was changed in another window meanwhile: it was ${quoted(was)} and is now ${quoted(is)}. This was not saved. Look at it, and save once more if yours is right.`,
  nothingChanged: "That is what stands there already; nothing was changed.",
  notACell: (column: string) => `${column} is not something that can be typed in.`,
  alreadyLeftOut: (run: string) => `Run ${named(run)} is left out already.`,
  notLeftOut: (run: string) => `Run ${named(run)} is not left out.`,
  runsAlreadyThere: (count: number, names: readonly string[]) =>
    `${count === 1 ? "One run of this file is" : `${count} runs of this file are`} in the study already: ${names.map(quoted).join(", ")}${count > names.length ? ", …" : ""}. Rename them in the file, or leave their rows out, or take the file as a new study.`,
  orderTooLarge: (run: string) =>
    `The order of run ${named(run)} is larger than a study keeps. Number the runs in the order in which they were made: 1, 2, 3, …`,
  runNameTaken: (name: string) => `There is a run ${quoted(name)} in this study already. Choose another name.`,
};
