import type { Arithmetic } from "../../numeric/arithmetic.ts";
import { constants } from "../../quantity/constants.ts";

/**
 * A time or consumption as it would be for a rise of 75 K (25 to 100 °C), so that tests at other altitudes and with other
 * water temperatures compare.
 *
 *   corrected = value 75 / (Tend - Tstart)
 *
 * @param value any quantity of a boiling phase
 * @param rise Tend - Tstart of pot 1, K, > 0
 * @returns in the unit of `value`
 * Source: Water Boiling Test protocol, version 4.2.3 (2014).
 */
export function temperatureCorrected<N>(arithmetic: Arithmetic<N>, value: N, rise: N): N {
  const reference = arithmetic.constant(constants.referenceTemperatureRise.value);
  return arithmetic.divide(arithmetic.multiply(value, reference), rise);
}
