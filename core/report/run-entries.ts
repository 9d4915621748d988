import { type RunResults, resultOf } from "../analysis/run-results.ts";
import type { StudyErrors } from "../analysis/study-errors.ts";
import { formatSignificant } from "../format/number.ts";
import { keyLabel, keyText, type QuantityKey } from "../quantity/quantity-key.ts";
import type { InstrumentRole } from "../readings/reading.ts";
import { expandedUncertainty } from "../uncertainty/expanded.ts";
import type { ValueInterval } from "../uncertainty/monte-carlo/interval.ts";
import type { QuantityError } from "../uncertainty/run-errors.ts";
import { type Locale, wordsFor } from "../words/index.ts";
import {
  existingMoments,
  type Judgement,
  judgementOf,
  outsideWorthSaying,
  type SimulatedRun,
  type Simulation,
} from "./simulation.ts";

/** What is known of the uncertainty of one quantity of one run. */
export interface ValueUncertainty {
  readonly error: QuantityError;
  /** First order: value +- t(nu) u. */
  readonly firstOrder: ValueInterval;
  readonly simulated: {
    readonly run: SimulatedRun;
    readonly judgement: Judgement;
    readonly mean: number | null;
    readonly standardUncertainty: number | null;
    readonly symmetricInterval: ValueInterval | null;
    readonly shortestInterval: ValueInterval | null;
  } | null;
}

/** The uncertainty of one quantity of a run; null where the settings state no errors, or the run has no value of it. */
export function uncertaintyOf(
  one: RunResults,
  key: QuantityKey,
  confidence: number,
  errors: StudyErrors | null,
  simulation: Simulation | null,
): ValueUncertainty | null {
  const value = resultOf(one, key);
  const text = keyText(key);
  const error = value === undefined ? null : (errors?.ofRun(one.run).of(text) ?? null);
  if (value === undefined || error === null) return null;
  const half = expandedUncertainty(error, confidence);
  const firstOrder = { lower: value - half, upper: value + half };
  const run = simulation?.runs.get(one.run.id);
  const output = run?.outputs.get(text);
  if (run === undefined || output === undefined) return { error, firstOrder, simulated: null };
  const judgement = judgementOf(value, error, firstOrder, output, run.stable?.has(text) === true);
  return { error, firstOrder, simulated: { run, judgement, ...output, ...existingMoments(error, output) } };
}

const finite = (value: number | null) => (value !== null && Number.isFinite(value) ? value : null);
const ends = (interval: ValueInterval | null) =>
  interval === null ? null : { lower: finite(interval.lower), upper: finite(interval.upper) };

/** What stands beside a value in results.json: first order, the interval, and what the trials gave. */
export function uncertaintyEntry({ error, firstOrder, simulated }: ValueUncertainty, level: number) {
  const interval = ends(simulated === null ? firstOrder : simulated.symmetricInterval);
  return {
    standardUncertainty: finite(error.standardUncertainty),
    ...(Number.isFinite(error.degreesOfFreedom) && { degreesOfFreedom: error.degreesOfFreedom }),
    interval: interval === null ? null : { level, ...interval },
    ...(simulated !== null && {
      monteCarlo: {
        mean: finite(simulated.mean),
        standardUncertainty: finite(simulated.standardUncertainty),
        shortestInterval: ends(simulated.shortestInterval),
        validates: simulated.judgement.validates,
        trials: simulated.run.trials,
        seed: simulated.run.seed,
      },
    }),
  };
}

/** What must be said of a run's uncertainties: where first order fails, what the trials ran into, what is not included. */
export function uncertaintyNotes(
  known: readonly { readonly key: QuantityKey; readonly uncertainty: ValueUncertainty }[],
  exactRoles: readonly InstrumentRole[],
  locale: Locale,
): string[] {
  const { uncertainty: words, settings } = wordsFor(locale);
  const judged = known.flatMap(({ key, uncertainty: { simulated } }) =>
    simulated === null ? [] : [{ label: keyLabel(key, locale), ...simulated.judgement }],
  );
  const labels = (which: (one: Judgement) => boolean) => judged.filter(which).map(({ label }) => label);
  const most = (share: (one: Judgement) => number) => percentText(Math.max(...judged.map(share)), locale);
  const [bent, shaped, outside, infinite] = [
    labels(({ because, notFinite }) => because === "nonLinear" && notFinite === 0),
    labels(({ because }) => because === "notNormal"),
    labels((one) => one.outside > outsideWorthSaying),
    labels(({ notFinite }) => notFinite > 0),
  ];
  const spreadless = known
    .filter(({ uncertainty: { simulated, error } }) => simulated !== null && error.fewestDegreesOfFreedom <= 2)
    .map(({ key }) => keyLabel(key, locale));
  return [
    ...(bent.length === 0 ? [] : [words.nonLinear(bent)]),
    ...(shaped.length === 0 ? [] : [words.notNormal(shaped)]),
    ...(outside.length === 0
      ? []
      : [
          words.outside(
            outside,
            most((one) => one.outside),
          ),
        ]),
    ...(infinite.length === 0
      ? []
      : [
          words.infinite(
            infinite,
            most(({ notFinite }) => notFinite),
          ),
        ]),
    ...(spreadless.length === 0 ? [] : [words.noSpread(spreadless)]),
    ...(exactRoles.length === 0 ? [] : [words.exact(exactRoles.map((role) => settings.roles[role]))]),
  ];
}

/** A fraction in per cent with two digits; what is smaller than can be said, as under the least. */
function percentText(share: number, locale: Locale): string {
  return formatSignificant(share * 100, 2, locale);
}
