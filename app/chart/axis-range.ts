import type { LabelledInterval } from "../../core/index.ts";

/**
 * How far an interval may stretch an axis, in widths of what else is on it. Two runs can have an interval thirty times as
 * wide as their scatter: drawn whole it would press everything else into a line, so it leaves the axis with an arrow.
 */
const stretch = 1;
const margin = 0.04;

/**
 * Ends of an axis that shows all values, and intervals as far as that leaves the values readable. `leastSpan`: what is on the
 * axis is taken to be at least this wide.
 */
export function axisRange(
  values: readonly number[],
  intervals: readonly LabelledInterval[],
  leastSpan = 0,
): { readonly min: number; readonly max: number } {
  const shown = [...values, ...intervals.map((interval) => interval.value)].filter(Number.isFinite);
  if (shown.length === 0) return { min: 0, max: 1 };
  const least = shown.reduce((a, b) => Math.min(a, b));
  const greatest = shown.reduce((a, b) => Math.max(a, b));
  const span = Math.max(greatest - least, leastSpan) || narrowest(intervals) || Math.abs(least) / 10 || 1;
  let min = least;
  let max = greatest;
  for (const { lower, upper } of intervals) {
    if (lower !== null && Number.isFinite(lower)) min = Math.min(min, Math.max(lower, least - stretch * span));
    if (upper !== null && Number.isFinite(upper)) max = Math.max(max, Math.min(upper, greatest + stretch * span));
  }
  // Narrower than this, ticks could not be told apart, nor places computed: values are the same for a picture.
  const narrow = Math.max(1e-12, 1e-9 * Math.max(Math.abs(min), Math.abs(max)));
  if (max - min < narrow) {
    const half = Math.max(span, narrow) / 2;
    return { min: min - half, max: max + half };
  }
  return { min: min - margin * (max - min), max: max + margin * (max - min) };
}

/** Width of the narrowest interval that has one; 0 where none has. */
export function narrowest(intervals: readonly LabelledInterval[]): number {
  const widths = intervals
    .map(({ lower, upper }) => (lower === null || upper === null ? 0 : upper - lower))
    .filter((width) => width > 0 && Number.isFinite(width));
  return widths.length > 0 ? Math.min(...widths) : 0;
}

/** Decimals that tell the ticks of an axis apart. */
export function tickDecimals(step: number): number {
  for (let decimals = 0; decimals < 10; decimals++) {
    const scaled = Math.abs(step) * 10 ** decimals;
    if (Math.abs(scaled - Math.round(scaled)) < 1e-6 * Math.max(1, scaled) && Math.round(scaled) > 0) return decimals;
  }
  return 10;
}
