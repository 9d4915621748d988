import { formatFixed } from "../format/number.ts";
import type { MissingReason, Outcome } from "../method/outcome.ts";
import { assumesHydrogen, readingsAsRead, standInsOf } from "../method/phase-inputs.ts";
import { runQuantities } from "../method/run-quantities.ts";
import { plainNumbers } from "../numeric/arithmetic.ts";
import { constants } from "../quantity/constants.ts";
import type { QuantityKey } from "../quantity/quantity-key.ts";
import type { PhaseQuantityName, QuantityName, RunQuantityName } from "../quantity/quantity-name.ts";
import type { PhaseName } from "../readings/phase.ts";
import type { Settings } from "../readings/settings.ts";
import type { Run } from "../readings/study.ts";
import { type Locale, wordsFor } from "../words/index.ts";

/** A quantity that could not be computed, and why. */
export interface MissingQuantity<Q extends QuantityName = QuantityName> {
  readonly quantity: Q;
  readonly reason: MissingReason;
  /** The phase where the reason lies, when that is not the quantity's own. */
  readonly reasonPhase: PhaseName | null;
}

export interface PhaseResults {
  readonly phase: PhaseName;
  readonly values: ReadonlyMap<PhaseQuantityName, number>;
  readonly missing: readonly MissingQuantity<PhaseQuantityName>[];
}

export interface RunResults {
  readonly run: Run;
  readonly phases: readonly PhaseResults[];
  readonly values: ReadonlyMap<RunQuantityName, number>;
  readonly missing: readonly MissingQuantity<RunQuantityName>[];
  readonly notes: readonly string[];
}

/** Everything that one run's readings give. Depends on that run and the settings alone. */
export function runResults(run: Run, settings: Settings, locale: Locale): RunResults {
  const quantities = runQuantities(plainNumbers, run, settings, readingsAsRead);
  const phases = run.phases.map(({ phase }): PhaseResults => {
    return { phase, ...sorted(quantities.phases.get(phase) ?? new Map<PhaseQuantityName, Outcome<number>>()) };
  });
  return { run, phases, ...sorted(quantities.run), notes: notesOf(run, settings, locale) };
}

function sorted<Q extends QuantityName>(outcomes: ReadonlyMap<Q, Outcome<number>>) {
  const values = new Map<Q, number>();
  const missing: MissingQuantity<Q>[] = [];
  for (const [quantity, outcome] of outcomes) {
    if (!outcome.given) missing.push({ quantity, reason: outcome.because, reasonPhase: outcome.phase });
    else if (Number.isFinite(outcome.value)) values.set(quantity, outcome.value);
    else {
      // A run that was left out may lack readings: those are NaN, and so is what they lead to.
      const code = Number.isNaN(outcome.value) ? "notRecorded" : "tooLarge";
      missing.push({ quantity, reason: { code }, reasonPhase: null });
    }
  }
  return { values, missing };
}

function notesOf(run: Run, settings: Settings, locale: Locale): string[] {
  const { notes } = wordsFor(locale);
  const found = new Set<string>();
  for (const phase of run.phases) {
    for (const standIn of standInsOf(run, phase)) {
      found.add(standIn.what === "char" ? notes.charStandsIn : notes.charAtStartStandsIn);
    }
    for (const entry of phase.fuels) {
      if (!assumesHydrogen(entry, settings)) continue;
      found.add(notes.hydrogenAssumed(entry.fuel, formatFixed(constants.hydrogenOfWood.value, 0, locale)));
    }
  }
  return [...found];
}

/** The value of a key in a run's results; undefined where it is missing or does not apply. */
export function resultOf(results: RunResults, key: QuantityKey): number | undefined {
  if (key.phase === null) return results.values.get(key.quantity);
  return results.phases.find(({ phase }) => phase === key.phase)?.values.get(key.quantity);
}
