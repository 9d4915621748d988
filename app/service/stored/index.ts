/** Between a study file's runs and the core's. */

export { type CellEdit, type CellProblem, isCellColumn, isRunColumn } from "./cell-edit.ts";
export { cellText } from "./cell-text.ts";
export { type ChangesPlace, changesOf } from "./changes-of.ts";
export { coreRun } from "./core-run.ts";
export { editedRun, type RunEdited } from "./edited-run.ts";
export { isOrderKept, type RunPlace, storedRun } from "./stored-run.ts";
