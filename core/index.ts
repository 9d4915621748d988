/** The only entry to the core for everything outside it. */
export { decimalsFor, formatFixed, formatSignificant } from "./format/number.ts";
export type { PhaseQuantityName, QuantityName, RunQuantityName } from "./quantity/quantity-name.ts";
export { phaseQuantityNames, runQuantityNames } from "./quantity/quantity-name.ts";
export type * from "./readings/phase.ts";
export { isBoilingPhase, isHoldingPhase, isoPhases, methodOfPhase, phaseNames, wbtPhases } from "./readings/phase.ts";
export type { Problem } from "./readings/problem.ts";
export type { InstrumentRole, Reading } from "./readings/reading.ts";
export type * from "./readings/settings.ts";
export { defaultCharNetCalorific, defaultSettings } from "./readings/settings.ts";
export type { Run, Study } from "./readings/study.ts";
export { variantNames } from "./readings/study.ts";
export type * from "./report/chart-specification.ts";
export type * from "./report/report-document.ts";
export type { Locale, Words } from "./words/index.ts";
export { defaultLocale, wordsFor } from "./words/index.ts";
