import {
  expandedUncertainty,
  type PhaseName,
  type QuantityName,
  type RunResults,
  runErrors,
  type Settings,
  statesErrors,
} from "../../../core/index.ts";

/** Half-widths of the expanded uncertainty of one run's results, in the quantity's unit: by phase, and of the whole run (null). */
export type ExpandedOfRun = ReadonlyMap<PhaseName | null, ReadonlyMap<QuantityName, number>>;

const none: ExpandedOfRun = new Map();

/**
 * Works them out at the study's confidence: of the results that are uncertain at all. They are kept with each run that is shown, so that
 * nothing but these numbers stays of what they were worked out from.
 */
export function expandedOf({ run, phases, values }: RunResults, settings: Settings): ExpandedOfRun {
  if (!statesErrors(settings)) return none;
  const errors = runErrors(run, settings);
  const halves = (names: Iterable<QuantityName>, prefix: string) => {
    const found = new Map<QuantityName, number>();
    for (const name of names) {
      const error = errors.of(prefix + name);
      const half = error === null ? 0 : expandedUncertainty(error, settings.confidence);
      if (half > 0 && Number.isFinite(half)) found.set(name, half);
    }
    return found;
  };
  return new Map<PhaseName | null, ReadonlyMap<QuantityName, number>>([
    ...phases.map((of) => [of.phase, halves(of.values.keys(), `${of.phase}.`)] as const),
    [null, halves(values.keys(), "")],
  ]);
}
