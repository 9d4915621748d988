/** A function on the interval from -1 to 1 as a sum of Chebyshev polynomials. */
export type ChebyshevSeries = Float64Array;

/** The series of that many terms which has the function's values at Chebyshev's points. */
export function chebyshevSeries(terms: number, value: (t: number) => number): ChebyshevSeries {
  const angles = Array.from({ length: terms }, (_, index) => (Math.PI * (index + 0.5)) / terms);
  const values = angles.map((angle) => value(Math.cos(angle)));
  return Float64Array.from({ length: terms }, (_, order) => {
    const sum = values.reduce((total, here, index) => total + here * Math.cos(order * (angles[index] as number)), 0);
    return ((order === 0 ? 1 : 2) * sum) / terms;
  });
}

/**
 * Value of a series at t from -1 to 1.
 *
 * Source: C. W. Clenshaw, Math. Comput. 9, 118 (1955).
 */
export function chebyshevValue(series: ChebyshevSeries, t: number): number {
  const twice = 2 * t;
  let next = 0;
  let afterNext = 0;
  for (let order = series.length - 1; order > 0; order -= 1) {
    const here = (series[order] as number) + twice * next - afterNext;
    afterNext = next;
    next = here;
  }
  return (series[0] as number) + t * next - afterNext;
}
