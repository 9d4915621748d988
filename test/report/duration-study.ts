import { analyseStudy, type StudyResults } from "../../core/analysis/study-results.ts";
import type { StudyProvenance } from "../../core/report/report-request.ts";
import { buildSettings, buildStudy, plainPhase, type RunSheet } from "../build/readings.ts";
import { keyOf } from "../build/results.ts";

// Studies of cold starts whose durations are the readings themselves: what a report says of them can be worked by hand, or in R.

/** The quantity that is read off the clock: nothing lies between the reading and the result. */
export const duration = keyOf("cold-start.duration");

/** Runs of a variant with these durations, min; pots differ by a gram, so that no run looks like a copy of another. */
export function runsOf(variant: string, minutes: readonly number[], more: Partial<RunSheet> = {}): RunSheet[] {
  return minutes.map((one, index) => {
    const shift = 10 * (variant.charCodeAt(0) - 65) + index;
    const pots = [{ empty: 600, start: 5600 + shift, end: 5400 + shift, from: 25, to: 98 }];
    const phases = [plainPhase("cold-start", { minutes: one, pots })];
    return { run: `${variant}${index + 1}`, variant, phases, ...more };
  });
}

// 95 % limits of the change from A, from R 4.2.2: Fieller's by its definition with qt at Satterthwaite's degrees of freedom.
/** Mean 21, SD 1. */
export const baselineA = runsOf("A", [20, 21, 22]);
/** Ratio 1.47619, from 1.34125 to 1.63046: sure, more. */
export const longerB = runsOf("B", [30, 31, 32]);
/** Ratio 1.03175, from 0.78315 to 1.29886: open. */
export const openC = runsOf("C", [19, 22, 24]);
/** Ratio 0.52381, from 0.42897 to 0.62667: sure, less. */
export const shorterD = runsOf("D", [10, 11, 12]);
/** Ratio 1.03175, from 0.88908 to 1.18795: open. */
export const openE = runsOf("E", [20, 22, 23]);
/** Ratio 1.95238, from 1.77362 to 2.16148: sure, more. */
export const longerF = runsOf("F", [40, 41, 42]);

export const provenance: StudyProvenance = {
  inputs: [{ file: "readings.csv", sha256: "3f9a".padEnd(64, "7") }],
  leftOutRows: [],
  readingNotes: [],
  isExample: false,
  program: { name: "boilbench", version: "9.8.7" },
};

export function analysed(sheets: readonly RunSheet[], settings = buildSettings()): StudyResults {
  return analyseStudy(buildStudy(sheets, settings), "en");
}
