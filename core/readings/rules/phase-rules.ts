import type { Phase } from "../phase.ts";
import { charEnergy, charLighterThanContainer, fuelGained } from "./fuel-rules.ts";
import type { PhaseRule, PhaseRuleContext, PhaseRuleFinding } from "./phase-rule.ts";
import { potGained, potLighterThanEmpty, waterAboveBoiling, waterCooled } from "./pot-rules.ts";
import { boiledOutsidePhase, durationNotPositive, durationTooLong, endBeforeStart } from "./timing-rules.ts";

/** What cannot be, within one phase. Order is that of the readings layout. */
export const phaseRules: readonly PhaseRule[] = [
  endBeforeStart,
  durationNotPositive,
  durationTooLong,
  boiledOutsidePhase,
  fuelGained,
  charLighterThanContainer,
  charEnergy,
  potLighterThanEmpty,
  potGained,
  waterCooled,
  waterAboveBoiling,
];

/** Everything that is impossible in a phase, rule by rule. Readings that are NaN are passed over. */
export function phaseFaults(
  phase: Phase,
  context: PhaseRuleContext,
): readonly { readonly rule: PhaseRule; readonly finding: PhaseRuleFinding }[] {
  return phaseRules.flatMap((rule) => rule.check(phase, context).map((finding) => ({ rule, finding })));
}
