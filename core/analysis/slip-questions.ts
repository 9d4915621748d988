import type { Locale } from "../words/index.ts";
import type { RunFacts } from "./run-facts.ts";
import { BoilingPoints } from "./run-numbers.ts";
import { CarriedOver } from "./slips/carried-over.ts";
import { Clocks } from "./slips/clocks.ts";
import { copiedSuspicions } from "./slips/copied.ts";
import { dateSuspicions } from "./slips/dates.ts";
import { EmptyMasses } from "./slips/empty-masses.ts";
import { exchangedSuspicions } from "./slips/exchanged.ts";
import { Moistures } from "./slips/moisture.ts";
import { numberedRun, type Suspicion } from "./slips/numbered-run.ts";
import { judgeAll, outsideSuspicions } from "./slips/outside.ts";
import { Reference } from "./slips/reference.ts";
import { Variants } from "./slips/wrong-variant.ts";

/**
 * By run: everything that looks odd beside the study's other runs. Runs that were left out are compared, and not asked; those that
 * are still being made are asked.
 */
export function slipSuspicions(
  facts: readonly RunFacts[],
  locale: Locale,
): ReadonlyMap<RunFacts, readonly Suspicion[]> {
  const boilingPoints = new BoilingPoints();
  const runs = facts.map((one) => numberedRun(one, boilingPoints));
  const reference = new Reference(runs);
  const clocks = new Clocks(runs);
  const emptyMasses = new EmptyMasses(runs);
  const moistures = new Moistures(runs);
  const carriedOver = new CarriedOver(runs);
  const variants = new Variants(runs);
  const dates = dateSuspicions(runs, locale);
  const copied = copiedSuspicions(runs, locale);
  return new Map(
    runs.map((run) => {
      if (!run.isCounted && run.facts.onBench !== true) return [run.facts, []];
      const judged = judgeAll(run, reference);
      const isOutside = judged.some(({ excess }) => excess > 1);
      return [
        run.facts,
        [
          ...(dates.get(run) ?? []),
          ...(copied.get(run) ?? []),
          ...clocks.suspicions(run, locale),
          ...emptyMasses.suspicions(run, locale),
          ...moistures.suspicions(run, locale),
          ...carriedOver.suspicions(run, reference, locale),
          ...(isOutside ? exchangedSuspicions(run, reference, locale) : []),
          ...variants.suspicions(run, judged, reference, locale),
          ...(isOutside ? outsideSuspicions(run, reference, locale) : []),
        ],
      ];
    }),
  );
}
