import { type RunResults, runResults } from "../analysis/run-results.ts";
import { formatValueWithUnit } from "../format/quantity.ts";
import { fieldFeeds } from "../procedure/field-feeds.ts";
import { fieldKind } from "../procedure/field-kind.ts";
import type { FieldPlace, ProcedureField } from "../procedure/procedure-field.ts";
import type { ProcedureOptions } from "../procedure/procedure-step.ts";
import { procedureSteps } from "../procedure/procedure-steps.ts";
import type { PhaseQuantityName, QuantityName, RunQuantityName } from "../quantity/quantity-name.ts";
import { quantityEntry } from "../quantity/quantity-table.ts";
import { isHoldingPhase, isoPhases, type PhaseName } from "../readings/phase.ts";
import type { Settings } from "../readings/settings.ts";
import type { Run } from "../readings/study.ts";
import { type Locale, wordsFor } from "../words/index.ts";

/** A result of a run that is being made: its text, or what it waits for. */
export interface SoFarResult {
  readonly quantity: QuantityName;
  readonly label: string;
  readonly text: string | null;
  /** "after the char"; null where the text is there. */
  readonly because: string | null;
}

export interface SoFarPhase {
  /** Null: the whole run. */
  readonly phase: PhaseName | null;
  readonly title: string;
  readonly results: readonly SoFarResult[];
}

/** Results in the order in which they become computable. */
const boilingResults: readonly PhaseQuantityName[] = [
  "timeToBoil",
  "waterEvaporated",
  "fuelConsumedMoist",
  "charFormed",
  "thermalEfficiency",
  "firepower",
  "specificFuelConsumption",
];
const holdingResults: readonly PhaseQuantityName[] = [
  "duration",
  "waterEvaporated",
  "fuelConsumedMoist",
  "charFormed",
  "firepower",
  "specificFuelConsumption",
];
const levelResults: readonly PhaseQuantityName[] = [
  "timeToBoil",
  "waterEvaporated",
  "fuelConsumedMoist",
  "charFormed",
  "isoEfficiencyWithoutChar",
  "isoEfficiencyWithChar",
  "isoFirepower",
];
const runResultsShown: Readonly<Record<Run["method"], readonly RunQuantityName[]>> = {
  wbt: ["highPowerThermalEfficiency", "turnDownRatio", "taskFuel5L", "taskTime"],
  iso: ["meanIsoEfficiencyWithoutChar", "meanIsoEfficiencyWithChar"],
};

function shownOf(phase: PhaseName): readonly PhaseQuantityName[] {
  if ((isoPhases as readonly string[]).includes(phase)) return levelResults;
  return isHoldingPhase(phase) ? holdingResults : boilingResults;
}

/** Readings that no row must have, but without which results are not there. */
const awaited = /^(char_with_container_g|char_container_g|air_C|boiling_C|boiled_at)$/;

/**
 * The results of a run as far as its readings go. A left-out run may lack readings; what follows from them waits, and says for
 * which: the last one in the order of the procedure.
 *
 * @param begun phases in which something was read
 * @param isRecorded whether something stands in a field, on either basis
 */
export function soFar(
  run: Run,
  settings: Settings,
  form: ProcedureOptions,
  begun: readonly PhaseName[],
  isRecorded: (field: ProcedureField) => boolean,
  locale: Locale,
): SoFarPhase[] {
  const results = runResults(run, settings, locale);
  const fields = procedureSteps(run.method, form).flatMap((step) => step.fields);
  const missing = fields.filter((field) => {
    if (field.phase === null || isRecorded(field)) return false;
    if (!field.needed && !awaited.test(field.column)) return false;
    // Where the boiling point follows from the altitude it need not be read.
    if (field.column !== "boiling_C") return true;
    const place = run.phases.find(({ phase }) => phase === field.phase)?.boilingPoint;
    return place === undefined || (place.altitude === null && place.pressure === null);
  });
  const { benchWork, quantities } = wordsFor(locale);
  const title = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);
  const phases = begun.map((phase): SoFarPhase => {
    const shown = shownOf(phase).map((quantity) => resultOf(quantity, phase, results, missing, form, run, locale));
    return { phase, title: title(quantities.phase[phase]), results: shown.filter((one) => one !== null) };
  });
  if (begun.length < 2) return phases;
  const whole = runResultsShown[run.method].map((quantity) =>
    resultOf(quantity, null, results, missing, form, run, locale),
  );
  return [...phases, { phase: null, title: benchWork.wholeRun, results: whole.filter((one) => one !== null) }];
}

function resultOf(
  quantity: QuantityName,
  phase: PhaseName | null,
  results: RunResults,
  missing: readonly ProcedureField[],
  form: ProcedureOptions,
  { method }: Run,
  locale: Locale,
): SoFarResult | null {
  const entry = quantityEntry(quantity, locale);
  const { label } = entry;
  const of = phase === null ? results : results.phases.find((one) => one.phase === phase);
  const value = (of?.values as ReadonlyMap<QuantityName, number> | undefined)?.get(quantity);
  if (value !== undefined) return { quantity, label, text: formatValueWithUnit(value, entry, locale), because: null };
  const feeds = (place: FieldPlace) => fieldFeeds(method, place).includes(quantity);
  const waits = missing.filter((field) => (phase === null || field.phase === phase) && feeds(field));
  const { benchWork, missing: missingWords } = wordsFor(locale);
  const last = waits.at(-1);
  if (last !== undefined) {
    const { kind, pot, entry: fuel } = fieldKind(last);
    const number = form.pots > 1 ? (pot ?? fuel) : fuel;
    return { quantity, label, text: null, because: benchWork.after(kind, number, phase === null ? last.phase : null) };
  }
  const gone = of?.missing.find((one) => one.quantity === quantity);
  // A quantity that does not apply is not shown.
  if (gone === undefined) return null;
  return { quantity, label, text: null, because: missingWords.because(gone.reason, gone.reasonPhase) };
}
