import type { StudyView } from "../../app/contract/index.ts";

/** A study as the service shows it before anything was read in. */
export const emptyStudyView: StudyView = {
  locale: "en",
  name: "New study",
  isExample: false,
  method: "wbt",
  confidence: 0.95,
  runs: 0,
  leftOut: 0,
  variants: [],
  blocks: [],
  operators: [],
  fuels: [],
  settings: [],
  questions: [],
  notes: [],
  inputs: [],
  leftOutRuns: [],
  leftOutRows: [],
};
