import { type ChebyshevSeries, chebyshevSeries, chebyshevValue } from "./chebyshev-series.ts";

/** Terms that hold the logarithm of a critical value on an octave of degrees of freedom to 1e-12. */
const TERMS = 12;
/** Outside these degrees of freedom critical values are computed one by one. */
const [FEWEST, MOST] = [1, 4096];

/**
 * A critical value as a function of the degrees of freedom, for many pairs of groups of which each has its own.
 *
 * ln of Student's t or of the studentized range is a smooth function of 1/nu, so one series serves all degrees of freedom from a power of 2
 * to the next. It agrees with the critical value itself to 1e-11 in relative terms.
 *
 * @param critical above 0, for degrees of freedom from 1
 */
export function criticalByOctaves(
  critical: (degreesOfFreedom: number) => number,
): (degreesOfFreedom: number) => number {
  const octaves = new Map<number, ChebyshevSeries>();
  return (degreesOfFreedom) => {
    if (!(degreesOfFreedom >= FEWEST && degreesOfFreedom < MOST)) return critical(degreesOfFreedom);
    const start = 2 ** Math.floor(Math.log2(degreesOfFreedom));
    // From nu = start at t = 1 to twice that at t = -1.
    const series = octaves.get(start) ?? chebyshevSeries(TERMS, (t) => Math.log(critical((4 * start) / (3 + t))));
    octaves.set(start, series);
    return Math.exp(chebyshevValue(series, (4 * start) / degreesOfFreedom - 3));
  };
}
