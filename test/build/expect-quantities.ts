import { expect } from "vitest";
import { type RunResults, runResults } from "../../core/analysis/run-results.ts";
import type { PhaseName } from "../../core/readings/phase.ts";
import type { Settings } from "../../core/readings/settings.ts";
import { defaultLocale } from "../../core/words/locale.ts";
import { expectNumber } from "../numbers.ts";
import { buildRun, buildSettings, type RunSheet } from "./readings.ts";

/** What a sheet gives. */
export function resultsOf(sheet: RunSheet, settings: Settings = buildSettings()): RunResults {
  return runResults(buildRun(sheet), settings, defaultLocale);
}

/** The values of one phase, or of the run, as a plain object. */
export function valuesOf(results: RunResults, phase: PhaseName | "run"): Record<string, number> {
  const values = phase === "run" ? results.values : results.phases.find((one) => one.phase === phase)?.values;
  if (values === undefined) throw new Error(`no ${phase}`);
  return Object.fromEntries(values);
}

/** Every quantity that is there must be expected, and the other way round; numbers to 1e-9 of their size unless said otherwise. */
export function expectQuantities(
  actual: Readonly<Record<string, number>>,
  expected: Readonly<Record<string, number>>,
  relative = 1e-9,
): void {
  expect(Object.keys(actual).sort()).toEqual(Object.keys(expected).sort());
  for (const [name, value] of Object.entries(expected)) {
    try {
      expectNumber(actual[name], value, { relative });
    } catch (error) {
      throw new Error(`${name}: ${error instanceof Error ? error.message : error}`);
    }
  }
}

/** What is missing and why: "quantity" -> "code", with the reason's phase where it lies in another. */
export function missingOf(results: RunResults, phase: PhaseName | "run"): Record<string, string> {
  const missing = phase === "run" ? results.missing : results.phases.find((one) => one.phase === phase)?.missing;
  if (missing === undefined) throw new Error(`no ${phase}`);
  return Object.fromEntries(
    missing.map(({ quantity, reason, reasonPhase }) => {
      const code = reason.code === "noPhase" ? `noPhase ${reason.phase}` : reason.code;
      return [quantity, reasonPhase === null ? code : `${reasonPhase}: ${code}`];
    }),
  );
}
