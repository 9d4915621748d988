import { count } from "./count.ts";

const cells = (n: number) => count(n, "cell", "cells");
const rows = (n: number) => count(n, "row", "rows");

/** What the grid of readings and results says. */
export const grid = {
  label: "Readings and results: a row for each phase of a run",
  runAndPhase: "run, phase",
  find: "Find",
  findHint: "a name, a number, a word",
  variant: "Variant",
  allVariants: "all variants",
  phase: "Phase",
  allPhases: "all phases",
  only: "Show",
  onlyOf: { all: "all runs", counting: "runs that count", leftOut: "runs left out", questions: "rows with questions" },
  shown: (shownRows: number, allRows: number, runs: number) =>
    shownRows === allRows
      ? `${rows(shownRows)}, ${count(runs, "run", "runs")}`
      : `${shownRows} of ${rows(allRows)}, ${count(runs, "run", "runs")}`,
  nothingFits: "No row has what was asked for.",
  showAll: "Show all rows",
  notThere: (run: string) => `${run} is not among the rows that are shown.`,

  columns: "Columns…",
  columnsTitle: "Which columns are shown",
  columnsFind: "Find a column",
  columnsNone: "No column has that in its name.",
  columnsAsAtFirst: "As at first",
  columnsDone: "Done",
  columnsAll: "all",
  columnsNoneOf: "none",
  columnsAllOf: (group: string) => `all: ${group}`,
  columnsHideOf: (group: string) => `none: ${group}`,
  columnsShown: (shown: number, all: number) => `${shown} of ${count(all, "column", "columns")} shown`,
  group: { run: "The run", reading: "Readings", result: "Results of phases", runResult: "Results of whole runs" },
  excluded: "left out because",
  sorted: (column: string, falling: boolean) =>
    `Sorted by ${column}, ${falling ? "largest or last first" : "smallest or first first"}.`,
  inOrder: "In the order of the study.",

  fillDown: "Fill down",
  fillHint: "Writes the upper cell into those below it (Ctrl D)",
  selected: (selectedRows: number, selectedColumns: number) =>
    `${rows(selectedRows)} × ${count(selectedColumns, "column", "columns")} chosen`,
  copied: (n: number) => `${cells(n)} copied.`,
  copyAgain: "The rows are there now: copy once more.",
  fetching: "Rows are being fetched…",
  fetchFailed: "The rows could not be fetched, so nothing was done. Try again.",
  nothingPasted: "There is no text to paste.",
  doesNotFit: (gotRows: number, gotColumns: number, roomRows: number, roomColumns: number) =>
    `What was copied has ${rows(gotRows)} and ${count(gotColumns, "column", "columns")}; from here on there are only ${rows(roomRows)} and ${count(roomColumns, "column", "columns")}. Nothing was pasted: begin further up or to the left, or copy less.`,
  tooMany: (n: number, most: number) =>
    `${cells(n)} are more than the ${most} that can be changed at once. Nothing was changed: take fewer at a time.`,
  sameAlready: "Nothing was changed: the cells hold that already.",
  nothingToFill: "There is nothing above to fill from.",
  noReadings: "Nothing was changed: these cells are worked out from the readings.",
  readOnly: "Nothing was changed: this study cannot be changed now.",

  bulk: { paste: "Pasting", fillDown: "Filling down", empty: "Emptying" },
  bulkRefused: (way: "paste" | "fillDown" | "empty", n: number) =>
    `${{ paste: "Nothing was pasted", fillDown: "Nothing was filled down", empty: "Nothing was emptied" }[way]}: ${n === 1 ? "one cell does" : `${n} cells do`} not fit.`,
  bulkLead: "All of it is kept here. Mend the cells, or leave them out, then try again.",
  bulkStopped: {
    paste: "Nothing was pasted yet.",
    fillDown: "Nothing was filled down yet.",
    empty: "Nothing was emptied yet.",
  },
  bulkUnheard: "The program does not answer, so it is not known whether this was done. It is kept here: try again.",
  bulkKept: "This was not done yet when the page was loaded anew.",
  bulkNameless: "Say who is writing, then try again.",
  bulkOf: (n: number) => `${cells(n)} to change.`,
  bulkMend: (place: string) => `New text for ${place}`,
  bulkMended: "Mended: try again.",
  bulkAgain: "Try again",
  bulkRest: (n: number, rest: number) => `Leave ${n === 1 ? "it" : `these ${n}`} out, change the other ${rest}`,
  bulkLeaveOut: "Leave out",
  bulkLeaveOutOf: (place: string) => `Leave out: ${place}`,
  bulkDrop: "Drop all of it",
  bulkPending: "First mend or drop what could not be done before: it stands below the table.",
  bulkMore: (n: number) => `${n} more`,
  goTo: "Go to it",
  goToOf: (place: string) => `Go to it: ${place}`,
  twoTexts: (run: string) => `${run} has one such reading, not one a phase, and two different texts were given for it.`,
  leftOutHere: "Runs are left out and brought back one at a time, each with its reason.",
  runName: "The name and phase of a run are not pasted over: change a name in its own cell.",

  questions: (n: number) => count(n, "question", "questions"),
  noQuestions: "no open questions",
  previousQuestion: "Previous question",
  nextQuestion: "Next question",
  questionOf: (at: number, all: number) => `${at} of ${all}`,
  questionKeys: "F8, Shift F8",
  questionOfStudy: "This question is about the study or a variant as a whole.",
  questionsAsked: "What looks odd",

  help: { what: "What it is", how: "How to take it" },
  unsaved: (text: string) => `not saved yet: ${text}`,
  notFetched: "not fetched yet",
  onFirstRow: "stands with the first phase of the run",
  writing: (place: string) => `${place}, in its cell`,
  emptyStudy: "There are no runs yet.",
  emptyRemedy: "Take in a file of readings, or write a run down while it is made.",
  toImport: "Go to Import",
  toBench: "Go to the Bench",
  keys: "Arrows move · Shift chooses a range · Enter, F2 or a character changes a cell · Delete empties · Ctrl C, Ctrl V copy and paste · Ctrl D fills down · F8 goes to the next question · Enter on a heading sorts, on a result shows what its uncertainty is made of",
  keysReadOnly:
    "Arrows move · Shift chooses a range · Ctrl C copies · F8 goes to the next question · Enter on a heading sorts, on a result shows what its uncertainty is made of",
  keysTitle: "Keys",
};
