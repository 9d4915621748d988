import { readFileSync } from "node:fs";
import { join } from "node:path";
import { readReadings, readSettings, readTable } from "../../../app/import/index.ts";
import type { RunTrialsRequest } from "../../../app/service/uncertainty/worker-messages.ts";
import type { Run, Settings } from "../../../core/index.ts";

const folder = join(import.meta.dirname, "../../../sample-data/good");

/** The first run of three phases of the example study, whose settings name instruments. */
export function goodRun(): { readonly run: Run; readonly settings: Settings } {
  const { settings } = readSettings(readFileSync(join(folder, "tall-kettle-stove.settings.json")), "settings.json");
  if (settings === null) throw new Error("the example's settings were refused");
  const table = readTable(readFileSync(join(folder, "tall-kettle-stove.csv")), "readings.csv");
  const { study } = readReadings({ table, settings });
  const run = study?.runs.find(({ phases }) => phases.length === 3);
  if (study === null || run === undefined) throw new Error("the example has no run of three phases");
  return { run, settings: study.settings };
}

/** What to ask of it. */
export function goodRequest(trials: number, more: Partial<RunTrialsRequest> = {}): RunTrialsRequest {
  return { ...goodRun(), ranges: new Map(), trials, seed: 1, confidence: 0.95, adaptiveDigits: null, ...more };
}
