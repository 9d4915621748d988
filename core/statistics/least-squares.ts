import { inverse, Matrix, QrDecomposition } from "ml-matrix";

/** A column is taken to depend on others where less than this share of its length is left beside them; R's lm takes the same. */
const DEPENDENT = 1e-7;

/** What contrasts of a fit's coefficients are made of. */
export interface Fit {
  /** Those of the values less their mean: contrasts that a common constant does not change are the values' own. */
  readonly coefficients: readonly number[];
  /** Standard deviation of the residuals, divisor degreesOfFreedom; null where there is none. */
  readonly residualDeviation: number | null;
  /** Number of values less number of columns. */
  readonly degreesOfFreedom: number;
  /** sqrt(c' (X'X)^-1 c): what to multiply the residual deviation by for the standard error of a contrast c of the coefficients. */
  contrastLength(contrast: readonly number[]): number;
  /** Whether the residuals are more than rounding. */
  readonly hasScatter: boolean;
}

/** A linear model fitted to the values less their mean. */
export interface LeastSquares extends Fit {
  /** Square root of the sum of squares that the last `count` columns account for beyond all before them. */
  lengthOfLast(count: number): number;
  /** The fit without one of the values; null where the columns would then not be independent. */
  without(row: number): Fit | null;
}

/**
 * Least squares by Householder QR of the columns, which must be independent and have the constant among their combinations. The
 * values' mean is taken out first, for their scatter would lose digits to it.
 *
 *     X = QR,  R b = Q'y,  residuals y - Q Q'y
 *
 * Without the value of row i, whose residual is e and whose row of Q is q, it is by the same decomposition
 *
 *     b - R^-1 q e/(1 - q'q),  residuals r + Q q e/(1 - q'q),  c' (X'X)^-1 c + (c' R^-1 q)^2/(1 - q'q)
 *
 * Sources: G. H. Golub, Numerical methods for solving linear least squares problems, Numer. Math. 7, 206 (1965); the decomposition from
 * ml-matrix; without a row, R. D. Cook and S. Weisberg, Residuals and influence in regression (1982), section 2.2 (from memory), checked
 * against fits made anew.
 */
export function leastSquares(columns: readonly (readonly number[])[], values: readonly number[]): LeastSquares {
  const count = columns.length;
  const size = Math.max(...values.map(Math.abs), 0);
  const centre = values.reduce((sum, value) => sum + value / values.length, 0);
  const qr = new QrDecomposition(asMatrix(columns));
  const orthogonal = qr.orthogonalMatrix;
  const inverseR = inverse(qr.upperTriangularMatrix);
  const deviations = values.map((value) => value - centre);
  const parts = Array.from({ length: count }, (_, column) =>
    deviations.reduce((sum, value, row) => sum + value * orthogonal.get(row, column), 0),
  );
  const residuals = deviations.map((value, row) =>
    parts.reduce((left, part, column) => left - part * orthogonal.get(row, column), value),
  );
  const degreesOfFreedom = values.length - count;
  const residualDeviation = degreesOfFreedom > 0 ? Math.hypot(...residuals) / Math.sqrt(degreesOfFreedom) : null;
  const coefficients = Array.from({ length: count }, (_, row) =>
    parts.reduce((sum, part, column) => sum + inverseR.get(row, column) * part, 0),
  );
  /** c' R^-1; kept for the contrast that was asked for last, which is asked for again without each row. */
  let latest: { readonly contrast: readonly number[]; readonly lengths: readonly number[] } | null = null;
  const through = (contrast: readonly number[]) => {
    if (latest?.contrast === contrast) return latest.lengths;
    const used = [...contrast.keys()].filter((row) => contrast[row] !== 0);
    const lengths = Array.from({ length: count }, (_, column) =>
      used.reduce((sum, row) => sum + (contrast[row] ?? 0) * inverseR.get(row, column), 0),
    );
    latest = { contrast, lengths };
    return lengths;
  };
  const isScatter = (deviation: number | null) => deviation !== null && deviation > 50 * Number.EPSILON * size;
  const without = (row: number): Fit | null => {
    const own = orthogonal.getRow(row);
    const left = 1 - dot(own, own);
    if (left < DEPENDENT) return null;
    const moved = (residuals[row] ?? 0) / left;
    // Q q, of all rows.
    const moves = orthogonal.mmul(Matrix.columnVector(own)).to1DArray();
    const others = residuals.flatMap((residual, other) =>
      other === row ? [] : [residual + moved * (moves[other] ?? 0)],
    );
    const deviation = degreesOfFreedom > 1 ? Math.hypot(...others) / Math.sqrt(degreesOfFreedom - 1) : null;
    const taken = inverseR.mmul(Matrix.columnVector(own)).to1DArray();
    return {
      coefficients: coefficients.map((one, place) => one - moved * (taken[place] ?? 0)),
      residualDeviation: deviation,
      degreesOfFreedom: degreesOfFreedom - 1,
      contrastLength: (contrast) => {
        const lengths = through(contrast);
        return Math.hypot(...lengths, dot(lengths, own) / Math.sqrt(left));
      },
      hasScatter: isScatter(deviation),
    };
  };
  return {
    coefficients,
    residualDeviation,
    degreesOfFreedom,
    lengthOfLast: (last) => Math.hypot(...parts.slice(count - last)),
    contrastLength: (contrast) => Math.hypot(...through(contrast)),
    hasScatter: isScatter(residualDeviation),
    without,
  };
}

