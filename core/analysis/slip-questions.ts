import { atOnce, type InSteps } from "../numeric/in-steps.ts";
import type { Locale } from "../words/index.ts";
import type { RunFacts } from "./run-facts.ts";
import { BoilingPoints } from "./run-numbers.ts";
import { CarriedOver } from "./slips/carried-over.ts";
import { Clocks } from "./slips/clocks.ts";
import { copiedSuspicions, OtherReadings } from "./slips/copied.ts";
import { dateSuspicions } from "./slips/dates.ts";
import { EmptyMasses } from "./slips/empty-masses.ts";
import { exchangedSuspicions } from "./slips/exchanged.ts";
import { Moistures } from "./slips/moisture.ts";
import { type NumberedRun, numberedRun, type Suspicion } from "./slips/numbered-run.ts";
import { judgeAll, outsideSuspicions } from "./slips/outside.ts";
import { Reference } from "./slips/reference.ts";
import { withinRunLimits, withinRunSuspicions } from "./slips/within-run.ts";
import { Variants } from "./slips/wrong-variant.ts";

/** What runs are compared with, worked out once for all of them. */
class Compared {
  readonly #reference: Reference;
  readonly #clocks: Clocks;
  readonly #emptyMasses: EmptyMasses;
  readonly #moistures: Moistures;
  readonly #carriedOver: CarriedOver;
  readonly #variants: Variants;
  readonly #isSmall: boolean;

  private constructor(runs: readonly NumberedRun[], reference: Reference, clocks: Clocks, emptyMasses: EmptyMasses) {
    this.#reference = reference;
    this.#clocks = clocks;
    this.#emptyMasses = emptyMasses;
    this.#moistures = new Moistures(runs);
    this.#carriedOver = new CarriedOver(runs);
    this.#variants = new Variants(runs);
    this.#isSmall = runs.filter(({ isCounted }) => isCounted).length <= withinRunLimits.mostRuns;
  }

  static *inSteps(runs: readonly NumberedRun[]): InSteps<Compared> {
    const reference = yield* Reference.inSteps(runs);
    const clocks = new Clocks(runs);
    yield;
    const emptyMasses = new EmptyMasses(runs);
    yield;
    return new Compared(runs, reference, clocks, emptyMasses);
  }

  /** @param first what its date and its equality to other runs show */
  suspicions(run: NumberedRun, first: readonly Suspicion[], locale: Locale): Suspicion[] {
    const judged = judgeAll(run, this.#reference);
    const isOutside = judged.some(({ excess }) => excess > 1);
    return [
      ...first,
      ...this.#clocks.suspicions(run, locale),
      ...this.#emptyMasses.suspicions(run, locale),
      ...this.#moistures.suspicions(run, locale),
      ...this.#carriedOver.suspicions(run, this.#reference, locale),
      ...(isOutside ? exchangedSuspicions(run, this.#reference, locale) : []),
      ...this.#variants.suspicions(run, judged, this.#reference, locale),
      ...(isOutside ? outsideSuspicions(run, this.#reference, locale) : []),
      ...(this.#isSmall ? withinRunSuspicions(run, locale) : []),
    ];
  }
}

/**
 * By run: everything that looks odd beside the study's other runs. Runs that were left out are compared, and not asked; those that
 * are still being made are asked.
 */
export function* slipSuspicions(
  facts: readonly RunFacts[],
  locale: Locale,
): InSteps<ReadonlyMap<RunFacts, readonly Suspicion[]>> {
  const boilingPoints = new BoilingPoints();
  const runs: NumberedRun[] = [];
  for (const one of facts) {
    runs.push(numberedRun(one, boilingPoints));
    yield;
  }
  const compared = yield* Compared.inSteps(runs);
  yield;
  const dates = dateSuspicions(runs, locale);
  yield;
  const copied = yield* copiedSuspicions(runs, locale);
  const suspicions = new Map<RunFacts, readonly Suspicion[]>();
  for (const run of runs) {
    yield;
    const isAsked = run.isCounted || run.facts.onBench === true;
    const first = [...(dates.get(run) ?? []), ...(copied.get(run) ?? [])];
    suspicions.set(run.facts, isAsked ? compared.suspicions(run, first, locale) : []);
  }
  return suspicions;
}

/** The other runs of a study, to ask one about that is still being made and so is none of them. */
export class OtherRuns {
  readonly #runs: readonly NumberedRun[];
  readonly #compared: Compared;
  readonly #copied: OtherReadings;

  constructor(runs: readonly NumberedRun[]) {
    this.#runs = runs;
    this.#compared = atOnce(Compared.inSteps(runs));
    this.#copied = new OtherReadings(runs);
  }

  suspicions(run: NumberedRun, locale: Locale): Suspicion[] {
    const dates = dateSuspicions([...this.#runs, run], locale).get(run) ?? [];
    return this.#compared.suspicions(run, [...dates, ...this.#copied.suspicions(run, locale)], locale);
  }
}
