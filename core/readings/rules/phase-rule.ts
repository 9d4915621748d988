import type { Locale } from "../../words/locale.ts";
import type { Phase } from "../phase.ts";
import type { Settings } from "../settings.ts";

export type PhaseRuleName =
  | "end-before-start"
  | "duration-not-positive"
  | "duration-too-long"
  | "boiled-outside-phase"
  | "fuel-gained"
  | "char-lighter-than-container"
  | "char-energy"
  | "pot-lighter-than-empty"
  | "pot-gained"
  | "water-cooled"
  | "water-above-boiling";

/** What a rule needs to know besides the phase. */
export interface PhaseRuleContext {
  readonly settings: Pick<Settings, "fuels" | "charNetCalorific" | "instruments">;
  /** All phases of the run, this one among them. */
  readonly runPhases: readonly Phase[];
}

export interface PhaseRuleFinding {
  /** Column of the readings layout where it is shown. */
  readonly column: string;
  readonly message: (locale: Locale) => string;
}

/**
 * One thing that cannot be, within one phase. Values that are not numbers (not entered yet, or unreadable and reported as
 * such) make no finding: every comparison is written so that NaN passes.
 */
export interface PhaseRule {
  readonly rule: PhaseRuleName;
  /**
   * True where it may happen in a run that went wrong: in a run that is left out it is a question, not an error.
   */
  readonly mayHappenWhenAbandoned?: boolean;
  check(phase: Phase, context: PhaseRuleContext): readonly PhaseRuleFinding[];
}