function dot(one: readonly number[], other: readonly number[]): number {
  return one.reduce((sum, part, place) => sum + part * (other[place] ?? 0), 0);
}

/** A column that is a combination of others before it. */
export interface Dependency {
  readonly column: number;
  readonly on: readonly number[];
}

/** Which of the columns are independent, taken from the first on, and on which of these each of the others depends. */
export function independentColumns(columns: readonly (readonly number[])[]): {
  readonly independent: readonly number[];
  readonly dependencies: readonly Dependency[];
} {
  if (areIndependent(columns)) return { independent: [...columns.keys()], dependencies: [] };
  const independent: number[] = [];
  const dependencies: Dependency[] = [];
  columns.forEach((values, column) => {
    const taken = independent.map((index) => columns[index] ?? []);
    const length = Math.hypot(...values);
    if (length === 0) {
      dependencies.push({ column, on: [] });
      return;
    }
    if (taken.length === 0) {
      independent.push(column);
      return;
    }
    const fit = taken.length < values.length ? leftOver(taken, values) : { length: 0, on: solve(taken, values) };
    if (fit.length > DEPENDENT * length) independent.push(column);
    else {
      const on = independent.filter((_, place) => Math.abs(fit.on[place] ?? 0) > DEPENDENT);
      dependencies.push({ column, on });
    }
  });
  return { independent, dependencies };
}

/** Whether each column has something left beside those before it: the diagonal of R. */
function areIndependent(columns: readonly (readonly number[])[]): boolean {
  const rows = columns[0]?.length ?? 0;
  if (columns.length === 0 || columns.length > rows) return columns.length === 0;
  const triangle = new QrDecomposition(asMatrix(columns)).upperTriangularMatrix;
  return columns.every((column, place) => Math.abs(triangle.get(place, place)) > DEPENDENT * Math.hypot(...column));
}

/** What is left of a column beside others, and its coefficients on them. */
function leftOver(columns: readonly (readonly number[])[], values: readonly number[]) {
  const coefficients = solve(columns, values);
  const residuals = values.map((value, row) =>
    columns.reduce((left, column, place) => left - (coefficients[place] ?? 0) * (column[row] ?? 0), value),
  );
  return { length: Math.hypot(...residuals), on: coefficients };
}

function solve(columns: readonly (readonly number[])[], values: readonly number[]): number[] {
  return new QrDecomposition(asMatrix(columns)).solve(Matrix.columnVector([...values])).to1DArray();
}

function asMatrix(columns: readonly (readonly number[])[]): Matrix {
  const rows = columns[0]?.length ?? 0;
  const matrix = new Matrix(rows, columns.length);
  columns.forEach((column, place) => {
    column.forEach((value, row) => {
      matrix.set(row, place, value);
    });
  });
  return matrix;
}
