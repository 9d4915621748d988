import { type ChebyshevSeries, chebyshevSeries, chebyshevValue } from "./chebyshev-series.ts";
import { studentizedRangeQuantile } from "./studentized-range.ts";

/** Terms that hold ln q on an octave of degrees of freedom to 1e-12. */
const TERMS = 12;
/** Outside these degrees of freedom quantiles are computed one by one. */
const [FEWEST, MOST] = [1, 4096];

/**
 * The q that is exceeded with probability `tail`, as a function of the degrees of freedom: `studentizedRangeQuantile` for many pairs
 * of groups, each with its own.
 *
 * ln q is a smooth function of 1/nu, so one series serves all degrees of freedom from a power of 2 to the next. It agrees with the
 * quantile itself to 1e-11 in relative terms.
 *
 * @param tail, groups and degrees of freedom as `studentizedRangeQuantile`
 */
export function studentizedRangeCritical(tail: number, groups: number): (degreesOfFreedom: number) => number {
  const octaves = new Map<number, ChebyshevSeries>();
  return (degreesOfFreedom) => {
    if (!(degreesOfFreedom >= FEWEST && degreesOfFreedom < MOST)) {
      return studentizedRangeQuantile(tail, groups, degreesOfFreedom);
    }
    const start = 2 ** Math.floor(Math.log2(degreesOfFreedom));
    // From nu = start at t = 1 to twice that at t = -1.
    const series =
      octaves.get(start) ??
      chebyshevSeries(TERMS, (t) => Math.log(studentizedRangeQuantile(tail, groups, (4 * start) / (3 + t))));
    octaves.set(start, series);
    return Math.exp(chebyshevValue(series, (4 * start) / degreesOfFreedom - 3));
  };
}
