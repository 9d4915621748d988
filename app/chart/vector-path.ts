/** A piece of an outline, in the surface's own coordinates. */
export type Segment =
  | { readonly kind: "move"; readonly x: number; readonly y: number }
  | { readonly kind: "line"; readonly x: number; readonly y: number }
  | { readonly kind: "curve"; readonly points: readonly [number, number, number, number, number, number] }
  | { readonly kind: "close" };

/** a c e / b d f, as the transform of a canvas. */
export type Matrix = readonly [number, number, number, number, number, number];

export const identity: Matrix = [1, 0, 0, 1, 0, 0];

/** The matrix that applies `inner` first. */
export function multiply(outer: Matrix, inner: Matrix): Matrix {
  const [a, b, c, d, e, f] = outer;
  const [g, h, i, j, k, l] = inner;
  return [a * g + c * h, b * g + d * h, a * i + c * j, b * i + d * j, a * k + c * l + e, b * k + d * l + f];
}

export function apply([a, b, c, d, e, f]: Matrix, x: number, y: number): readonly [number, number] {
  return [a * x + c * y + e, b * x + d * y + f];
}

/** How much longer a line becomes: the square root of the area's factor. */
export function scaleOf([a, b, c, d]: Matrix): number {
  return Math.sqrt(Math.abs(a * d - b * c));
}

/**
 * Bezier pieces of an ellipse's arc, each of at most a quarter turn: control points lie 4/3 tan(angle/4) along the
 * tangents, which is off the true arc by less than 0.03 % of the radius.
 */
export function arcCurves(
  x: number,
  y: number,
  radiusX: number,
  radiusY: number,
  rotation: number,
  start: number,
  sweep: number,
): (readonly [number, number, number, number, number, number])[] {
  const count = Math.max(1, Math.ceil(Math.abs(sweep) / (Math.PI / 2) - 1e-9));
  const step = sweep / count;
  const reach = (4 / 3) * Math.tan(step / 4);
  const at = (cos: number, sin: number): [number, number] => [
    x + radiusX * cos * Math.cos(rotation) - radiusY * sin * Math.sin(rotation),
    y + radiusX * cos * Math.sin(rotation) + radiusY * sin * Math.cos(rotation),
  ];
  return Array.from({ length: count }, (_, index) => {
    const from = start + index * step;
    const to = from + step;
    const [c1, s1, c2, s2] = [Math.cos(from), Math.sin(from), Math.cos(to), Math.sin(to)];
    return [...at(c1 - reach * s1, s1 + reach * c1), ...at(c2 + reach * s2, s2 - reach * c2), ...at(c2, s2)] as const;
  });
}

/** Sweep from start to end as a canvas understands it: a full turn stays one, otherwise less than a turn. */
export function sweepOf(start: number, end: number, counterclockwise: boolean): number {
  const turn = 2 * Math.PI;
  const raw = counterclockwise ? start - end : end - start;
  const sweep = raw >= turn ? turn : ((raw % turn) + turn) % turn;
  return counterclockwise ? -sweep : sweep;
}
