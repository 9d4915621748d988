import { cellProblems, runProblems } from "./readings-cells.ts";
import { entryProblems } from "./readings-entry.ts";
import { fileProblems, importNotes } from "./readings-file.ts";
import { phaseProblems } from "./readings-phase.ts";
import { settingsProblems } from "./readings-settings.ts";

/** Sentences about bad or odd input: what is wrong, and what to do. */
export const problems = {
  file: fileProblems,
  cell: cellProblems,
  entry: entryProblems,
  run: runProblems,
  phase: phaseProblems,
  settings: settingsProblems,
  notes: importNotes,
};
