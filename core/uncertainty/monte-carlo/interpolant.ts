import { type FormulaOfOne, plainNumbers } from "../../numeric/arithmetic.ts";

/** A smooth function of one number as a polynomial over a range, which agrees with it to about 1e-13 of its value. */
export interface Interpolant {
  readonly centre: number;
  readonly halfWidth: number;
  /** Of Chebyshev polynomials, the first halved. */
  readonly coefficients: Float64Array;
}

const degrees = [6, 10, 16, 24] as const;
/** What the last coefficients may amount to, of the function's smallest value. */
const tolerance = 1e-13;

/** The function over centre +- halfWidth; null where no polynomial of a moderate degree follows it closely. */
export function interpolantOf(formula: FormulaOfOne, centre: number, halfWidth: number): Interpolant | null {
  if (!(halfWidth > 0) || !Number.isFinite(centre + halfWidth)) return null;
  for (const degree of degrees) {
    const coefficients = chebyshevCoefficients(formula, centre, halfWidth, degree);
    if (coefficients === null) return null;
    const smallest = smallestOf(coefficients);
    const last = coefficients.subarray(degree - 2).reduce((sum, one) => sum + Math.abs(one), 0);
    if (last > tolerance * smallest) continue;
    return { centre, halfWidth, coefficients };
  }
  return null;
}

/** Coefficients from the values at the Chebyshev points (J. C. Mason and D. C. Handscomb, Chebyshev Polynomials, 2003, 6.3). */
function chebyshevCoefficients(
  formula: FormulaOfOne,
  centre: number,
  halfWidth: number,
  degree: number,
): Float64Array | null {
  const points = degree + 1;
  const angle = (point: number) => (Math.PI * (point + 0.5)) / points;
  const values = Float64Array.from({ length: points }, (_, point) =>
    formula(plainNumbers, centre + halfWidth * Math.cos(angle(point))),
  );
  if (!values.every(Number.isFinite)) return null;
  const coefficients = new Float64Array(points);
  for (let order = 0; order < points; order += 1) {
    let total = 0;
    for (let point = 0; point < points; point += 1) {
      total += (values[point] as number) * Math.cos(order * angle(point));
    }
    coefficients[order] = ((order === 0 ? 1 : 2) * total) / points;
  }
  return coefficients;
}

/** A lower bound of the function's magnitude over the range: 0 where it may vanish there. */
function smallestOf(coefficients: Float64Array): number {
  const [mean = 0, ...others] = coefficients;
  return Math.max(0, Math.abs(mean) - others.reduce((sum, one) => sum + Math.abs(one), 0));
}

/** The function of each argument: by the polynomial within its range, by the formula itself outside. */
export function through(
  out: Float64Array,
  formula: FormulaOfOne,
  interpolant: Interpolant | null,
  argument: Float64Array,
): void {
  if (interpolant === null) {
    for (let at = 0; at < out.length; at += 1) out[at] = formula(plainNumbers, argument[at] as number);
    return;
  }
  const { centre, halfWidth, coefficients } = interpolant;
  const first = coefficients[0] as number;
  for (let at = 0; at < out.length; at += 1) {
    const x = argument[at] as number;
    const place = (x - centre) / halfWidth;
    if (!(Math.abs(place) <= 1)) {
      out[at] = formula(plainNumbers, x);
      continue;
    }
    // Clenshaw's recurrence.
    const twice = 2 * place;
    let one = 0;
    let two = 0;
    for (let order = coefficients.length - 1; order > 0; order -= 1) {
      const next = twice * one - two + (coefficients[order] as number);
      two = one;
      one = next;
    }
    out[at] = place * one - two + first;
  }
}
