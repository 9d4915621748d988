import { type Arithmetic, mean } from "../../numeric/arithmetic.ts";
import { constants } from "../../quantity/constants.ts";

/**
 * Fuel (or energy) to bring 5 L to the boil and keep them simmering: mean of cold and hot start, corrected, plus simmer.
 *
 *   task = 5 [(cold + hot) / 2 + simmer]
 *
 * @param coldStart temperature-corrected specific consumption of the cold start, per litre
 * @param hotStart the same of the hot start
 * @param simmer specific consumption of the simmer, per litre
 * @returns in the unit of the consumptions, for 5 L
 * Source: Water Boiling Test protocol, version 4.2.3 (2014), 5-litre task.
 */
export function taskOfFiveLitres<N>(arithmetic: Arithmetic<N>, coldStart: N, hotStart: N, simmer: N): N {
  const perLitre = arithmetic.add(mean(arithmetic, [coldStart, hotStart]), simmer);
  return arithmetic.multiply(arithmetic.constant(constants.taskVolume.value), perLitre);
}
