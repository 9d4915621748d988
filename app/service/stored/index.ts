/** Between a study file's runs and the core's. */

export { cellText } from "./cell-text.ts";
export { coreRun } from "./core-run.ts";
export { type RunPlace, storedRun } from "./stored-run.ts";
