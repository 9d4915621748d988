import type { Phase } from "../readings/phase.ts";
import type { Settings } from "../readings/settings.ts";
import type { Run } from "../readings/study.ts";
import type { Locale } from "../words/index.ts";
import type { RunResults } from "./run-results.ts";

/** What a rule about one phase looks at. */
export interface PhaseContext {
  readonly run: Run;
  readonly phase: Phase;
  readonly results: RunResults;
  readonly settings: Settings;
  readonly locale: Locale;
}

export type Found = { readonly rule: string; readonly column: string | null; readonly message: string };
export type Rule = (context: PhaseContext) => Found | readonly Found[] | null;

/** Differences of readings carry rounding in their last bits; a limit is passed only beyond this. */
export const slack = 1e-9;

/** Fewest decimals, from the usual number up, at which the rounded numbers still show what is said of them. */
export function decimalsShowing(usual: number, holds: (rounded: (value: number) => number) => boolean): number {
  const most = usual + 6;
  let decimals = usual;
  while (decimals < most && !holds((value) => Number(value.toFixed(decimals)))) decimals += 1;
  return decimals;
}
